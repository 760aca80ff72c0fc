// Things far from all others: a slip of a digit, another reference system, or easting and northing
// exchanged. The plan is divided into cells as wide as things may lie apart; cells that touch
// belong together, and the group with most things is the site. So anything within kApart of the
// site belongs to it, and anything more than three times as far does not.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/geom/measure.hpp"
#include "engine/site/plausible.hpp"
#include "engine/site/problem_list.hpp"

namespace rootstead {
namespace {

using Cell = std::pair<std::int64_t, std::int64_t>;

// Nothing on the Earth's grids lies further out; beyond it cells could not be counted.
constexpr double kEndOfGrids = 1e12;  // metres

std::optional<Cell> cell_of(const Point& p) {
  const double size = plausible::kApart.metres();
  if (!(std::abs(p.x) < kEndOfGrids && std::abs(p.y) < kEndOfGrids)) return std::nullopt;
  return Cell{std::llround(std::floor(p.x / size)), std::llround(std::floor(p.y / size))};
}

// A tree, work, barrier or surface with the points that say where it is.
struct Thing {
  std::string subject;
  Line points;
};

void add_points(const MultiPolygon& area, Line& points) {
  for (const Polygon& polygon : area)
    points.insert(points.end(), polygon.outer.begin(), polygon.outer.end());
}

Line points_of(const Shape& shape) {
  Line points = shape.points;
  for (const Line& line : shape.lines) points.insert(points.end(), line.begin(), line.end());
  add_points(shape.areas, points);
  return points;
}

// Groups of cells that touch, by side or corner, or that one thing reaches into.
class Groups {
 public:
  explicit Groups(const std::vector<Thing>& things) {
    for (const Thing& thing : things) add(thing);
    for (const auto& [cell, number] : numbers_) {
      for (std::int64_t dx = -1; dx <= 1; ++dx) {
        for (std::int64_t dy = -1; dy <= 1; ++dy) {
          const auto beside = numbers_.find({cell.first + dx, cell.second + dy});
          if (beside != numbers_.end()) join(number, beside->second);
        }
      }
    }
    find_largest();
  }

  bool any() const { return largest_.has_value(); }

  bool in_largest(const Point& p) const {
    const auto cell = cell_of(p);
    if (!cell) return false;
    const auto found = numbers_.find(*cell);
    return found != numbers_.end() && root_of(found->second) == *largest_;
  }

  // Would the point belong to the largest group, were it one of its things?
  bool near_largest(const Point& p) const {
    const double size = plausible::kApart.metres();
    for (const double dx : {0.0, -size, size}) {
      for (const double dy : {0.0, -size, size}) {
        if (in_largest({p.x + dx, p.y + dy})) return true;
      }
    }
    return false;
  }

 private:
  void add(const Thing& thing) {
    std::optional<std::size_t> first;
    for (const Point& p : thing.points) {
      const auto cell = cell_of(p);
      if (!cell) continue;
      const auto [found, fresh] = numbers_.try_emplace(*cell, parents_.size());
      if (fresh) {
        parents_.push_back(found->second);
        things_.push_back(0);
      }
      if (first) join(*first, found->second);
      if (!first) ++things_[found->second];
      first = first.value_or(found->second);
    }
  }

  std::size_t root_of(std::size_t number) const {
    while (parents_[number] != number) number = parents_[number];
    return number;
  }

  void join(std::size_t a, std::size_t b) {
    const std::size_t root_a = root_of(a), root_b = root_of(b);
    parents_[std::max(root_a, root_b)] = std::min(root_a, root_b);
  }

  // The first of the largest, in the order in which things came.
  void find_largest() {
    std::vector<std::size_t> totals(parents_.size(), 0);
    for (std::size_t i = 0; i < parents_.size(); ++i) totals[root_of(i)] += things_[i];
    const auto most = std::max_element(totals.begin(), totals.end());
    if (most != totals.end()) largest_ = static_cast<std::size_t>(most - totals.begin());
  }

  std::map<Cell, std::size_t> numbers_;
  std::vector<std::size_t> parents_, things_;
  std::optional<std::size_t> largest_;
};

std::vector<Thing> things_of(const Site& site) {
  std::vector<Thing> things;
  for (const Tree& tree : site.trees) {
    if (tree.position && is_finite(tree.position->at))
      things.push_back({subject_of(tree), {tree.position->at}});
  }
  for (const Work& work : site.works) {
    things.push_back({subject_of(work), points_of(work.shape)});
    add_points(work.bore_pits, things.back().points);
  }
  for (const Barrier& barrier : site.barriers)
    things.push_back({subject_of(barrier), points_of(barrier.shape)});
  for (const Surface& surface : site.surfaces) {
    things.push_back({subject_of(surface), {}});
    add_points(surface.area, things.back().points);
  }
  return things;
}

}  // namespace

void check_remoteness(const Site& site, ProblemList& problems) {
  const std::vector<Thing> things = things_of(site);
  const Groups groups(things);
  if (!groups.any()) return;
  for (const Thing& thing : things) {
    if (thing.points.empty() || groups.in_largest(thing.points.front())) continue;
    const Point& at = thing.points.front();
    if (groups.near_largest({at.y, at.x})) {
      problems.add({true, NoteCode::coordinates_swapped, thing.subject,
                    "it lies far from all others, and among them once easting and northing change "
                    "places",
                    "exchange the two coordinates"});
    } else {
      problems.add({false, NoteCode::outside_site, thing.subject,
                    "it lies more than 10 km from most of the site",
                    "check the coordinates, their unit and their reference system"});
    }
  }
}

}  // namespace rootstead
