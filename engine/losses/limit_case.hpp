// One limit of a rule laid on one zone: what each measure has in common. Private to this room.
#pragma once

#include <string>
#include <vector>

#include "engine/losses/losses.hpp"
#include "engine/losses/zone_plan.hpp"

namespace rootstead {

// Everything a measure may ask for.
struct LimitCase {
  const ZoneRule& rule;
  const LimitDefinition& limit;
  const Zone& zone;
  const ZoneLoss& loss;
  const Tree& tree;
  const WorkMap& works;
  ZonePlan plan{zone};
};

// What was found: the value, the works behind it (heaviest first) and the trail.
struct Finding {
  double value = 0;
  double threshold = 0;
  bool passed = false;
  std::string unit = {};
  std::string formula = {};
  std::vector<FigureInput> inputs = {};
  std::vector<std::string> works = {};
};

Finding area_share(const LimitCase& c);
Finding trench_side(const LimitCase& c);
Finding unsurfaced_share(const LimitCase& c);
Finding any_entry(const LimitCase& c);
Finding nearest_approach(const LimitCase& c);
Finding nearest_distance(const LimitCase& c);
Finding level_change(const LimitCase& c);

// Is the threshold passed, upward or downward? A value within rounding of it has reached it.
bool is_above(const Finding& f, bool inclusive);
bool is_below(const Finding& f, bool inclusive);

struct WeighedWork {
  std::string work;
  double weight = 0;
};
std::vector<std::string> heaviest_first(std::vector<WeighedWork> weighed);

std::string text_of(Area area);      // "16.619 m2"
std::string text_of(Length length);  // "1.500 m"

}  // namespace rootstead
