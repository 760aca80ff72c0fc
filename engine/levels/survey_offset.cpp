#include "engine/levels/survey_offset.hpp"

#include <cmath>

#include "engine/base/text.hpp"
#include "engine/levels/depth_spread.hpp"
#include "engine/levels/level_words.hpp"

namespace rootstead {
namespace {

constexpr double kSpreadPerDeviation = 1.4826;  // of a normal law, per median deviation

Figure figure_of(const SurveyOffset& offset, const Tables& tables) {
  const Parameter& least = tables.parameter("levels.offset_least");
  const Parameter& spread = tables.parameter("levels.offset_spread");
  Figure figure;
  figure.name = "levels.survey-offset";
  figure.value = offset.median.metres();
  figure.unit = "m";
  figure.inputs = {
      {"A", "ground compared", fixed_number(offset.compared.square_metres(), 1) + " m2"},
      {"s", "spread of the difference", fixed_number(offset.spread.metres(), 3) + " m"},
      input_from(least, "m0"),
      input_from(spread, "k"),
      input_from(tables.parameter("levels.offset_most"), "m1")};
  figure.formula =
      "m = median by area of after less before; s = 1.4826 median |difference - m|; an offset "
      "where |m| >= m0 and s <= k |m|, and, where no ground outside works is known, |m| <= m1";
  figure.from = {"rootstead", "docs/methods/levels.md",
                 weaker(least.from.status, spread.from.status)};
  return figure;
}

Note warning(const SurveyOffset& offset, const PreparedLevels& before,
             const PreparedLevels& after) {
  return {NoteCode::levels_offset, after.name(),
          surface_words(after) + " lies " + signed_metres(offset.median) + " against " +
              surface_words(before) + " nearly everywhere (median; spread " +
              fixed_number(offset.spread.metres(), 3) +
              " m): this looks like an offset between surveys, not like " +
              (offset.median.metres() > 0 ? "fill" : "cut") +
              "; compare both with one benchmark before any volume is used."};
}

// Where the difference is looked at: the ground without works, if there is enough of it.
struct Compared {
  DepthSpread spread;
  bool quiet = false;
};

Compared compared(const PreparedLevels& before, const PreparedLevels& after,
                  const MultiPolygon& unchanged, const Tables& tables) {
  DepthSpread all(before, after);
  if (unchanged.empty()) return {std::move(all), false};
  DepthSpread quiet(before, after, unchanged);
  const double least = tables.parameter("levels.offset_ground").best;
  if (quiet.area() < all.area() * least) return {std::move(all), false};
  return {std::move(quiet), true};
}

}  // namespace

SurveyOffset survey_offset(const PreparedLevels& before, const PreparedLevels& after,
                           const MultiPolygon& unchanged, const Tables& tables) {
  SurveyOffset offset;
  const auto [spread, quiet] = compared(before, after, unchanged, tables);
  offset.compared = spread.area();
  if (!(offset.compared.square_metres() > 0)) return offset;
  const double median = spread.quantile(0.5);
  offset.median = Length::metres(median);
  offset.spread = Length::metres(kSpreadPerDeviation * spread.median_deviation(median));
  const double size = std::abs(median);
  // A road bed dug all over lies apart as evenly as two surveys do: only its size tells, or ground
  // that no work touches.
  const bool of_surveys = quiet || size <= tables.parameter("levels.offset_most").best;
  offset.uniform = of_surveys && size >= tables.parameter("levels.offset_least").best &&
                   offset.spread.metres() <= tables.parameter("levels.offset_spread").best * size;
  offset.figure = figure_of(offset, tables);
  if (offset.uniform) offset.notes.push_back(warning(offset, before, after));
  return offset;
}

}  // namespace rootstead
