// How to water a tree that lost roots, or was moved: how much, how often, and when not to.
// The demand of the crown stays; what the remaining roots can draw on shrinks. So the litres of a
// week stay about the same, and come in smaller portions, more often. Method, sources and what it
// cannot know: docs/methods/water.md.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/note.hpp"
#include "engine/base/prescription.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"
#include "engine/water/crown_demand.hpp"

namespace rootstead {

// In dry weather. Ranges run from the least to the most thirsty reading of what is not known.
struct WaterAmounts {
  Range litres_per_week;
  Range litres_per_event;  // after a loss: what fills the rooted ground up to field capacity
  Range days_between;      // of the portions; under one: it cannot be held by watering alone
  std::optional<Range> rain_mm_per_week;  // that soaks in and makes watering needless
};

// A stretch of the schedule after a move.
struct WaterStage {
  double weeks_from = 0;
  std::optional<Range> weeks_to;  // none: until established
  double days_between = 1;
};

struct WaterAdvice {
  std::string tree;                         // id
  std::optional<WaterAmounts> amounts;      // none: the crown is not known and cannot be filled
  std::vector<WaterStage> stages;           // after a move
  std::vector<Figure> figures;              // water.* with their trails
  std::vector<Prescription> prescriptions;  // topic "irrigation"
  std::vector<Note> notes;
};

struct WaterAfterLoss {
  Range share_lost;                  // of the absorbing roots, 0 to 1
  Length root_radius;                // of the ground that held them, before the loss
  std::optional<Length> root_depth;  // that holds most of them; else a stated assumption
  std::optional<int> month;          // 1 to 12; else the thirstiest
  SpeciesWater species = SpeciesWater::unknown;
};
// Soil, climate and units are those of the site.
WaterAdvice watering_after_loss(const Tree& tree, const WaterAfterLoss& loss, const Site& site,
                                const Tables& tables);

struct WaterAfterMove {
  Length ball_diameter;
  Length ball_depth;
  std::optional<int> month;
  SoilTexture ball_texture = SoilTexture::unknown;  // unknown: that of the site
  SpeciesWater species = SpeciesWater::unknown;
};
// Palms and other monocots have no gallons per inch of trunk: their ball and crown decide.
WaterAdvice watering_after_move(const Tree& tree, const WaterAfterMove& move, const Site& site,
                                const Tables& tables);

// Litres of one watering of a young tree by its calliper: 2 to 3 US gallons per inch, published;
// 1 to 2 where the climate is cool. Fails with outside_rule_domain for palms and other monocots.
Result<Range> litres_per_calliper(Length calliper, GrowthForm form, bool cool,
                                  const Tables& tables);
// Litres a week of a grown tree in dry weather: 10 US gallons per inch of stem, common practice.
// Fails as the other does.
Result<Range> litres_per_stem_week(Length stem, GrowthForm form, const Tables& tables);

// Litres of water that roots can take from a dug ball: a cone cut off at the underside, of palms a
// cylinder.
double ball_water_litres(Length diameter, Length depth, double taper, double mm_per_m);

}  // namespace rootstead
