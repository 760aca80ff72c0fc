#include "tests/report/sample_plan.hpp"

#include <algorithm>
#include <cmath>

#include "engine/geom/circle_area.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/losses/losses.hpp"
#include "io/tables.hpp"

namespace rootstead::test {
namespace {

constexpr double kEast = 430000, kNorth = 300000;

EnteredLength metres(double v) {
  return {v, LengthUnit::metre};
}
EnteredLength millimetres(double v) {
  return {v, LengthUnit::millimetre};
}
Point at(double x, double y) {
  return {kEast + x, kNorth + y};
}
Polygon box(double x, double y, double w, double h) {
  return {{at(x, y), at(x + w, y), at(x + w, y + h), at(x, y + h)}, {}};
}

struct TreeSeed {
  const char* tag;
  const char* botanical;
  const char* common;
  GrowthForm form;
  double x, y, stem_mm, height, crown;
  int stems = 1;
};

Tree grown(const TreeSeed& seed) {
  Tree tree;
  tree.id = tree.tag = seed.tag;
  tree.botanical_name = seed.botanical;
  tree.common_name = seed.common;
  tree.form = seed.form;
  for (int i = 0; i < seed.stems; ++i) {
    tree.stems.push_back({i % 2 == 1 ? Stem::Read::girth : Stem::Read::diameter,
                          millimetres(seed.stem_mm * (i % 2 == 1 ? 3 : 1)), metres(1.5)});
  }
  tree.height = metres(seed.height);
  const double r = seed.crown;
  tree.crown = Crown{{metres(r), metres(r * 1.1), metres(r * 0.8), metres(r)}, metres(2.5), false};
  tree.condition = Condition::good;
  tree.stage = LifeStage::mature;
  tree.flare.state = Flare::State::visible;
  tree.position = Position{at(seed.x, seed.y), "total station", metres(0.05)};
  tree.ownership = "client";
  tree.category = "B";
  tree.origin = {"survey.csv", "row 2"};
  return tree;
}

std::vector<Tree> trees() {
  using enum GrowthForm;
  std::vector<Tree> all;
  for (const TreeSeed& seed : std::vector<TreeSeed>{
           {"T1", "Quercus robur", "English oak", broadleaf, 12, 18, 820, 17, 7.5},
           {"T2", "Quercus robur", "English oak", broadleaf, 20, 30, 640, 15, 6},
           {"T3", "Ficus microcarpa", "Indian laurel fig", broadleaf, 34, 20, 260, 13, 8, 5},
           {"T4", "Pinus pinea", "stone pine", conifer, 47, 31, 510, 14, 5},
           {"T5", "Phoenix canariensis", "Canary Island date palm", palm, 58, 14, 560, 11, 3.8},
           {"T6", "Washingtonia robusta", "Mexican fan palm", palm, 61.5, 16, 330, 16, 1.8},
           {"T7", "Washingtonia robusta", "Mexican fan palm", palm, 63, 12.5, 310, 15, 1.8},
           {"T8", "Platanus × hispanica", "London plane", broadleaf, 70, 30, 730, 19, 8},
           {"T9", "Tilia cordata", "small-leaved lime", broadleaf, 82, 22, 420, 12, 4.5},
           {"T10", "Cupressus sempervirens", "Italian cypress", conifer, 84.5, 24, 280, 13, 1.2},
           {"T11", "Acer campestre", "field maple", broadleaf, 8, 44, 190, 7, 2.8, 3},
           {"T12", "Olea europaea", "olive", broadleaf, 44, 9, 380, 6, 3}})
    all.push_back(grown(seed));
  all[0].protection = "preservation order 4/1998";
  all[1].flare.state = Flare::State::buried;
  all[1].flare.buried_by = millimetres(250);
  all[3].lean = Lean{Angle::degrees(8), Angle::degrees(140)};
  all[7].ownership = "street";
  all[7].notes = "Pavement lifted on the west side; old trench scar, 1.2 m from the stem.";
  all[9].crown->columnar = true;
  all[11].condition = Condition::fair;
  return all;
}

Work work(const char* id, const char* name, WorkKind kind, double depth) {
  Work w;
  w.id = id;
  w.name = name;
  w.kind = kind;
  w.depth = metres(depth);
  w.origin = {"works.dxf", "layer " + std::string(id)};
  return w;
}

std::vector<Work> works() {
  std::vector<Work> all;
  Work drain = work("W1", "Storm drain", WorkKind::trench, 1.4);
  drain.shape.lines = {{at(2, 24), at(30, 25), at(55, 22), at(92, 27)}};
  drain.width = millimetres(600);
  drain.working_room = metres(0.5);
  all.push_back(drain);
  Work path = work("W2", "Path widening", WorkKind::paving, 0.25);
  path.shape.areas = {box(2, 10, 90, 2.2)};
  path.permeable = true;
  all.push_back(path);
  Work house = work("W3", "Extension", WorkKind::building, 1.0);
  house.shape.areas = {box(22, 34, 14, 10)};
  all.push_back(house);
  Work fill = work("W4", "Garden fill", WorkKind::fill, 0.4);
  fill.shape.areas = {box(64, 33, 20, 12)};
  all.push_back(fill);
  Work haul = work("W5", "Haul road", WorkKind::traffic, 0);
  haul.depth.reset();
  haul.shape.areas = {box(38, 34, 5, 14), box(38, 44, 50, 4)};
  all.push_back(haul);
  Work fence = work("W6", "Boundary fence", WorkKind::fence_posts, 0.6);
  fence.shape.lines = {{at(2, 49), at(20, 49)}};
  fence.width = millimetres(300);
  fence.spacing = metres(2.5);
  all.push_back(fence);
  Work bore = work("W7", "Water main bore", WorkKind::bore, 1.6);
  bore.shape.lines = {{at(50, 40), at(92, 36)}};
  bore.bore_diameter = millimetres(200);
  bore.width = millimetres(200);
  all.push_back(bore);
  return all;
}

ZoneRule oak_rule() {
  ZoneRule rule;
  rule.id = "sample-2026";
  rule.title = "Sample rule of twelve diameters";
  rule.jurisdiction = "nowhere";
  rule.edition = "2026";
  rule.checked = "2026-11-25";
  rule.measured_at = metres(1.5);
  ZoneDefinition zone;
  zone.id = "root-zone";
  zone.name = "Root zone";
  zone.from = {"sample-source", "clause 1", Status::published};
  ZoneDefinition core = zone;
  core.id = "structural";
  core.name = "Structural root zone";
  core.purpose = ZonePurpose::stability;
  core.from.status = Status::memory;
  rule.zones = {zone, core};
  LimitDefinition limit;
  limit.id = "tenth-of-zone";
  limit.zone = "root-zone";
  limit.threshold = 0.1;
  limit.triggers = "show that the tree can stay";
  limit.from = {"sample-source", "clause 2", Status::common_practice};
  rule.limits = {limit};
  return rule;
}

Zone zone_for(const Tree& tree, const ZoneDefinition& definition, double radius) {
  Zone zone;
  zone.rule = "sample-2026";
  zone.zone = definition.id;
  zone.name = definition.name;
  zone.purpose = definition.purpose;
  if (tree.position) zone.centre = tree.position->at;
  zone.radius = Length::metres(radius);
  zone.area = circle_area(zone.radius);
  zone.figure = {"sample-2026." + definition.id + ".radius",
                 radius,
                 "m",
                 {},
                 {{"D", "stem diameter", "820 mm"}},
                 "r = 12 D, at most 15 m",
                 definition.from};
  return zone;
}

ZoneAssessment lossy(const Zone& zone, const WorkMap& works, const ZoneRule& rule) {
  ZoneAssessment z{zone, zone_loss(zone, works), {}};
  for (const LimitDefinition& d : rule.limits) {
    if (d.zone != zone.zone) continue;
    LimitResult result;
    result.rule = rule.id, result.zone = zone.zone, result.limit = d.id;
    result.value = z.loss.share, result.threshold = d.threshold;
    result.passed_over = result.value >= result.threshold;
    result.triggers = d.triggers;
    result.figure.from = d.from;
    z.limits.push_back(result);
  }
  return z;
}

double diameter(const Tree& tree) {
  double sum = 0;
  for (const Stem& stem : tree.stems) sum += std::pow(stem.diameter().metres(), 2);
  return std::sqrt(sum);
}

void add_ranges(TreeAssessment& tree, double share, const ZoneLoss& loss) {
  RootLoss roots;
  const auto around = [](double v) { return Range{v * 0.6, v, std::min(1.0, v * 1.5)}; };
  roots.all = around(share);
  for (const auto& w : loss.by_work) roots.by_work.push_back({w.work, around(w.share)});
  tree.roots = roots;
  AnchorageKept kept;
  kept.kept = {1 - share * 1.3, 1 - share * 0.8, 1 - share * 0.3};
  for (Range* r : {&kept.kept}) r->low = std::max(0.05, r->low);
  kept.worst_from = Angle::degrees(200);
  for (int i = 0; i < kWindDirections; ++i) {
    const double turn = (i * 10 - 200) * M_PI / 180;
    kept.by_direction[std::size_t(i)] = 1 - share * 0.8 * std::pow(std::cos(turn / 2), 4);
  }
  if (!loss.by_work.empty()) {
    kept.nearest_cut = loss.by_work.front().nearest;
    kept.works = {loss.by_work.front().work};
  }
  if (share > 0.25) kept.reasons_to_inspect = {"a cut lies within three stem diameters"};
  kept.figure = {"anchorage.kept",
                 kept.kept.best,
                 "",
                 kept.kept,
                 {},
                 "k = sum over rays",
                 {"sample-source", "", Status::assumption}};
  tree.anchorage = kept;
}

Verdict verdict_for(const TreeAssessment& tree, double share) {
  Verdict v;
  if (tree.zones.empty()) {
    v.missing = {"no rule of the project has a clause for this tree"};
    return v;
  }
  v.vitality = share > 0.3   ? Concern::large
               : share > 0.1 ? Concern::material
               : share > 0   ? Concern::small
                             : Concern::none;
  v.stability = share > 0.25 ? Concern::material : share > 0.02 ? Concern::small : Concern::none;
  v.action = share > 0.5    ? Action::remove
             : share > 0.25 ? Action::assess_further
             : share > 0.1  ? Action::keep_with_measures
                            : Action::keep;
  if (share > 0.1) {
    v.reasons.push_back({Reason::About::vitality,
                         "The works take more than a tenth of the root zone: tenth-of-zone of the "
                         "sample rule is passed, mostly by the storm drain.",
                         "sample-2026", "tenth-of-zone", "W1"});
    v.measures = {
        "Dig the storm drain by hand or air within the root zone, keeping roots over "
        "25 mm.",
        "Fence what is left of the root zone before any machine comes on site."};
  }
  if (share > 0.25) {
    v.reasons.push_back({Reason::About::stability,
                         "A cut lies inside the structural root zone; anchorage in the weakest "
                         "direction may fall below what was there before.",
                         "sample-2026", "", "W1"});
    v.missing = {"basal diameter just above the root buttress"};
  }
  return v;
}

}  // namespace

Assessment invented_assessment(const Site& site, const Tables& tables) {
  Assessment a;
  const WorkMap works(site);
  const ZoneRule& rule = tables.rules.front();
  for (const Tree& tree : site.trees) {
    TreeAssessment t;
    t.tree = tree.id;
    const double d = diameter(tree);
    const bool palm = tree.is_monocot();
    const double radius = palm ? tree.crown->largest_radius().metres() + 1 : std::min(15.0, 12 * d);
    t.zones.push_back(lossy(zone_for(tree, rule.zones[0], radius), works, rule));
    if (!palm) t.zones.push_back(lossy(zone_for(tree, rule.zones[1], 1.2 + 2 * d), works, rule));
    const double share = t.zones[0].loss.share;
    if (share > 0) add_ranges(t, share, t.zones[0].loss);
    t.verdict = verdict_for(t, share);
    t.notes = {{NoteCode::root_estimate, tree.id,
                "roots are drawn from published averages: the true roots of this tree differ"}};
    a.trees.push_back(std::move(t));
  }
  a.cautions = {
      "This is a screening aid from published averages, not a tree risk assessment, an engineering "
      "design or a certificate.",
      "Roots are where they are: expose them by hand or air before cutting.",
      "Locate buried services before any digging.",
      "Keep people clear while roots are cut; stop if the tree or its plate moves."};
  a.problems = {{false, NoteCode::position_error_large, "survey.csv row 9, tree T8",
                 "the position may be out by 2 m", "measure it again before relying on the share"}};
  a.data_version = "2026.11-sample";
  return a;
}

Sample sample(UnitSystem units) {
  Sample s;
  ProjectSettings& settings = s.site.settings;
  settings.title = "Harbour Walk, garden extension and storm drain";
  settings.address = "14 Harbour Walk, Lower Quay";
  settings.client = "Quayside Housing Trust";
  settings.author = "R. Alder";
  settings.credentials = "consulting arborist, reg. 0000";
  settings.date = "2026-11-25";
  settings.revision = "B";
  settings.status = "for planning";
  settings.units = units;
  settings.rules = {"sample-2026"};
  settings.demo = true;
  s.site.system = {"EPSG:27700", "OSGB36 / British National Grid", LengthUnit::metre, "Newlyn",
                   Angle::degrees(1.4)};
  s.site.trees = trees();
  s.site.works = works();
  Barrier wall;
  wall.id = "B1", wall.name = "Sea wall", wall.kind = BarrierKind::wall;
  wall.shape.lines = {{at(0, 5), at(60, 5), at(95, 8)}};
  wall.width = millimetres(800), wall.depth = metres(2.5);
  s.site.barriers = {wall};
  Surface road{"S1", "Quay road", false, {box(0, 0, 95, 4)}, {}};
  s.site.surfaces = {road};
  s.site.soil.texture = SoilTexture::loam;
  auto shipped = io::load_tables();  // the models need their parameters
  EXPECT_TRUE(shipped.ok());
  if (shipped) s.tables = std::move(shipped).value();
  s.tables.version = "2026.11-sample";
  s.tables.rules = {oak_rule()};
  s.tables.sources.push_back(
      {"sample-source", "A. Nobody, 2026, Rules made up for tests", "invented"});
  s.assessment = invented_assessment(s.site, s.tables);
  return s;
}

Sample random_site(std::size_t count, double side, std::uint64_t seed) {
  Sample s = sample();
  RandomStream random(seed, "strewn trees");
  s.site.trees.clear();
  for (std::size_t i = 0; i < count; ++i) {
    const std::string tag = "T" + std::to_string(i + 1);
    s.site.trees.push_back(
        grown({tag.c_str(), "Tilia cordata", "lime", GrowthForm::broadleaf, random.uniform(0, side),
               random.uniform(0, side), random.uniform(120, 700), 10, random.uniform(1, 6)}));
  }
  s.assessment = invented_assessment(s.site, s.tables);
  return s;
}

}  // namespace rootstead::test
