// What is impossible or doubtful in boundary, gates and climate, and what lies outside the
// boundary.
#include <cmath>
#include <string>
#include <unordered_set>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/site/plausible.hpp"
#include "engine/site/problem_list.hpp"

namespace rootstead {
namespace {

using namespace plausible;

bool is_clients(const std::string& ownership) {
  const std::string word = lower_case(trimmed(ownership));
  return word == "client" || word == "client's" || word == "the client";
}

void check_trees_outside(const Site& site, ProblemList& problems) {
  for (const Tree& tree : site.trees) {
    if (!is_clients(tree.ownership) || !tree.position || !is_finite(tree.position->at)) continue;
    if (contains(site.boundary, tree.position->at)) continue;
    const Length away = distance_between(tree.position->at, site.boundary);
    if (away <= kBesideBoundary) continue;
    problems.add(
        {false, NoteCode::outside_boundary, subject_of(tree),
         "it is said to be the client's and stands " + metres_text(away) + " outside the boundary",
         "check whose it is, its position and the boundary"});
  }
}

void check_works_outside(const Site& site, ProblemList& problems) {
  const MultiPolygon allowed = grown(site.boundary, kBesideBoundary);
  for (const Work& work : site.works) {
    if (work.state == WorkState::existing) continue;
    const Area outside = area_of(difference_of(footprint(work), allowed));
    if (outside <= kSliverOutside) continue;
    problems.add({false, NoteCode::outside_boundary, subject_of(work),
                  fixed_number(outside.square_metres(), 1) +
                      " m2 of it lie outside the boundary of the ground the client may use",
                  "check the boundary, or agree the work with the neighbour"});
  }
}

void check_gate(const Gate& gate, const Site& site, ProblemList& problems) {
  const auto add = [&](bool blocks, std::string message, std::string remedy) {
    problems.add({blocks, NoteCode::gate_doubtful, subject_of(Origin{}, "gate", gate.id),
                  std::move(message), std::move(remedy)});
  };
  const std::string width = "the width of " + to_text(gate.width);
  if (!(gate.width.length() > Length())) {
    add(true, width + " is not above zero", "enter the clear width of the gate");
  } else if (gate.width.length() > kWidestGate) {
    add(false, width + " is very wide", "check the unit and the reading");
  }
  if (!is_finite(gate.at)) {
    add(true, "the position is not a pair of numbers", "enter easting and northing");
  } else if (!site.boundary.empty()) {
    const Length away = distance_between(gate.at, site.boundary);
    if (away > kGateFromBoundary)
      add(false, "it lies " + metres_text(away) + " outside the boundary",
          "check its position and the boundary");
  }
}

void check_gates(const Site& site, ProblemList& problems) {
  constexpr Length kSamePlace = Length::millimetres(1);
  std::unordered_set<std::string> ids;
  for (std::size_t i = 0; i < site.gates.size(); ++i) {
    const Gate& gate = site.gates[i];
    check_gate(gate, site, problems);
    const std::string subject = subject_of(Origin{}, "gate", gate.id);
    if (!gate.id.empty() && !ids.insert(gate.id).second)
      problems.add({true, NoteCode::tag_duplicate, subject,
                    "the id " + gate.id + " is already that of another gate",
                    "give each gate an id of its own"});
    for (std::size_t j = 0; j < i; ++j) {
      if (distance(gate.at, site.gates[j].at) > kSamePlace) continue;
      problems.add({false, NoteCode::gate_doubtful, subject,
                    "it stands where gate " + site.gates[j].id + " stands",
                    "take one of them out"});
      break;
    }
  }
}

class ClimateCheck {
 public:
  ClimateCheck(const Climate& climate, ProblemList& problems)
      : climate_(climate), problems_(problems) {}

  void run() {
    if (climate_.hardiness_zone &&
        (*climate_.hardiness_zone < kColdestZone || *climate_.hardiness_zone > kWarmestZone))
      add(true, "there is no hardiness zone " + std::to_string(*climate_.hardiness_zone),
          "set climate.hardiness_zone from 1 to 13");
    if (climate_.latitude && !(std::abs(*climate_.latitude) <= kPole))
      add(true, "a latitude of " + shortest_number(*climate_.latitude) + " degrees is impossible",
          "set climate.latitude from -90 to 90, north positive");
    if (climate_.elevation &&
        !(*climate_.elevation >= kLowestGround && *climate_.elevation <= kHighestGround))
      add(false,
          "an elevation of " + shortest_number(*climate_.elevation) + " m is where no trees grow",
          "check its unit");
    months(climate_.evapotranspiration, "evapotranspiration", "climate.et0", kDriestAir);
    months(climate_.rain, "rain", "climate.rain", kWettestMonth);
  }

 private:
  void add(bool blocks, std::string message, std::string remedy) {
    problems_.add(
        {blocks, NoteCode::climate_doubtful, "climate", std::move(message), std::move(remedy)});
  }

  void months(const std::vector<double>& values, const std::string& what, const std::string& key,
              double most) {
    constexpr std::size_t kMonths = 12;
    if (values.empty()) return;
    if (values.size() != kMonths)
      add(true, "the " + what + " has " + std::to_string(values.size()) + " months, not 12",
          "set " + key + " to twelve numbers, January to December");
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (values[i] >= 0 && values[i] <= most) continue;
      add(true,
          "the " + what + " of month " + std::to_string(i + 1) + ", " + shortest_number(values[i]) +
              " mm a day, is impossible",
          "set " + key + " in mm a day, from 0 to " + shortest_number(most));
      return;
    }
  }

  const Climate& climate_;
  ProblemList& problems_;
};

}  // namespace

void check_boundary(const Site& site, ProblemList& problems) {
  check_gates(site, problems);
  if (site.boundary.empty()) return;
  if (!is_valid(site.boundary))
    problems.add({false, NoteCode::shape_doubtful, "boundary",
                  "an outline crosses itself or another", "draw it again without crossings"});
  check_trees_outside(site, problems);
  check_works_outside(site, problems);
}

void check_climate(const Site& site, ProblemList& problems) {
  ClimateCheck(site.climate, problems).run();
}

}  // namespace rootstead
