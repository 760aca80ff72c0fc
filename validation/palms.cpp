// The observations of palm roots: T28 to T30.
#include <algorithm>

#include "engine/roots/field_source.hpp"
#include "engine/roots/palm_regrowth.hpp"
#include "validation/shipped.hpp"
#include "validation/thick_parts.hpp"
#include "validation/words.hpp"

namespace rootstead::validation {
namespace {

RootField field_of(const std::string& name) {
  Tree palm;
  palm.id = "palm";
  palm.form = GrowthForm::palm;
  palm.botanical_name = name;
  const Soil soil;
  return fibrous_fields(palm, {}, shipped().species_of(name), soil, shipped())->central();
}

// Of the roots above 0.6 m, those above 0.3 m.
double top_share(const std::string& name) {
  const DepthLaw law = field_of(name).depth;
  return law.share_above(0.3, 0) / law.share_above(0.6, 0);
}

Target t28() {
  std::vector<double> shares;
  for (const char* name :
       {"Archontophoenix cunninghamiana", "Brahea edulis", "Butia capitata", "Caryota mitis",
        "Chamaerops humilis", "Livistona chinensis", "Livistona decipiens", "Phoenix canariensis",
        "Phoenix reclinata", "Rhapidophyllum hystrix", "Sabal etonia", "Serenoa repens",
        "Syagrus romanzoffiana", "Trachycarpus fortunei", "Trachycarpus wagnerianus",
        "Washingtonia robusta"})
    shares.push_back(top_share(name));
  double mean = 0;
  for (const double share : shares) mean += share / static_cast<double>(shares.size());
  std::sort(shares.begin(), shares.end());
  const double general = top_share("");
  Target t =
      observed("T28", "share of palm roots in 0-30 of 0-60 cm, sixteen species", "hodel-2005");
  t.published = "mean 0.72, 0.50 to 0.97";
  t.model = "palms in general " + fixed_number(general, 2) + "; species mean " +
            fixed_number(mean, 2) + ", " + fixed_number(shares.front(), 2) + " to " +
            fixed_number(shares.back(), 2);
  t.tolerance = "each within 0.02";
  t.hit =
      each_within({general, mean, shares.front(), shares.back()}, {0.72, 0.72, 0.50, 0.97}, 0.02);
  t.calibrated = true;
  t.remark = "the species' own shares are data of the program";
  return t;
}

Target t29() {
  constexpr double kBall = 0.3, kDug = 0.9;  // m from the trunk
  const RootField field = field_of("");
  const double face = std::get<FibrousSpread>(field.spread).face;
  const double share =
      share_within(field.spread, face + kBall) / share_within(field.spread, face + kDug);
  Target t = observed("T29", "share of palm roots within 30 cm of the trunk", "hodel-2005");
  t.published = "more than half, for most species";
  t.model = fixed_number(share, 2);
  t.tolerance = "0.50 to 0.80";
  t.hit = all_between({share}, 0.50, 0.80);
  t.calibrated = true;
  t.remark = "of the roots that end within the 90 cm that were dug";
  return t;
}

Target t30() {
  const auto of = [](const char* name) {
    return palm_regrowth(shipped().species_of(name), shipped())
        .share_of_cut_roots.value_or(Range{});
  };
  const double cocos = of("Cocos nucifera").best, sabal = of("Sabal palmetto").high;
  Target t = observed("T30", "cut roots that branch again: Cocos; Sabal palmetto",
                      "broschat-donselman-1984");
  t.published = "about 0.50; under 0.01";
  t.model = fixed_number(cocos, 2) + "; up to " + fixed_number(sabal, 2);
  t.tolerance = "as published";
  t.hit = all_between({cocos}, 0.45, 0.55) && sabal > 0 && sabal <= 0.01;
  t.calibrated = true;
  t.remark = "data of the program";
  return t;
}

}  // namespace

std::vector<Target> palm_targets() {
  return {t28(), t29(), t30()};
}

}  // namespace rootstead::validation
