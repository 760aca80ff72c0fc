// The observations of cut roots and pulled trees, of wind and crowns: V1 to V15, and W1 beside
// them.
#include <algorithm>
#include <cmath>
#include <functional>

#include "engine/anchorage/anchorage.hpp"
#include "engine/anchorage/cut_rose.hpp"
#include "engine/geom/measure.hpp"
#include "validation/shipped.hpp"
#include "validation/svg.hpp"
#include "validation/target.hpp"
#include "validation/words.hpp"

namespace rootstead::validation {
namespace {

constexpr double kFullDepth = 100;  // m: deeper than any root
const Point kStem{0, 0};
constexpr double kWindward = 0, kLee = 180;  // azimuth of the cut, degrees; the wind is from north

const std::vector<RootArchitecture> kClasses = {RootArchitecture::plate, RootArchitecture::heart,
                                                RootArchitecture::tap};

AnchorageShares shares_of(RootArchitecture architecture) {
  return anchorage_shares(architecture, false, shipped());
}

// ---- cuts ---------------------------------------------------------------------------------------

// A straight cut square to `azimuth`, its near edge `from_centre` metres from the stem's centre.
AnchorageCut cut_at(double azimuth_degrees, double from_centre, double half_length = 400,
                    double thickness = 0.5, double depth = kFullDepth) {
  const Angle out = Angle::degrees(azimuth_degrees), along = Angle::degrees(azimuth_degrees + 90);
  const auto corner = [&](double away, double aside) {
    return offset(offset(kStem, out, Length::metres(away)), along, Length::metres(aside));
  };
  const double far = from_centre + thickness;
  return {"cut",
          {{{corner(from_centre, -half_length), corner(far, -half_length), corner(far, half_length),
             corner(from_centre, half_length)},
            {}}},
          Length::metres(depth)};
}

Tree tree_of(double diameter) {
  Tree tree;
  tree.id = "T";
  tree.form = GrowthForm::broadleaf;
  tree.position = Position{kStem, "made up", {}};
  tree.stems = {{Stem::Read::diameter, {diameter, LengthUnit::metre}, {}}};
  return tree;
}

// Wind from the north, a straight cut `units` diameters from the trunk face.
double kept_behind(RootArchitecture architecture, double units, double azimuth_degrees,
                   double diameter = 0.3) {
  return anchorage_kept(tree_of(diameter), Length::metres(diameter), shares_of(architecture),
                        {cut_at(azimuth_degrees, diameter / 2 + units * diameter)}, Angle());
}

// The least of all wind directions, cuts `from_face` metres from the trunk face at these azimuths.
double least_kept(RootArchitecture architecture, double diameter, double from_face,
                  const std::vector<double>& azimuths, double depth = kFullDepth) {
  std::vector<AnchorageCut> cuts;
  for (const double azimuth_degrees : azimuths)
    cuts.push_back(cut_at(azimuth_degrees, diameter / 2 + from_face, 400, 0.5, depth));
  double least = 1;
  for (int wind = 0; wind < kWindDirections; ++wind)
    least = std::min(
        least, anchorage_kept(tree_of(diameter), Length::metres(diameter), shares_of(architecture),
                              cuts, Angle::degrees(wind * 360.0 / kWindDirections)));
  return least;
}

// Of `count` equal buttress roots the `severed` windward-most, cut at the flare, no soil removed.
double kept_of_roots(int count, int severed) {
  constexpr double kDiameter = 0.3, kSaw = 0.003;
  std::vector<MeasuredRoot> roots;
  std::vector<AnchorageCut> cuts;
  for (int i = 0; i < count; ++i) roots.push_back({i * kRoseRays / count, 1, {}});
  for (int i = 0; i < severed; ++i) {
    const int side = i % 2 == 0 ? -(i / 2) : (i + 1) / 2;  // 0, 1, -1, 2 ...
    cuts.push_back(cut_at(360.0 * side / count, kDiameter / 2, kSaw, kSaw));
  }
  const AnchorageShares shares = shares_of(RootArchitecture::heart);
  const CutRose rose(kStem, trunk_of(Length::metres(kDiameter), shares), cuts);
  const KeptParts left = KeptByWind(rose, shares, roots).parts(Angle());
  return 1 - shares.tension * (1 - left.tension) - shares.hinge * (1 - left.hinge);
}

Target v1() {
  const double kept = kept_behind(RootArchitecture::heart, 0, kWindward);
  Target t =
      observed("V1", "anchorage kept after a straight cut that touches the trunk, willow oak",
               "smiley-2008");
  t.published = "0.65";
  t.model = fixed_number(kept, 3) + ", cut to windward";
  t.tolerance = "within 0.05";
  t.hit = std::abs(kept - 0.65) <= 0.05;
  t.calibrated = true;
  t.remark = "which side of the pull was cut is not in the abstract: the worst is taken";
  return t;
}

Target v2() {
  std::vector<double> kept;
  for (const int count : {6, 8, 10}) kept.push_back(kept_of_roots(count, count / 2));
  Target t = observed("V2", "anchorage kept with half of the buttress roots cut", "smiley-2008");
  t.published = "0.70 (0.67 as retold elsewhere)";
  t.model = listed(kept, 3) + " of 6, 8, 10 roots";
  t.tolerance = "each within 0.06";
  t.hit = each_within(kept, {0.70, 0.70, 0.70}, 0.06);
  t.calibrated = true;
  return t;
}

Target v3() {
  std::vector<double> kept;
  for (const int count : {6, 8, 10}) kept.push_back(kept_of_roots(count, 1));
  Target t = observed("V3", "anchorage kept with one buttress root cut", "smiley-2008");
  t.published = "0.88 in the mean";
  t.model = listed(kept, 3) + " of 6, 8, 10 roots, to windward";
  t.tolerance = "each within 0.05";
  t.hit = each_within(kept, {0.88, 0.88, 0.88}, 0.05);
  t.calibrated = true;
  return t;
}

Target v4() {
  std::vector<double> kept;
  for (const double units : {3.0, 5.0})
    kept.push_back(kept_behind(RootArchitecture::heart, units, kWindward));
  Target t = observed("V4", "loss after a straight cut beyond 3 stem diameters", "smiley-2008");
  t.published = "none measurable";
  t.model = listed(kept, 3) + " kept at 3 and 5 D";
  t.tolerance = "at least 0.95 kept";
  t.hit = all_between(kept, 0.95, 1);
  t.calibrated = true;
  return t;
}

Target v5() {
  std::vector<double> heart, plate;
  for (const double diameter : {0.23, 0.30, 0.40}) {
    heart.push_back(least_kept(RootArchitecture::heart, diameter, 1, {0, 90}));
    plate.push_back(least_kept(RootArchitecture::plate, diameter, 1, {0, 90}));
  }
  Target t = observed("V5", "effect of two perpendicular trenches at 1 m, Norway maple and lime",
                      "pallafray-2024");
  t.published = "none found";
  t.model = listed(heart, 3) + " kept at D 0.23, 0.30, 0.40 m; as plate roots " + listed(plate, 3);
  t.tolerance = "at least 0.90 kept: their scatter would hide a tenth";
  t.hit = all_between(heart, 0.90, 1) && all_between(plate, 0.90, 1);
  t.remark = "the plate radius of 4 D was chosen knowing this study";
  return t;
}

// Share of the variance of `y` that a straight line through all points explains.
double straightness(const std::vector<double>& y) {
  const double n = static_cast<double>(y.size());
  double mean_x = 0, mean_y = 0;
  for (std::size_t i = 0; i < y.size(); ++i) {
    mean_x += static_cast<double>(i) / n;
    mean_y += y[i] / n;
  }
  double xx = 0, xy = 0, yy = 0;
  for (std::size_t i = 0; i < y.size(); ++i) {
    const double x = static_cast<double>(i) - mean_x;
    xx += x * x;
    xy += x * (y[i] - mean_y);
    yy += (y[i] - mean_y) * (y[i] - mean_y);
  }
  return xy * xy / (xx * yy);
}

Target v6() {
  std::vector<double> kept;
  for (int severed = 0; severed <= 4; ++severed) kept.push_back(kept_of_roots(8, severed));
  Target t = observed("V6", "loss against the number of buttress roots cut, up to half, red maple",
                      "smiley-2014");
  t.published = "almost a straight line";
  t.model = "R2 " + fixed_number(straightness(kept), 3) + "; kept " + listed(kept, 3);
  t.tolerance = "R2 of a line at least 0.95";
  t.hit = straightness(kept) >= 0.95;
  t.remark = "the last step is flatter: that root stands aside of the wind";
  return t;
}

Target v7() {
  const double hinge = shares_of(RootArchitecture::tap).hinge;
  Target t = observed("V7", "share of the lee laterals in the anchorage of tap-rooted larch",
                      "crook-ennos-1996");
  t.published = "about 0.25";
  t.model = fixed_number(hinge, 2);
  t.tolerance = "the same to two digits";
  t.hit = std::abs(hinge - 0.25) < 0.005;
  t.calibrated = true;
  t.remark = "taken over as it is";
  return t;
}

Target v8() {
  std::vector<std::string> words;
  bool hit = true;
  for (const RootArchitecture architecture : kClasses) {
    std::vector<double> more;
    for (const double units : {0.0, 0.5, 1.0, 2.0, 3.0})
      more.push_back(kept_behind(architecture, units, kLee) -
                     kept_behind(architecture, units, kWindward));
    hit = hit && std::all_of(more.begin(), more.end(), [](double m) { return m > 0; });
    words.push_back(std::string(to_text(architecture)) + " " + listed(more, 3));
  }
  Target t = observed("V8", "which roots foretell the anchorage: windward or leeward cross-section",
                      "gilman-roots-bending");
  t.published = "windward (correlation 0.68; number of windward roots 0.51, of leeward 0.36)";
  t.model =
      "loss by a windward cut less that by a lee one at 0, 0.5, 1, 2, 3 D: " + joined(words, "; ");
  t.tolerance = "windward cuts take more, at every distance and in every class";
  t.hit = hit;
  return t;
}

// ---- what holds ---------------------------------------------------------------------------------

Target v9() {
  const double hold = ground_hold({}, shipped()).saturated;
  Target t = observed("V9", "strength in nearly saturated over moist ground, camphor trees",
                      "camphor-2022");
  t.published = "0.50 to 0.65";
  t.model = fixed_number(hold, 2);
  t.tolerance = "in that range";
  t.hit = hold >= 0.50 && hold <= 0.65;
  t.calibrated = true;
  t.remark = "an input of the model: its middle";
  return t;
}

// The least tilt at which all of the resistance is mobilised.
double tilt_of_peak() {
  double low = 0, high = 10;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (mobilised_at(Angle::degrees(middle)) < 1 ? low : high) = middle;
  }
  return high;
}

Target v10() {
  const double early = mobilised_at(Angle::degrees(0.25)), peak = tilt_of_peak();
  Target t = observed("V10",
                      "share of the greatest moment at 0.25 degrees, and the tilt at that "
                      "moment",
                      "detter-2023");
  t.published = "0.40; 1.6 to 2.9 degrees";
  t.model = fixed_number(early, 2) + "; " + fixed_number(peak, 1) + " degrees";
  t.tolerance = "the same; in that range";
  t.hit = std::abs(early - 0.40) < 0.005 && peak >= 1.6 && peak <= 2.9;
  t.calibrated = true;
  t.remark = "the curve was drawn through both; the range of tilts is of moment-tilt-2025";
  return t;
}

Target v11() {
  const double one = least_kept(RootArchitecture::heart, 0.09, 0.40, {0}, 0.70);
  const double two = least_kept(RootArchitecture::heart, 0.09, 0.40, {0, 180}, 0.70);
  Target t = observed("V11",
                      "pulling tests after one and two trenches 0.4 m from young horse "
                      "chestnuts and limes, D 0.09 m",
                      "fini-2014");
  t.published = "not known to us";
  t.model = listed({one, two}, 3) + " kept";
  t.tolerance = "none";
  t.remark =
      "open: the abstract tells the design and not the result, so it counts as a miss. A "
      "clear loss there would refute distances counted in diameters for young trees";
  return t;
}

Target v12() {
  const double near = least_kept(RootArchitecture::heart, 0.2, 0.5, {0});
  const double far = least_kept(RootArchitecture::heart, 0.2, 1.5, {0});
  Target t =
      observed("V12", "moment and stiffness after trenches 0.5 to 1.5 m from Eugenia grandis",
               "ghani-2009", Status::memory);
  t.published = "not known to us";
  t.model = listed({near, far}, 3) + " kept at 0.5 and 1.5 m, if D were 0.2 m";
  t.tolerance = "none";
  t.remark = "open: the study was recalled and not read, so it counts as a miss";
  return t;
}

// The row of all trees, worked out again from the rows of the species.
struct Pooled {
  int trees = 0;
  double mean = 0, sd_ln = 0;
};

Pooled pooled_strength() {
  std::vector<const AnchorageResistance*> rows;
  for (const AnchorageResistance& row : shipped().anchorage_resistances)
    if (row.botanical_name != "all") rows.push_back(&row);
  Pooled all;
  double mean_ln = 0, squares = 0;
  for (const AnchorageResistance* row : rows) all.trees += row->trees;
  for (const AnchorageResistance* row : rows)
    mean_ln += row->trees * std::log(row->middle()) / all.trees;
  for (const AnchorageResistance* row : rows) {
    const double off = std::log(row->middle()) - mean_ln;
    squares += (row->trees - 1) * row->sd_ln * row->sd_ln + row->trees * off * off;
  }
  const double variance = squares / (all.trees - 1);
  all.sd_ln = std::sqrt(variance);
  all.mean = std::exp(mean_ln + variance / 2);
  return all;
}

Target v14() {
  const Pooled all = pooled_strength();
  Target t = observed("V14",
                      "strength over D2H of 267 trees pulled over: number, mean in kNm/m3, "
                      "standard deviation of the logarithm",
                      "detter-2023");
  t.published = "267, 35.9, 0.43";
  t.model = std::to_string(all.trees) + ", " + fixed_number(all.mean, 1) + ", " +
            fixed_number(all.sd_ln, 2) + ", pooled from the rows of nine species";
  t.tolerance = "the same to the printed digits";
  t.hit =
      all.trees == 267 && std::abs(all.mean - 35.9) <= 0.05 && std::abs(all.sd_ln - 0.43) <= 0.005;
  t.calibrated = true;
  t.remark =
      "the rows are inputs of the model. The single trees are not shipped, so medians and "
      "spreads of the species are taken over and not worked out again";
  return t;
}

// ---- wind ---------------------------------------------------------------------------------------

struct Printed {
  double model = 0, printed = 0;
  int decimals = 0;
  bool agrees() const {
    const double half_digit = 0.5000001 * std::pow(10.0, -decimals);
    return std::abs(model - printed) <= std::max(half_digit, 0.001 * std::abs(printed));
  }
};

En1991Wind en1991(const std::string& terrain, double speed) {
  const std::string prefix = "wind.en1991.terrain_" + terrain;
  return {speed,
          {shipped().parameter(prefix + "_roughness").best,
           shipped().parameter(prefix + "_least_height").best},
          shipped().parameter("wind.air_density").best};
}

Asce7Wind asce7(const std::string& edition, const std::string& exposure) {
  constexpr double kSpeed = 52, kElevation = 110, kDirectionality = 0.85;  // of the published test
  const std::string prefix = "wind.asce7_" + edition + ".exposure_" + exposure;
  return {kSpeed,
          {edition == "22" ? Asce7Wind::kFrom2022 : Asce7Wind::kBefore2022,
           shipped().parameter(prefix + "_exponent").best,
           shipped().parameter(prefix + "_gradient_height").best},
          kElevation,
          kDirectionality};
}

std::vector<Printed> wind_cases() {
  const auto m = [](double z) { return Length::metres(z); };
  const En1991Wind open = en1991("II", 26), sea = en1991("0", 25), suburb = en1991("III", 22);
  const double five_years = probability_factor(5, shipped());
  const Asce7Wind test = asce7("22", "C");
  return {{open.terrain_factor(), 0.1900, 4},
          {open.roughness_factor(m(10)), 1.0067, 4},
          {open.mean_speed(m(10)), 26.174, 3},
          {open.turbulence(m(10)), 0.18874, 5},
          {open.exposure(m(10)), 2.352, 3},
          {open.peak_pressure(m(10)).pascals(), 993.8, 1},
          {sea.mean_speed(m(77.36)), 39.624, 3},
          {sea.peak_pressure(m(77.36)).kilopascals(), 1.658, 3},
          {sea.mean_speed(m(28)), 35.659, 3},
          {sea.peak_pressure(m(28)).kilopascals(), 1.403, 3},
          {suburb.mean_speed(m(7.02)), 14.939, 3},
          {suburb.peak_pressure(m(7.02)).kilopascals(), 0.449, 3},
          {five_years, 0.8545, 4},
          {en1991("III", 26 * five_years).peak_pressure(m(10)).pascals(), 527.3, 1},
          {test.altitude_factor(), 0.986995, 6},
          {test.exposure_factor(m(5)), 0.866796, 6},
          {test.pressure(m(5)).pascals(), 1205.36, 2},
          {test.exposure_factor(m(6.5)), 0.914472, 6},
          {test.pressure(m(6.5)).pascals(), 1271.66, 2},
          {asce7("16", "B").exposure_factor(m(10)), 0.719, 3},
          {asce7("16", "C").exposure_factor(m(10)), 1.001, 3},
          {asce7("16", "D").exposure_factor(m(10)), 1.180, 3}};
}

Target v13() {
  const std::vector<Printed> cases = wind_cases();
  const auto agree =
      std::count_if(cases.begin(), cases.end(), [](const Printed& one) { return one.agrees(); });
  Target t = observed("V13", "wind by height of EN 1991-1-4 and ASCE 7-16 and 7-22, worked cases",
                      "en1991-1-4");
  t.published = std::to_string(cases.size()) +
                " values, e.g. 993.8 Pa, 1.658 kPa, 527.3 Pa, 1205.36 Pa, 1271.66 Pa";
  t.model = std::to_string(agree) + " agree; " + fixed_number(cases[5].model, 1) + " Pa, " +
            fixed_number(cases[7].model, 3) + " kPa, " + fixed_number(cases[13].model, 1) +
            " Pa, " + fixed_number(cases[16].model, 2) + " Pa, " +
            fixed_number(cases[18].model, 2) + " Pa";
  t.tolerance = "all within 0.1 % or half of the last printed digit";
  t.hit = agree == static_cast<long>(cases.size());
  t.remark =
      "published examples, and values worked out by hand from the formulas; ASCE 7-22 "
      "exposure B is doubtful and not among them";
  return t;
}

double drag_at_20(const char* tree_class) {
  return streamlining(tree_class, shipped()).drag(20);
}

Target v15() {
  constexpr double kWithin = 0.25, kLeast = 0.15, kMost = 0.22, kPine = 0.47;
  std::vector<double> broadleaves;
  for (const char* tree_class : {"B1", "B2", "B3"}) broadleaves.push_back(drag_at_20(tree_class));
  const double pine = drag_at_20("C1");
  Target t = observed("V15", "drag of young crowns in a wind tunnel at 20 m/s: broadleaves, pine",
                      "vollsinger-2005");
  t.published = "0.15 to 0.22 (cottonwood, alder, birch); 0.47 (lodgepole pine)";
  t.model = listed(broadleaves, 2) + " (three classes); " + fixed_number(pine, 2) + " (conifers)";
  t.tolerance = "each within 25 % of the published range or value";
  t.hit = all_between(broadleaves, kLeast * (1 - kWithin), kMost * (1 + kWithin)) &&
          std::abs(pine - kPine) <= kWithin * kPine;
  t.remark =
      "pine of rudnicki-2004. The law has no class for redcedar, which the same study "
      "measured: see W1";
  return t;
}

Target w1() {
  const CrownDrag& cedar = crown_drag_of("Thuja plicata", GrowthForm::conifer, shipped());
  Target t =
      observed("W1", "drag of young western redcedar in a wind tunnel at 20 m/s", "rudnicki-2004");
  t.published = "0.22";
  t.model = fixed_number(cedar.in_leaf.best, 2) + " (" + fixed_number(cedar.in_leaf.low, 2) +
            " to " + fixed_number(cedar.in_leaf.high, 2) + "), of the table of crowns";
  t.tolerance = "within 25 %";
  t.hit = std::abs(cedar.in_leaf.best - 0.22) <= 0.25 * 0.22;
  t.calibrated = true;
  t.remark =
      "raised on purpose, since old crowns are stiffer than young ones in a tunnel; the "
      "range holds the published value";
  return t;
}

// ---- the picture --------------------------------------------------------------------------------

Plot kept_by_distance() {
  Chart chart("Anchorage kept behind a straight cut, wind from the cut side",
              {"distance of the cut from the trunk face, stem diameters", 0, 6, 1},
              {"anchorage kept", 0.4, 1.0, 0.1, 1});
  const Dash dashes[] = {Dash::dashed, Dash::solid, Dash::dotted};
  for (std::size_t i = 0; i < kClasses.size(); ++i) {
    Points points;
    for (int step = 0; step <= 60; ++step)
      points.push_back({step / 10.0, kept_behind(kClasses[i], step / 10.0, kWindward)});
    chart.line("model, " + std::string(to_text(kClasses[i])) + " roots", points, dashes[i]);
  }
  chart.marks("Smiley 2008: cut at the trunk; none measurable from 3 D", {{0, 0.65}, {3, 1}},
              Mark::dot);
  chart.marks("Pallafray et al. 2024: two trenches at 1 m, no effect found",
              {{1 / 0.40, 1}, {1 / 0.30, 1}, {1 / 0.23, 1}}, Mark::ring);
  return {"anchorage-distance.svg", chart.title(), chart.svg()};
}

}  // namespace

Findings anchorage_findings() {
  return {{v1(), v2(), v3(), v4(), v5(), v6(), v7(), v8(), v9(), v10(), v11(), v12(), v13(), v14(),
           v15(), w1()},
          {kept_by_distance()}};
}

}  // namespace rootstead::validation
