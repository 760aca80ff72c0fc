// Where things are, in relation to each other.
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/base/text.hpp"
#include "engine/geom/box_index.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/site/plausible.hpp"
#include "engine/site/problem_list.hpp"

namespace rootstead {
namespace {

using namespace plausible;

// Areas of one kind, each with the name it goes by in a message.
class NamedAreas {
 public:
  void add(const std::string& name, const MultiPolygon& area) {
    for (const Polygon& polygon : area) {
      names_.push_back(name);
      areas_.push_back({polygon});
      boxes_.push_back(box_of(areas_.back()));
    }
  }
  void finish() { index_ = BoxIndex(boxes_); }

  // The name of an area that holds the point, or nothing.
  std::optional<std::string> holding(const Point& point) const {
    for (const std::size_t i : index_.near(point, Length())) {
      if (contains(areas_[i], point)) return names_[i];
    }
    return std::nullopt;
  }

  // The nearest area within `reach`, and how far it is.
  std::optional<std::pair<std::string, Length>> nearest(const Point& point, Length reach) const {
    std::optional<std::pair<std::string, Length>> best;
    for (const std::size_t i : index_.near(point, reach)) {
      const Length away = distance_between(point, areas_[i]);
      if (away <= reach && (!best || away < best->second)) best = {names_[i], away};
    }
    return best;
  }

 private:
  std::vector<std::string> names_;
  std::vector<MultiPolygon> areas_;
  std::vector<Box> boxes_;
  BoxIndex index_;
};

std::string name_or(const std::string& id, const std::string& name, std::string_view otherwise) {
  if (!id.empty()) return id;
  return name.empty() ? std::string(otherwise) : name;
}

struct Surroundings {
  NamedAreas buildings, paving, works;
};

Surroundings surroundings_of(const Site& site) {
  Surroundings around;
  for (const Barrier& barrier : site.barriers) {
    if (barrier.kind == BarrierKind::building)
      around.buildings.add(name_or(barrier.id, barrier.name, "without a name"),
                           barrier.shape.areas);
  }
  for (const Surface& surface : site.surfaces)
    around.paving.add(name_or(surface.id, surface.name, "without a name"), surface.area);
  for (const Work& work : site.works) {
    const std::string name = name_or(work.id, work.name, "without a name");
    if (work.state != WorkState::existing) {
      around.works.add(std::string(to_text(work.kind)) + " " + name, footprint(work));
    } else if (work.kind == WorkKind::building) {
      around.buildings.add(name, footprint(work));
    } else if (work.kind == WorkKind::paving) {
      around.paving.add(name, footprint(work));
    }
  }
  around.buildings.finish();
  around.paving.finish();
  around.works.finish();
  return around;
}

void check_ground(const Tree& tree, const Surroundings& around, ProblemList& problems) {
  const Point& at = tree.position->at;
  if (const auto building = around.buildings.holding(at)) {
    problems.add({false, NoteCode::tree_inside_building, subject_of(tree),
                  "the stem stands inside building " + *building,
                  "check the position and the outline of the building"});
  } else if (const auto paving = around.paving.holding(at)) {
    problems.add({false, NoteCode::tree_inside_paving, subject_of(tree),
                  "the stem stands inside paving " + *paving,
                  "draw the tree pit, or check the position"});
  }
}

void check_error(const Tree& tree, const Surroundings& around, ProblemList& problems) {
  if (!tree.position->error) return;
  const EnteredLength& error = *tree.position->error;
  if (error.length() <= kTapeError) return;
  const auto nearest = around.works.nearest(tree.position->at, kReachOfWorks);
  if (!nearest || error.length() <= nearest->second * kErrorShare) return;
  problems.add({false, NoteCode::position_error_large, subject_of(tree),
                "the position is good to " + to_text(error) + ", too vague for the " +
                    nearest->first + " " + metres_text(nearest->second) + " away",
                "measure the distance to that work by tape or instrument"});
}

}  // namespace

void check_surroundings(const Site& site, ProblemList& problems) {
  const Surroundings around = surroundings_of(site);
  for (const Tree& tree : site.trees) {
    if (!tree.position || !is_finite(tree.position->at)) continue;
    check_ground(tree, around, problems);
    check_error(tree, around, problems);
  }
}

}  // namespace rootstead
