// The observations of thick roots: how many, how thick, how deep, how much wood; what cuts do to
// them. T11 to T15, T17 to T23, T26, T27, T31. Palms: palms.cpp; tree by tree: silsoe_trees.cpp.
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "engine/anchorage/anchorage.hpp"
#include "engine/roots/architecture.hpp"
#include "validation/shipped.hpp"
#include "validation/silsoe.hpp"
#include "validation/svg.hpp"
#include "validation/target.hpp"
#include "validation/thick_parts.hpp"
#include "validation/words.hpp"

namespace rootstead::validation {
namespace {

constexpr double kSquareCentimetres = 1e4;  // per m2

Tree tree_of(double diameter, const std::string& name) {
  Tree tree;
  tree.id = "model";
  tree.botanical_name = name;
  tree.form = GrowthForm::broadleaf;
  tree.position = Position{{0, 0}, "assumed", {}};
  tree.stems = {{Stem::Read::diameter, {diameter, LengthUnit::metre}, {}}};
  return tree;
}

ThickRootLaw law_of(double diameter, const std::string& name = "Tilia") {
  const Tree tree = tree_of(diameter, name);
  const Species* species = shipped().species_of(name);
  const Length stem = Length::metres(diameter);
  const Soil soil;
  const RootField field = woody_fields(tree, stem, species, soil, shipped())->central();
  return thick_roots(tree, stem, species, field, shipped());
}

// ---- counts on trench faces ---------------------------------------------------------------------

// Six poplars of 19 to 20 years; by metre outward from the trunk, upper metre of ground.
const std::vector<double> kFaceCounts = {54.5, 39.0, 32.3, 25.0, 18.8};
const std::vector<double> kThicker = {0.002, 0.005, 0.010, 0.020};
constexpr std::size_t kFaceMetres = 5;
const std::string kSilsoeRemark =
    "four of the six trees shaped the law; stems not recorded, 0.35 m assumed; the face runs "
    "outward "
    "from the trunk, so 30 % either way is within what is known";

// Mean over each metre outward of roots thicker than `d` per metre of face.
std::vector<double> counts_outward(double d, double below_thickness = 0) {
  const ThickRootLaw law = silsoe_law(shipped());
  std::vector<double> means(kFaceMetres, 0);
  constexpr int kParts = 10;
  for (std::size_t i = 0; i < kFaceMetres * kParts; ++i) {
    const RootRing ring = law.ring((static_cast<double>(i) + 0.5) / kParts);
    const double thicker = below_thickness > 0 ? ring.per_metre(below_thickness) : 0;
    means[i / kParts] += (ring.per_metre(d) - thicker) / kParts;
  }
  return means;
}

std::vector<double> times_share_above(std::vector<double> counts, double depth, double thickness) {
  const ThickRootLaw law = silsoe_law(shipped());
  for (std::size_t i = 0; i < counts.size(); ++i)
    counts[i] *= law.share_above(depth, thickness, static_cast<double>(i) + 0.5);
  return counts;
}

double sum(const std::vector<double>& values) {
  double all = 0;
  for (const double value : values) all += value;
  return all;
}

// The distance in which values at 0.5, 1.5 ... m fall to 1/e; zeros are left out.
double decay_of_counts(const std::vector<double>& values) {
  double n = 0, x = 0, y = 0, xx = 0, xy = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values[i] <= 0) continue;
    const double at = static_cast<double>(i) + 0.5, log = std::log(values[i]);
    n += 1, x += at, y += log, xx += at * at, xy += at * log;
  }
  return -(n * xx - x * x) / (n * xy - x * y);
}

// Share of all roots of 2 mm and more on the face above each depth.
std::vector<double> shares_above(const std::vector<double>& depths, double thickness) {
  const std::vector<double> counts = counts_outward(thickness);
  std::vector<double> shares;
  for (const double depth : depths)
    shares.push_back(sum(times_share_above(counts, depth, thickness * 1.5)) / sum(counts));
  return shares;
}

const std::vector<double> kFaceDepths = {0.2, 0.4, 0.6, 0.8, 1.0};

Target t11() {
  const std::vector<double> wanted = {0.21, 0.52, 0.72, 0.84, 0.90};
  const auto shares = shares_above(kFaceDepths, 0.002);
  Target t = observed("T11", "share of poplar roots of 2 mm and more above 0.2, 0.4 ... 1.0 m",
                      "upson-burgess-2013");
  t.published = listed(wanted, 2);
  t.model = listed(shares, 2);
  t.tolerance = "each within 0.06";
  t.hit = each_within(shares, wanted, 0.06);
  t.calibrated = true;
  t.remark = "land ploughed for years; " + kSilsoeRemark;
  return t;
}

Target t12() {
  const auto counts = times_share_above(counts_outward(0.002), 1.0, 0.003);
  Target t =
      observed("T12", "poplar roots of 2 mm and more per m2 of face, upper metre, at 0-1 ... 4-5 m",
               "upson-burgess-2013");
  t.published = listed(kFaceCounts, 1);
  t.model = listed(counts, 1);
  t.tolerance = "each within 20 %";
  t.hit = each_within_share(counts, kFaceCounts, 0.20);
  t.calibrated = true;
  t.remark = kSilsoeRemark;
  return t;
}

Target t13() {
  const std::vector<double> wanted = {5.1, 2.9, 1.7, 1.0};
  std::vector<double> decays;
  for (std::size_t i = 0; i < kThicker.size(); ++i)
    decays.push_back(decay_of_counts(
        counts_outward(kThicker[i], i + 1 < kThicker.size() ? kThicker[i + 1] : 0)));
  Target t =
      observed("T13", "distance in which roots of 2-5, 5-10, 10-20, > 20 mm thin out to 1/e, m",
               "upson-burgess-2013");
  t.published = listed(wanted, 1);
  t.model = listed(decays, 1);
  t.tolerance = "each within 30 %";
  t.hit = each_within_share(decays, wanted, 0.30);
  t.calibrated = true;
  t.remark =
      kSilsoeRemark + ". Of 38 roots above 20 mm none stood beyond 4 m; the law leaves a few";
  return t;
}

Target t14() {
  const std::vector<double> wanted = {1.00, 0.67, 0.50, 0.17, 0.00};
  const ThickRootLaw law = silsoe_law(shipped());
  std::vector<double> chances;
  for (const double mean : times_share_above(counts_outward(0.020), 1.6, 0.030))
    chances.push_back(chance_of_any(mean, law.crowding));
  Target t =
      observed("T14", "chance that a metre of face shows a root above 20 mm, at 0-1 ... 4-5 m",
               "upson-burgess-2013");
  t.published = listed(wanted, 2) + " of six trees";
  t.model = listed(chances, 2);
  t.tolerance = "each within 0.25: one and a half trees of six";
  t.hit = each_within(chances, wanted, 0.25);
  t.calibrated = true;
  t.remark = kSilsoeRemark;
  return t;
}

Target t15() {
  const std::vector<double> wanted = {0.27, 0.11, 0.034};
  const double all = sum(counts_outward(0.002));
  std::vector<double> shares;
  for (const double d : {0.005, 0.010, 0.020}) shares.push_back(sum(counts_outward(d)) / all);
  Target t = observed("T15", "poplar roots above 5, 10, 20 mm as shares of those above 2 mm",
                      "upson-burgess-2013");
  t.published = listed(wanted, 3);
  t.model = listed(shares, 3);
  t.tolerance = "each within 30 %";
  t.hit = each_within_share(shares, wanted, 0.30);
  t.calibrated = true;
  return t;
}

// ---- wood ---------------------------------------------------------------------------------------

Target t17() {
  const ThickRootLaw law = law_of(0.5, "Platanus x hispanica");
  std::vector<double> woods;
  for (const double x : {1.0, 2.0, 3.0}) woods.push_back(law.cross_section(x) * kSquareCentimetres);
  Target t =
      observed("T17", "cross-section of all roots at 1, 2, 3 m from planes, cm2", "grabosky-2025");
  t.published = "328 to 371; 49 to 187; 97 to 131";
  t.model = listed(woods, 0);
  t.tolerance = "each within the three trees, by 5 % either way";
  t.hit = all_between({woods[0]}, 328 * 0.95, 371 * 1.05) &&
          all_between({woods[1]}, 49 * 0.95, 187 * 1.05) &&
          all_between({woods[2]}, 97 * 0.95, 131 * 1.05);
  t.calibrated = true;
  t.remark =
      "stems are not published; D 0.5 m assumed. At 1 m roots through the bottom are included";
  return t;
}

// Cross-section by sector of 45 degrees where roots of a grown system pass a ring.
std::vector<double> sector_woods(const RootSystem& roots, double radius) {
  std::vector<double> woods(kSectors, 0);
  for (const RootPiece& piece : roots.pieces) {
    const double from = std::hypot(piece.from.x, piece.from.y);
    const double to = std::hypot(piece.to.x, piece.to.y);
    if ((from < radius) == (to < radius)) continue;
    const double part = (radius - from) / (to - from);
    const double thickness = std::lerp(piece.thickness_from, piece.thickness_to, part);
    const double turn = std::atan2(std::lerp(piece.from.x, piece.to.x, part),
                                   std::lerp(piece.from.y, piece.to.y, part)) /
                        (2 * std::numbers::pi);
    woods[static_cast<std::size_t>((turn - std::floor(turn)) * kSectors) % kSectors] +=
        thickness * thickness;
  }
  return woods;
}

double variation_of(const std::vector<double>& values) {
  const double mean = sum(values) / static_cast<double>(values.size());
  double squares = 0;
  for (const double value : values) squares += (value - mean) * (value - mean);
  return std::sqrt(squares / static_cast<double>(values.size() - 1)) / mean;
}

double median_of(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

constexpr std::uint64_t kGrown = 60;  // root systems drawn by lot

Target t18() {
  const Tree plane = tree_of(0.5, "Platanus x hispanica");
  const double face = law_of(0.5).face;
  std::map<int, std::vector<double>> variations;
  for (std::uint64_t seed = 1; seed <= kGrown; ++seed) {
    const auto roots = grow_roots(plane, {}, shipped(), seed);
    for (const int x : {1, 2, 3})
      variations[x].push_back(variation_of(sector_woods(*roots, face + x)));
  }
  const std::vector<double> medians = {median_of(variations[1]), median_of(variations[2]),
                                       median_of(variations[3])};
  Target t =
      observed("T18", "variation of cross-section between eight sectors at 1, 2, 3 m from planes",
               "grabosky-2025");
  t.published = "0.46 to 1.44; means 0.90, 0.71, 0.64";
  t.model = listed(medians, 2) + " (median of 60 drawn systems)";
  t.tolerance = "each 0.46 to 1.44";
  t.hit = all_between(medians, 0.46, 1.44);
  t.calibrated = true;
  t.remark = "the law's own 0.65 was set on these; lots of single roots add to it";
  return t;
}

// Where the wood that tapers fast has fallen below the wood that does not.
double taper_end(const ThickRootLaw& law) {
  double low = 0, high = law.extent;
  for (int i = 0; i < 50; ++i) {
    const double x = (low + high) / 2;
    const double near = law.near_share * std::exp(-x / (law.near_length * law.diameter));
    const double far = (1 - law.near_share) * std::exp(-x / (law.far_length * law.extent));
    (near > far ? low : high) = x;
  }
  return high;
}

Target t19() {
  const double end = taper_end(law_of(0.36, "Acer rubrum"));
  Target t = observed("T19", "end of the zone of rapid taper from the trunk, red maple, m",
                      "auf-acer-zrt");
  t.published = "means 0.73 to 0.86 (sd 0.08 to 0.34), D 0.28 to 0.44 m";
  t.model = fixed_number(end, 2) + " at D 0.36 m";
  t.tolerance = "0.73 to 0.86";
  t.hit = all_between({end}, 0.73, 0.86);
  t.calibrated = true;
  t.remark = "in the model: where the wood that tapers fast falls below the rest";
  return t;
}

Target t20() {
  std::vector<double> shares;
  for (const double d : {0.10, 0.15}) {
    const ThickRootLaw law = law_of(d, "Quercus virginiana");
    const double x = 0.30 - law.face;  // 5 cm outside a ball of 0.25 m radius
    shares.push_back(law.cross_section(x) * law.share_above(0.25, 0.008, x) /
                     (std::numbers::pi / 4 * d * d));
  }
  Target t =
      observed("T20", "root over trunk cross-section, upper 25 cm, 5 cm outside the ball, live oak",
               "auf-oak-container");
  t.published = "0.69 field-grown; 0.24 to 0.34 container-grown";
  t.model = listed(shares, 2) + " at D 0.10, 0.15 m";
  t.tolerance = "0.24 to 0.69";
  t.hit = all_between(shares, 0.24, 0.69);
  t.remark =
      "three seasons after planting many new roots leave the ball's edge; the law is for trees "
      "never "
      "dug up, and has their wood further in and deeper. Ball and stems assumed";
  return t;
}

// Laterals that leave the trunk with at least 0.15 of its thickness.
Target t21() {
  std::vector<double> counts;
  for (std::uint64_t seed = 1; seed <= kGrown; ++seed) {
    const auto roots = grow_roots(tree_of(0.3, "Acer rubrum"), {}, shipped(), seed);
    counts.push_back(static_cast<double>(
        std::count_if(roots->pieces.begin(), roots->pieces.end(), [](const RootPiece& piece) {
          return piece.parent < 0 && piece.kind == RootKind::lateral &&
                 piece.thickness_from >= 0.15 * 0.3;
        })));
  }
  std::sort(counts.begin(), counts.end());
  Target t = observed("T21", "main laterals of a tree; of red maple", "smiley-2014");
  t.published = "3 to 15; 6 to 10";
  t.model = fixed_number(counts.front(), 0) + " to " + fixed_number(counts.back(), 0) +
            ", middle " + fixed_number(median_of(counts), 0) + ", in 60 drawn systems";
  t.tolerance = "all 3 to 15, the middle 6 to 10";
  t.hit = all_between(counts, 3, 15) && all_between({median_of(counts)}, 6, 10);
  t.calibrated = true;
  t.remark = "counted where at least 0.15 of the stem thick";
  return t;
}

Target t22() {
  constexpr double kAt = 2.5;  // m from the trunk
  std::vector<double> thicknesses;
  for (const double d : {0.4, 0.5, 0.6}) {
    const ThickRootLaw law = law_of(d);
    // The middle one of the main laterals: as many are thicker as half of them.
    double low = 0.001, high = d;
    for (int i = 0; i < 50; ++i) {
      const double middle = std::sqrt(low * high);
      (law.ring(kAt).count(middle) > law.main_roots / 2 ? low : high) = middle;
    }
    thicknesses.push_back(high);
  }
  Target t = observed("T22", "thickness of main laterals 2 to 3 m from the trunk, m",
                      "british-root-sheet");
  t.published = "0.02 to 0.05";
  t.model = listed(thicknesses, 3) + " at D 0.4, 0.5, 0.6 m";
  t.tolerance = "each 0.02 to 0.05";
  t.hit = all_between(thicknesses, 0.02, 0.05);
  t.remark =
      "the middle one of eight at 2.5 m; stems are not stated. The sheet speaks of laterals of 0.3 "
      "m at "
      "the trunk: the model has those on stems of about 1 m, and there 0.1 m at 2.5 m";
  return t;
}

// ---- dug, cut and weighed -----------------------------------------------------------------------

struct Ball {
  double length = 0, wood = 0;  // shares inside
};

// A standard nursery ball: twelve stem diameters wide, two thirds as deep.
Ball share_in_ball(double diameter) {
  const double radius = 6 * diameter, depth = 8 * diameter;
  const Tree tree = tree_of(diameter, "Tilia");
  const Length stem = Length::metres(diameter);
  const Soil soil;
  const RootField field =
      woody_fields(tree, stem, shipped().species_of("Tilia"), soil, shipped())->central();
  const ThickRootLaw law = law_of(diameter);
  Ball ball;
  ball.length = share_within(field.spread, radius) *
                field.depth.share_above(depth, radius / 2 / extent_of(field.spread));
  constexpr int kThicknessSteps = 400;
  double inside = 0, all = 0;
  for (int i = 0; i < kThicknessSteps; ++i) {
    const double x = (i + 0.5) / kThicknessSteps * (law.extent - law.face);
    const double wood = law.cross_section(x);
    all += wood;
    if (x + law.face < radius) inside += wood * law.share_above(depth, diameter / 10, x);
  }
  ball.wood = inside / all;
  return ball;
}

Target t23() {
  std::vector<double> lengths, woods;
  for (const double d : {0.04, 0.06}) {
    const Ball ball = share_in_ball(d);
    lengths.push_back(ball.length);
    woods.push_back(ball.wood);
  }
  Target t = observed("T23", "share of root length and of root mass in a nursery ball",
                      "uf-percent-roots");
  t.published = "length 0.05 to 0.08, mass 0.29 to 1.00";
  t.model = "length " + listed(lengths, 2) + ", wood " + listed(woods, 2) + " at D 0.04, 0.06 m";
  t.tolerance = "as published";
  t.hit = all_between(lengths, 0.05, 0.08) && all_between(woods, 0.29, 1.0);
  t.remark =
      "the mass is met, the length is not: the fine-root field puts more near the trunk of young "
      "trees "
      "than nursery diggings found. A ball 12 D wide and 8 D deep assumed; the published share of "
      "surface, about 0.55, is not computed";
  return t;
}

// The ground within `width` degrees round north, from the trunk's face outward.
MultiPolygon cut_at_trunk(double face, double width) {
  constexpr int kChords = 20;
  Ring ring;
  const auto add = [&](double radius, int i) {
    const double angle = Angle::degrees(width * (static_cast<double>(i) / kChords - 0.5)).radians();
    ring.push_back({radius * std::sin(angle), radius * std::cos(angle)});
  };
  for (int i = 0; i <= kChords; ++i) add(face + 0.3, i);
  for (int i = kChords; i >= 0; --i) add(face, i);
  return {{ring, {}}};
}

Target t26() {
  constexpr double kDiameter = 0.2;
  const Tree oak = tree_of(kDiameter, "Quercus phellos");
  std::vector<double> lost;
  for (const double width : {360.0 / shipped().parameter("thick.main_roots").best, 180.0}) {
    const AnchorageCut cut{"cut", cut_at_trunk(kDiameter / 2, width), Length::metres(2), true};
    const auto anchorage = anchorage_of(oak, {cut}, shipped());
    lost.push_back(anchorage ? 1 - anchorage->kept.best : -1);
  }
  Target t =
      observed("T26", "pulling force lost where one buttress root, where half of them are cut",
               "smiley-2008");
  t.published = "0.12, 0.30";
  t.model = listed(lost, 2);
  t.tolerance = "each within 0.03";
  t.hit = each_within(lost, {0.12, 0.30}, 0.03);
  t.calibrated = true;
  t.remark =
      "one of eight roots, cut at the trunk on the weakest side; D 0.2 m. By engine/anchorage, "
      "whose constants were set on the same trial";
  return t;
}

Target t27() {
  const double grown = regrown_share(5, shipped());
  Target t = observed("T27", "cross-section of cut roots grown again after five years, live oak",
                      "koeser-2024");
  t.published = "0.222";
  t.model = fixed_number(grown, 3);
  t.tolerance = "within 0.01";
  t.hit = all_between({grown}, 0.212, 0.232);
  t.calibrated = true;
  t.remark = "one number set on one number";
  return t;
}

// Mass of wood by depth: cross-section along the way, roots of a tenth of the stem standing for
// all.
Target t31() {
  std::vector<double> shares;
  for (const double d : {0.15, 0.25}) {
    const ThickRootLaw law = law_of(d, "Androstachys johnsonii");
    double between = 0, all = 0;
    constexpr int kThicknessSteps = 400;
    for (int i = 0; i < kThicknessSteps; ++i) {
      const double x = (i + 0.5) / kThicknessSteps * (law.extent - law.face);
      const double wood = law.cross_section(x);
      all += wood;
      between += wood * (law.share_above(0.612, d / 5, x) - law.share_above(0.096, d / 5, x));
    }
    shares.push_back(between / all);
  }
  Target t = observed("T31", "share of below-ground mass between 9.6 and 61.2 cm, Androstachys",
                      "magalhaes-2015");
  t.published = "above 0.80";
  t.model = listed(shares, 2) + " at D 0.15, 0.25 m";
  t.tolerance = "above 0.80";
  t.hit = shares[0] > 0.80 && shares[1] > 0.80;
  t.remark =
      "wood along the laterals, at the depth of roots of a fifth of the stem; stumps and taproots "
      "are not in it, stems assumed";
  return t;
}

// ---- pictures -----------------------------------------------------------------------------------

Points by_metre(const std::vector<double>& values) {
  Points points;
  for (std::size_t i = 0; i < values.size(); ++i)
    points.push_back({static_cast<double>(i) + 0.5, values[i]});
  return points;
}

// As published for the six trees, per m2 of the upper metre: 2-5, 5-10, 10-20, > 20 mm.
const std::vector<std::vector<double>> kClassCounts = {{36.0, 28.3, 26.2, 18.8, 17.0},
                                                       {8.0, 6.8, 4.2, 3.8, 1.3},
                                                       {7.0, 2.2, 1.3, 2.2, 0.5},
                                                       {3.5, 1.7, 0.67, 0.17, 0.0}};

Plot counts_plot() {
  Chart chart("Roots on trench faces of poplars, by thickness",
              {"distance from the trunk, m", 0, 5, 1}, {"roots per m2, upper metre", 0, 40, 10});
  const std::vector<std::string> names = {"2 to 5 mm", "5 to 10 mm", "10 to 20 mm", "above 20 mm"};
  const std::vector<Mark> marks = {Mark::dot, Mark::ring, Mark::cross, Mark::square};
  const std::vector<Dash> dashes = {Dash::solid, Dash::dashed, Dash::dotted, Dash::dash_dot};
  for (std::size_t i = 0; i < kClassCounts.size(); ++i) {
    const double next = i + 1 < kThicker.size() ? kThicker[i + 1] : 0;
    chart.marks(names[i] + ", counted", by_metre(kClassCounts[i]), marks[i]);
    chart.line(
        names[i] + ", model",
        by_metre(times_share_above(counts_outward(kThicker[i], next), 1.0, 1.5 * kThicker[i])),
        dashes[i]);
  }
  return {"thick-counts.svg", chart.title(), chart.svg()};
}

Plot thick_depth_plot() {
  Chart chart("Share of thick roots above a depth", {"share of roots", 0, 1, 0.2, 1},
              {"depth, m", 1.6, 0, 0.4, 1});
  const std::vector<double> depths = {0.2, 0.4, 0.6, 0.8, 1.0, 1.2, 1.4};
  const std::vector<double> all = {0.21, 0.52, 0.72, 0.84, 0.90, 0.94, 0.98};
  const std::vector<double> thick = {0.07, 0.37, 0.63, 0.80, 0.90, 0.96};
  const auto points = [&](const std::vector<double>& shares) {
    Points at;
    for (std::size_t i = 0; i < shares.size(); ++i) at.push_back({shares[i], depths[i]});
    return at;
  };
  std::vector<double> fine_steps;
  for (int i = 0; i <= 32; ++i) fine_steps.push_back(0.05 * i);
  const auto line = [&](double thickness) {
    Points at;
    const std::vector<double> shares = shares_above(fine_steps, thickness);
    for (std::size_t i = 0; i < shares.size(); ++i) at.push_back({shares[i], fine_steps[i]});
    return at;
  };
  chart.marks("2 mm and more, counted", points(all), Mark::dot);
  chart.line("2 mm and more, model", line(0.002), Dash::solid);
  chart.marks("10 mm and more, counted", points(thick), Mark::ring);
  chart.line("10 mm and more, model", line(0.010), Dash::dashed);
  Points open_ground;
  const ThickRootLaw law = law_of(0.4);
  for (const double depth : fine_steps) open_ground.push_back({law.share_above(depth, 1.0), depth});
  chart.line("25 mm and more, ground not ploughed, model", open_ground, Dash::dotted);
  return {"thick-depth.svg", chart.title(), chart.svg()};
}

}  // namespace

Findings thick_root_findings() {
  Findings findings;
  findings.targets = {t11(), t12(), t13(), t14(), t15(), t17(), t18(),
                      t19(), t20(), t21(), t22(), t23(), t26(), t27()};
  for (Target& target : palm_targets()) findings.targets.push_back(std::move(target));
  findings.targets.push_back(t31());
  for (Target& target : silsoe_targets()) findings.targets.push_back(std::move(target));
  findings.plots = {counts_plot(), thick_depth_plot()};
  return findings;
}

}  // namespace rootstead::validation
