#include "engine/anchorage/crown_load.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <string>

namespace rootstead {
namespace {

constexpr int kStrips = 200;
constexpr double kStreamlinesFrom = 10, kStreamlinesTo = 25;  // m/s, recalled

struct ForceAndMoment {
  double force = 0, moment = 0;
};

// Integral of drag x width(z) x q(z), and the same times z, from `from` to `to`.
template <class Width>
ForceAndMoment summed(double from, double to, double drag, const WindField& wind, Width width) {
  ForceAndMoment sum;
  const double step = (to - from) / kStrips;
  for (int i = 0; i < kStrips; ++i) {
    const double z = from + (i + 0.5) * step;
    const Length height = Length::metres(z);
    const double strip = wind.pressure(height).pascals() * drag * width(height).metres() * step;
    sum.force += strip;
    sum.moment += strip * z;
  }
  return sum;
}

}  // namespace

Length CrownOutline::width_at(Length z) const {
  if (z < base || z > top || height() <= Length()) return {};
  const double up = (z - base) / height();  // 0 at the base, 1 at the top
  switch (shape) {
    case CrownShape::ellipse:
      return width * (2 * std::sqrt(up * (1 - up)));
    case CrownShape::cone:
      return width * (1 - up);
    case CrownShape::rectangle:
      return width;
  }
  return width;
}

Area CrownOutline::area() const {
  const Area box = width * height();
  switch (shape) {
    case CrownShape::ellipse:
      return box * (std::numbers::pi / 4);
    case CrownShape::cone:
      return box / 2;
    case CrownShape::rectangle:
      return box;
  }
  return box;
}

Length CrownOutline::centre_height() const {
  return base + height() * (shape == CrownShape::cone ? 1.0 / 3 : 0.5);
}

WindLoad wind_load(const WindTarget& target, const WindField& wind) {
  const CrownOutline& crown = target.crown;
  assert(crown.base >= Length() && crown.base < crown.top);
  const ForceAndMoment in_crown = summed(crown.base.metres(), crown.top.metres(), target.crown_drag,
                                         wind, [&](Length z) { return crown.width_at(z); });
  const ForceAndMoment on_stem =
      summed(0, crown.base.metres(), target.stem_drag, wind, [&](Length) { return target.stem; });
  WindLoad load;
  load.crown_force = in_crown.force;
  load.crown_moment = in_crown.moment;
  load.stem_force = on_stem.force;
  load.stem_moment = on_stem.moment;
  load.size_factor = wind.size_factor(crown.top, crown.width, crown.height());
  return load;
}

double Streamlining::drag(double speed) const {
  return coefficient * std::pow(std::clamp(speed, kStreamlinesFrom, kStreamlinesTo), -exponent);
}

Streamlining streamlining(std::string_view tree_class, const Tables& tables) {
  const std::string prefix = "wind.streamlining_" + std::string(tree_class);
  return {tables.parameter(prefix + "_coefficient").best,
          tables.parameter(prefix + "_exponent").best};
}

const CrownDrag& crown_drag_of(std::string_view botanical_name, GrowthForm form,
                               const Tables& tables) {
  const bool palm = form == GrowthForm::palm || form == GrowthForm::other_monocot;
  const CrownDrag* of_form = nullptr;
  const CrownDrag* of_genus = nullptr;
  const std::string_view form_word = palm                          ? "palm"
                                     : form == GrowthForm::conifer ? "conifer"
                                                                   : "broadleaf";
  for (const CrownDrag& row : tables.crown_drags) {
    if (row.taxon == form_word) of_form = &row;
    if (palm || !same_taxon(botanical_name, row.taxon)) continue;
    if (row.taxon.find(' ') != std::string::npos) return row;
    of_genus = &row;
  }
  assert(of_form != nullptr && "a growth form that crown_drag.csv does not have");
  return of_genus ? *of_genus : *of_form;
}

}  // namespace rootstead
