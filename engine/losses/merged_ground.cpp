#include "engine/losses/merged_ground.hpp"

#include <algorithm>
#include <utility>

#include "engine/geom/circle_area.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/geom/pieces.hpp"

namespace rootstead {
namespace {

// The paving of a whole campus may be one polygon; cut up, each zone meets only what is near.
constexpr PieceLimits kPieces{.most_corners = 1'000};

// The parts sorted into groups whose boxes hang together, by the smallest number in each.
std::vector<std::vector<std::size_t>> groups_of(const std::vector<MultiPolygon>& parts) {
  std::vector<Box> boxes;
  boxes.reserve(parts.size());
  for (const MultiPolygon& part : parts) boxes.push_back(box_of(part));
  const BoxIndex places(boxes);
  std::vector<bool> sorted_in(parts.size(), false);
  std::vector<std::vector<std::size_t>> groups;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (sorted_in[i] || boxes[i].empty()) continue;
    std::vector<std::size_t> group = {i};
    sorted_in[i] = true;
    for (std::size_t next = 0; next < group.size(); ++next) {
      for (const std::size_t other : places.meeting(boxes[group[next]])) {
        if (!sorted_in[other]) group.push_back(other);
        sorted_in[other] = true;
      }
    }
    std::sort(group.begin(), group.end());
    groups.push_back(std::move(group));
  }
  return groups;
}

}  // namespace

std::shared_ptr<const MergedGround::Group> MergedGround::merged(std::vector<MultiPolygon> parts) {
  auto group = std::make_shared<Group>();
  group->merged = union_of(parts);
  group->parts = std::move(parts);
  for (const Polygon& polygon : group->merged) {
    const MultiPolygon pieces = pieces_of(polygon, kPieces);
    group->pieces.insert(group->pieces.end(), pieces.begin(), pieces.end());
  }
  return group;
}

MergedGround::MergedGround(const std::vector<MultiPolygon>& parts, const MergedGround& before) {
  std::size_t hint = 0;  // where the next group stood, if nothing moved
  for (const std::vector<std::size_t>& numbers : groups_of(parts)) {
    std::vector<MultiPolygon> of_group;
    for (const std::size_t i : numbers) of_group.push_back(parts[i]);
    std::shared_ptr<const Group> group;
    for (std::size_t tried = 0; tried < before.groups_.size() && !group; ++tried) {
      const std::size_t place = (hint + tried) % before.groups_.size();
      if (before.groups_[place]->parts != of_group) continue;
      group = before.groups_[place];
      hint = place + 1;
    }
    groups_.push_back(group ? std::move(group) : merged(std::move(of_group)));
  }
  std::vector<Box> boxes;
  for (const auto& group : groups_) {
    whole_.insert(whole_.end(), group->merged.begin(), group->merged.end());
    pieces_.insert(pieces_.end(), group->pieces.begin(), group->pieces.end());
  }
  for (const Polygon& piece : pieces_) boxes.push_back(box_of(piece.outer));
  places_ = BoxIndex(boxes);
}

MultiPolygon MergedGround::picked(const std::vector<std::size_t>& which) const {
  MultiPolygon found;
  for (const std::size_t i : which) found.push_back(pieces_[i]);
  return found;
}

MultiPolygon MergedGround::near(const Point& at, Length reach) const {
  return picked(places_.near(at, reach));
}

MultiPolygon MergedGround::meeting(const Box& box) const {
  return picked(places_.meeting(box));
}

std::vector<Box> MergedGround::changed_since(const MergedGround& before) const {
  std::vector<Box> boxes;
  const auto add_missing = [&](const auto& groups, const auto& others) {
    for (const auto& group : groups) {
      if (std::find(others.begin(), others.end(), group) != others.end()) continue;
      for (const Polygon& piece : group->pieces) boxes.push_back(box_of(piece.outer));
    }
  };
  add_missing(groups_, before.groups_);
  add_missing(before.groups_, groups_);
  return boxes;
}

Area MergedGround::common(const Circle& circle) const {
  Area sum;
  for (const std::size_t i : places_.near(circle.centre, circle.radius)) {
    sum += common_area(circle, pieces_[i]);
  }
  return sum;
}

}  // namespace rootstead
