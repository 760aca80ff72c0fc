// Taper: what a trunk's diameter close to the ground says of a flare that cannot be seen.
// No published profile of sound flares is known to us: the law and its limits are our assumption,
// kept as rows of data/parameters/root_crown.csv so that they can be changed.
//   d(z) = d (1 + k exp(-z / s)), z above the ground as it lies today, s = 0.25 m
// A sound flare has k from 0.3 to 0.6 at its own level. How deep a flare lies is not read from
// this: two centimetres of error in a
// diameter are more than a decimetre of depth.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/quantity.hpp"
#include "engine/site/tree.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

enum class TaperSays {
  like_a_flare,   // the trunk widens towards the ground
  worth_a_probe,  // little
  like_a_pole,    // hardly at all: suspect burial
};

struct TaperFit {
  Length stem;       // d: what the trunk thins to above the flare
  double k = 0;      // how much wider it is at the ground, of d; negative where it narrows
  double ratio = 1;  // d(0) / d(0.3 m) by the fit; measured where those two were read
  TaperSays says = TaperSays::like_a_flare;
  Figure figure;  // root-crown.taper.ratio
};

// Least squares over the readings within a metre of the ground; exact for two. Nothing where
// there are not two at different heights, or where they cannot be a trunk. Not for palms.
std::optional<TaperFit> fit_taper(const std::vector<TaperReading>& readings, const Tables& tables);

std::string_view to_text(TaperSays says);  // "like a flare", "worth a probe", "like a pole"

}  // namespace rootstead
