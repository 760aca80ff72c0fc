#include "tests/io/sample_site.hpp"

#include <algorithm>
#include <cmath>
#include <random>

namespace rootstead::test {
namespace {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  bool often() { return number(0, 1) < 0.7; }
  int pick(int count) { return static_cast<int>(engine_() % static_cast<unsigned>(count)); }
  double number(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_() >> 11) * 0x1.0p-53;
  }
  std::string text() {
    static const char* const kTexts[] = {"",
                                         "Oak",
                                         "Quercus ilex",
                                         "O'Brien's \"old\" tree; DROP TABLE trees",
                                         "Straße 5, Łódź",
                                         "two\nlines",
                                         "樹木",
                                         "a,b;c\td"};
    return kTexts[pick(8)];
  }
  EnteredLength length(double low = 0.01, double high = 3000) {
    static constexpr LengthUnit kUnits[] = {LengthUnit::metre,      LengthUnit::centimetre,
                                            LengthUnit::millimetre, LengthUnit::inch,
                                            LengthUnit::foot,       LengthUnit::us_survey_foot};
    return {number(low, high), kUnits[pick(6)]};
  }
  std::optional<EnteredLength> maybe_length() {
    return often() ? std::optional(length()) : std::nullopt;
  }
  std::optional<double> maybe(double low, double high) {
    return often() ? std::optional(number(low, high)) : std::nullopt;
  }
  template <class Word>
  Word word(Word last) {
    return static_cast<Word>(pick(static_cast<int>(last) + 1));
  }
  Point near(const Point& centre) {
    return {centre.x + number(-200, 200), centre.y + number(-200, 200)};
  }
  Polygon polygon(const Point& centre) {
    const Point c = near(centre);
    const double s = number(1, 20);
    Polygon square{{{c.x, c.y}, {c.x + s, c.y}, {c.x + s, c.y + s}, {c.x, c.y + s}}, {}};
    if (often()) {
      square.holes.push_back(
          {{c.x + s / 4, c.y + s / 4}, {c.x + s / 4, c.y + s / 2}, {c.x + s / 2, c.y + s / 2}});
    }
    return square;
  }
  MultiPolygon polygons(const Point& centre) {
    MultiPolygon all;
    for (int i = pick(3); i >= 0; --i) all.push_back(polygon(centre));
    return all;
  }
  Shape shape(const Point& centre) {
    Shape shape;
    const int kinds = pick(8);  // none, or any mix of lines, areas and points
    for (int i = (kinds & 1) ? 1 + pick(2) : 0; i > 0; --i) {
      Line line{near(centre), near(centre)};
      if (often()) line.push_back(near(centre));
      shape.lines.push_back(line);
    }
    if (kinds & 2) shape.areas = polygons(centre);
    for (int i = (kinds & 4) ? 1 + pick(3) : 0; i > 0; --i) shape.points.push_back(near(centre));
    return shape;
  }

 private:
  std::mt19937_64 engine_;
};

Flare random_flare(Dice& dice) {
  Flare flare;
  flare.state = dice.word(Flare::State::buried);
  flare.buried_by = dice.maybe_length();
  for (int i = dice.pick(4); i > 0; --i) flare.taper.push_back({dice.length(), dice.length()});
  for (int i = dice.pick(4); i > 0; --i) flare.signs.push_back(dice.word(FlareSign::stem_roots));
  if (!dice.often()) return flare;
  flare.found =
      FlareRecord{dice.text(),      dice.text(),         dice.maybe_length(), dice.maybe_length(),
                  dice.maybe(0, 1), dice.maybe_length(), dice.text()};
  return flare;
}

Tree random_tree(Dice& dice, const std::string& id, const Point& centre) {
  Tree tree;
  tree.id = id;
  tree.tag = dice.text();
  tree.botanical_name = dice.text();
  tree.common_name = dice.text();
  tree.form = dice.word(GrowthForm::other_monocot);
  for (int i = dice.pick(4); i > 0; --i) {
    tree.stems.push_back({dice.word(Stem::Read::girth), dice.length(), dice.maybe_length()});
  }
  tree.basal_diameter = dice.maybe_length();
  tree.height = dice.maybe_length();
  if (dice.often()) {
    tree.crown = Crown{{dice.length(), dice.length(), dice.length(), dice.length()},
                       dice.maybe_length(),
                       dice.often()};
  }
  tree.condition = dice.word(Condition::dead);
  tree.stage = dice.word(LifeStage::veteran);
  if (dice.often()) {
    tree.lean = Lean{Angle::degrees(dice.number(0, 60)), Angle::degrees(dice.number(0, 360))};
  }
  tree.flare = random_flare(dice);
  tree.history = dice.word(GrowthHistory::moved_before);
  tree.intent = dice.word(Intent::remove);
  tree.clear_trunk = dice.maybe_length();
  if (dice.often()) tree.position = Position{dice.near(centre), dice.text(), dice.maybe_length()};
  tree.ownership = dice.text();
  tree.protection = dice.text();
  tree.category = dice.text();
  tree.notes = dice.text();
  tree.origin = {dice.text(), "row " + id};
  return tree;
}

Work random_work(Dice& dice, const std::string& id, const Point& centre) {
  Work work;
  work.id = id;
  work.name = dice.text();
  work.kind = dice.word(WorkKind::root_cut);
  work.state = dice.word(WorkState::existing);
  work.method = dice.word(DigMethod::air);
  work.shape = dice.shape(centre);
  work.width = dice.maybe_length();
  work.depth = dice.maybe_length();
  work.working_room = dice.maybe_length();
  work.bore_diameter = dice.maybe_length();
  work.spacing = dice.maybe_length();
  if (dice.often()) work.bore_pits = dice.polygons(centre);
  work.permeable = dice.often();
  if (dice.often()) {
    work.vehicle = Vehicle{dice.text(),         dice.maybe(100, 60000), dice.maybe(1, 200),
                           dice.maybe(20, 900), dice.maybe_length(),    dice.maybe_length(),
                           dice.maybe(1, 1000)};
  }
  if (dice.often()) {
    work.cover =
        GroundCover{dice.text(), dice.maybe_length(), dice.maybe_length(), dice.maybe_length()};
  }
  work.fill_texture = dice.word(SoilTexture::clay);
  work.wet = dice.often();
  work.date = dice.text();
  work.seen = dice.text();
  work.notes = dice.text();
  work.origin = {dice.text(), "entity " + id};
  return work;
}

Evidence random_evidence(Dice& dice, const std::string& id, const Point& centre) {
  Evidence evidence;
  evidence.id = id;
  evidence.kind = dice.word(EvidenceKind::dug_root);
  if (dice.often()) evidence.tree = "a tree of " + id;  // no id and no tag: kept as written
  evidence.shape = dice.shape(centre);
  evidence.width = dice.maybe_length();
  evidence.depth = dice.maybe_length();
  if (dice.often()) evidence.counted_from = dice.length();
  for (int i = dice.pick(5); i > 0; --i) {
    evidence.roots.push_back({dice.length(), dice.maybe_length(),
                              dice.often() ? std::optional(dice.near(centre)) : std::nullopt,
                              dice.often()});
  }
  evidence.date = dice.text();
  evidence.seen_by = dice.text();
  evidence.notes = dice.text();
  evidence.origin = {dice.text(), "row " + id};
  return evidence;
}

// One "name = value" line per field: two records are alike where their lines are.
class Fields {
 public:
  explicit Fields(double tolerance) : tolerance_(tolerance) {}
  bool same(double a, double b, double allowed) { return std::abs(a - b) <= allowed; }
  void check(const std::string& name, bool equal) {
    if (!equal && first_.empty()) first_ = name;
  }
  void check(const std::string& name, const Point& a, const Point& b) {
    check(name, same(a.x, b.x, tolerance_) && same(a.y, b.y, tolerance_));
  }
  void check(const std::string& name, const Line& a, const Line& b) {
    check(name + " count", a.size() == b.size());
    for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i) check(name, a[i], b[i]);
  }
  void check(const std::string& name, const MultiPolygon& a, const MultiPolygon& b) {
    check(name + " count", a.size() == b.size());
    for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i) {
      check(name + " outer", a[i].outer, b[i].outer);
      check(name + " hole count", a[i].holes.size() == b[i].holes.size());
      for (std::size_t j = 0; j < std::min(a[i].holes.size(), b[i].holes.size()); ++j) {
        check(name + " hole", a[i].holes[j], b[i].holes[j]);
      }
    }
  }
  void check(const std::string& name, const Shape& a, const Shape& b) {
    check(name + " line count", a.lines.size() == b.lines.size());
    for (std::size_t i = 0; i < std::min(a.lines.size(), b.lines.size()); ++i) {
      check(name + " line", a.lines[i], b.lines[i]);
    }
    check(name + " areas", a.areas, b.areas);
    check(name + " points", a.points, b.points);
  }
  void check(const std::string& name, const Origin& a, const Origin& b) {
    check(name, a.file == b.file && a.place == b.place);
  }
  const std::string& first() const { return first_; }

 private:
  double tolerance_;
  std::string first_;
};

constexpr double kAngle = 1e-12;

void compare(Fields& f, const std::string& tree, const Flare& a, const Flare& b) {
  f.check(tree + "flare", a.state == b.state && a.buried_by == b.buried_by);
  f.check(tree + "flare signs", a.signs == b.signs);
  f.check(tree + "taper count", a.taper.size() == b.taper.size());
  for (std::size_t i = 0; i < std::min(a.taper.size(), b.taper.size()); ++i) {
    f.check(tree + "taper",
            a.taper[i].height == b.taper[i].height && a.taper[i].diameter == b.taper[i].diameter);
  }
  f.check(tree + "flare found there", a.found.has_value() == b.found.has_value());
  if (!a.found || !b.found) return;
  f.check(tree + "flare found by", a.found->date == b.found->date &&
                                       a.found->seen_by == b.found->seen_by &&
                                       a.found->notes == b.found->notes);
  f.check(tree + "flare found", a.found->flare_depth == b.found->flare_depth &&
                                    a.found->first_main_root == b.found->first_main_root &&
                                    a.found->girdled_share == b.found->girdled_share &&
                                    a.found->excavation_radius == b.found->excavation_radius);
}

void compare(Fields& f, const Tree& a, const Tree& b) {
  const std::string tree = "tree " + a.id + " ";
  f.check(tree + "id", a.id == b.id);
  f.check(tree + "tag", a.tag == b.tag);
  f.check(tree + "botanical name", a.botanical_name == b.botanical_name);
  f.check(tree + "common name", a.common_name == b.common_name);
  f.check(tree + "form", a.form == b.form);
  f.check(tree + "stem count", a.stems.size() == b.stems.size());
  for (std::size_t i = 0; i < std::min(a.stems.size(), b.stems.size()); ++i) {
    f.check(tree + "stem", a.stems[i].read == b.stems[i].read &&
                               a.stems[i].size == b.stems[i].size &&
                               a.stems[i].measured_at == b.stems[i].measured_at);
  }
  f.check(tree + "basal diameter", a.basal_diameter == b.basal_diameter);
  f.check(tree + "height", a.height == b.height);
  f.check(tree + "crown there", a.crown.has_value() == b.crown.has_value());
  if (a.crown && b.crown) {
    f.check(tree + "crown", a.crown->radius == b.crown->radius &&
                                a.crown->base_height == b.crown->base_height &&
                                a.crown->columnar == b.crown->columnar);
  }
  f.check(tree + "condition", a.condition == b.condition);
  f.check(tree + "stage", a.stage == b.stage);
  f.check(tree + "lean there", a.lean.has_value() == b.lean.has_value());
  if (a.lean && b.lean) {
    f.check(tree + "lean",
            f.same(a.lean->from_vertical.radians(), b.lean->from_vertical.radians(), kAngle) &&
                f.same(a.lean->towards.radians(), b.lean->towards.radians(), kAngle));
  }
  compare(f, tree, a.flare, b.flare);
  f.check(tree + "history and intent", a.history == b.history && a.intent == b.intent);
  f.check(tree + "clear trunk", a.clear_trunk == b.clear_trunk);
  f.check(tree + "position there", a.position.has_value() == b.position.has_value());
  if (a.position && b.position) {
    f.check(tree + "position", a.position->at, b.position->at);
    f.check(tree + "position source",
            a.position->source == b.position->source && a.position->error == b.position->error);
  }
  f.check(tree + "texts", a.ownership == b.ownership && a.protection == b.protection &&
                              a.category == b.category && a.notes == b.notes);
  f.check(tree + "origin", a.origin, b.origin);
}

void compare(Fields& f, const std::string& work, const Vehicle& a, const Vehicle& b) {
  f.check(work + "vehicle", a.name == b.name && a.gross_mass == b.gross_mass &&
                                a.wheel_load == b.wheel_load &&
                                a.contact_pressure == b.contact_pressure && a.passes == b.passes);
  f.check(work + "contact of the vehicle",
          a.contact_width == b.contact_width && a.contact_length == b.contact_length);
}

void compare(Fields& f, const Work& a, const Work& b) {
  const std::string work = "work " + a.id + " ";
  f.check(work + "id and name", a.id == b.id && a.name == b.name);
  f.check(work + "kind", a.kind == b.kind && a.state == b.state && a.method == b.method);
  f.check(work + "shape", a.shape, b.shape);
  f.check(work + "lengths", a.width == b.width && a.depth == b.depth &&
                                a.working_room == b.working_room &&
                                a.bore_diameter == b.bore_diameter && a.spacing == b.spacing);
  f.check(work + "bore pits", a.bore_pits, b.bore_pits);
  f.check(work + "permeable and notes", a.permeable == b.permeable && a.notes == b.notes);
  f.check(work + "vehicle there", a.vehicle.has_value() == b.vehicle.has_value());
  if (a.vehicle && b.vehicle) compare(f, work, *a.vehicle, *b.vehicle);
  f.check(work + "cover there", a.cover.has_value() == b.cover.has_value());
  if (a.cover && b.cover) {
    f.check(work + "cover", a.cover->name == b.cover->name && a.cover->chips == b.cover->chips &&
                                a.cover->plate_width == b.cover->plate_width &&
                                a.cover->plate_length == b.cover->plate_length);
  }
  f.check(work + "fill texture and wet", a.fill_texture == b.fill_texture && a.wet == b.wet);
  f.check(work + "date and seen", a.date == b.date && a.seen == b.seen);
  f.check(work + "origin", a.origin, b.origin);
}

void compare(Fields& f, const Barrier& a, const Barrier& b) {
  const std::string barrier = "barrier " + a.id + " ";
  f.check(barrier + "words", a.id == b.id && a.name == b.name && a.kind == b.kind);
  f.check(barrier + "shape", a.shape, b.shape);
  f.check(barrier + "lengths", a.width == b.width && a.depth == b.depth && a.notes == b.notes);
  f.check(barrier + "origin", a.origin, b.origin);
}

void compare(Fields& f, const FoundRoot& a, const FoundRoot& b) {
  f.check("root", a.diameter == b.diameter && a.depth == b.depth && a.alive == b.alive);
  f.check("root place there", a.at.has_value() == b.at.has_value());
  if (a.at && b.at) f.check("root place", *a.at, *b.at);
}

void compare(Fields& f, const SoilLayer& a, const SoilLayer& b) {
  f.check("soil layer", a.bottom == b.bottom && a.texture == b.texture &&
                            a.bulk_density == b.bulk_density && a.air_filled == b.air_filled &&
                            a.resistance == b.resistance);
  f.check("particles of a soil layer", a.sand == b.sand && a.silt == b.silt && a.clay == b.clay);
  f.check("matter and water of a soil layer",
          a.organic_matter == b.organic_matter && a.water == b.water);
}

void compare(Fields& f, const Gate& a, const Gate& b) {
  f.check("gate " + a.id, a.id == b.id && a.width == b.width);
  f.check("place of gate " + a.id, a.at, b.at);
}

void compare(Fields& f, const Surface& a, const Surface& b) {
  const std::string surface = "surface " + a.id + " ";
  f.check(surface + "words", a.id == b.id && a.name == b.name && a.permeable == b.permeable);
  f.check(surface + "area", a.area, b.area);
  f.check(surface + "origin", a.origin, b.origin);
}

template <class Record>
void compare_all(Fields& f, const char* what, const std::vector<Record>& a,
                 const std::vector<Record>& b) {
  f.check(std::string("number of ") + what, a.size() == b.size());
  for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i) compare(f, a[i], b[i]);
}

void compare(Fields& f, const Evidence& a, const Evidence& b) {
  const std::string opening = "opening " + a.id + " ";
  f.check(opening + "words", a.id == b.id && a.kind == b.kind && a.tree == b.tree);
  f.check(opening + "shape", a.shape, b.shape);
  f.check(opening + "lengths",
          a.width == b.width && a.depth == b.depth && a.counted_from == b.counted_from);
  compare_all(f, "roots of an opening", a.roots, b.roots);
  f.check(opening + "texts", a.date == b.date && a.seen_by == b.seen_by && a.notes == b.notes);
  f.check(opening + "origin", a.origin, b.origin);
}

Figure invented_figure(const std::string& name, double value) {
  Figure figure;
  figure.name = name;
  figure.value = value;
  figure.unit = "m";
  figure.formula = "r = 12 D";
  figure.from = {"invented-source", "table 1", Status::memory};
  return figure;
}

ZoneAssessment invented_zone(const Tree& tree, const std::string& work, int number) {
  ZoneAssessment assessed;
  Zone& zone = assessed.zone;
  zone.rule = "invented-rule-" + std::to_string(number);
  zone.zone = "root-zone";
  zone.name = "Root zone";
  zone.centre = tree.position ? tree.position->at : Point{};
  zone.radius = Length::metres(6 + number);
  zone.area = circle_area(zone.radius);
  zone.figure = invented_figure(zone.rule + ".root-zone.radius", zone.radius.metres());
  assessed.loss.affected = zone.area * 0.25;
  assessed.loss.share = 0.25;
  if (!work.empty()) {
    ZoneLoss::ByWork part;
    part.work = work;
    part.affected = zone.area * 0.25;
    part.share = 0.25;
    part.nearest = Length::metres(1.5);
    assessed.loss.by_work.push_back(part);
  }
  LimitResult limit;
  limit.rule = zone.rule;
  limit.zone = zone.zone;
  limit.limit = "area-share";
  limit.passed_over = true;
  limit.value = 0.25;
  limit.threshold = 0.2;
  limit.triggers = "viability to be shown";
  limit.figure = invented_figure(zone.rule + ".area-share", 0.25);
  if (!work.empty()) limit.works = {work};
  assessed.limits.push_back(limit);
  return assessed;
}

}  // namespace

io::Import random_import(std::uint64_t seed, int trees, int others, double x, double y) {
  Dice dice(seed);
  const Point centre{x, y};
  const std::string prefix = std::to_string(seed) + "-";
  io::Import import;
  import.source = "survey " + std::to_string(seed) + ".csv";
  import.kind = "trees";
  import.mapping = "tag = \"Tree no.\"\n";
  for (int i = 0; i < trees; ++i) {
    import.trees.push_back(random_tree(dice, prefix + "T" + std::to_string(i), centre));
  }
  for (int i = 0; i < others; ++i) {
    const std::string number = std::to_string(i);
    import.works.push_back(random_work(dice, prefix + "W" + number, centre));
    import.barriers.push_back({prefix + "B" + number,
                               dice.text(),
                               dice.word(BarrierKind::water),
                               dice.shape(centre),
                               dice.maybe_length(),
                               dice.maybe_length(),
                               dice.text(),
                               { dice.text(),
                                 "entity " + number }});
    import.surfaces.push_back(
        {prefix + "S" + number, dice.text(), dice.often(), dice.polygons(centre), {
           dice.text(),
           "entity " + number
         }});
    import.problems.push_back({dice.often(), NoteCode::diameter_doubtful, "row " + number,
                               "the diameter is odd", "look again"});
  }
  for (int i = 0; i < others; ++i) {
    import.evidence.push_back(random_evidence(dice, prefix + "P" + std::to_string(i), centre));
  }
  if (others > 0) import.boundary = dice.polygons(centre);
  for (int i = 0; i < others; ++i) {
    import.gates.push_back({prefix + "G" + std::to_string(i), dice.near(centre), dice.length()});
  }
  import.rows_read = static_cast<std::size_t>(trees + others);
  return import;
}

ProjectSettings random_settings(std::uint64_t seed) {
  Dice dice(seed);
  ProjectSettings s;
  for (std::string* text : {&s.title, &s.address, &s.client, &s.author, &s.credentials, &s.date,
                            &s.revision, &s.status}) {
    *text = dice.text();
  }
  s.units = dice.word(UnitSystem::us_customary);
  s.demo = dice.often();
  for (int i = dice.pick(12); i > 0; --i)
    s.rules.push_back("rule-" + std::to_string(dice.pick(99)));
  for (int i = dice.pick(4); i > 0; --i) s.other["key " + std::to_string(i)] = dice.text();
  return s;
}

Soil random_soil(std::uint64_t seed) {
  Dice dice(seed);
  Soil soil;
  soil.texture = dice.word(SoilTexture::clay);
  soil.drainage = dice.word(Drainage::poor);
  soil.rooting_depth = dice.maybe_length();
  soil.compacted = dice.often();
  soil.notes = dice.text();
  soil.water_table = dice.maybe_length();
  for (int i = dice.pick(5); i > 0; --i) {
    soil.layers.push_back({dice.length(), dice.word(SoilTexture::clay), dice.maybe(0.3, 2.2),
                           dice.maybe(0, 0.5), dice.maybe(0, 10), dice.maybe(0, 1),
                           dice.maybe(0, 1), dice.maybe(0, 1), dice.maybe(0, 1), dice.maybe(0, 1)});
  }
  return soil;
}

Climate random_climate(std::uint64_t seed) {
  Dice dice(seed);
  Climate climate;
  if (dice.often()) climate.hardiness_zone = 1 + dice.pick(13);
  climate.latitude = dice.maybe(-60, 70);
  climate.elevation = dice.maybe(-400, 4000);
  const auto months = [&](double high) {
    std::vector<double> values;
    if (!dice.often()) return values;
    for (int i = 0; i < 12; ++i) values.push_back(dice.number(0, high));
    return values;
  };
  climate.evapotranspiration = months(9);
  climate.rain = months(15);
  climate.source = dice.text();
  return climate;
}

Wind random_wind(std::uint64_t seed) {
  Dice dice(seed);
  return {dice.word(Wind::Standard::asce7_22), dice.number(0, 90), dice.text(),
          dice.number(1, 3000), dice.number(0, 4000)};
}

Assessment invented_assessment(const Site& site, int zones_per_tree) {
  Assessment assessment;
  assessment.data_version = "test data 1";
  assessment.cautions = {"A screening aid, not a certificate.", "Roots are where they are."};
  const std::string work = site.works.empty() ? "" : site.works.front().id;
  int number = 0;
  for (const Tree& tree : site.trees) {
    TreeAssessment assessed;
    assessed.tree = tree.id;
    for (int i = 0; i < zones_per_tree; ++i) {
      assessed.zones.push_back(invented_zone(tree, work, i));
    }
    const double share = 0.01 * (++number % 90);
    assessed.roots = RootLoss{{share / 2, share, share * 1.1}, {}};
    if (!work.empty()) assessed.roots->by_work.push_back({work, {0, share / 2, share}});
    AnchorageKept kept;
    kept.kept = {0.7, 0.8, 0.9};
    kept.worst_from = Angle::degrees(225);
    kept.by_direction.fill(0.8);
    kept.figure = invented_figure("anchorage.kept", 0.8);
    assessed.anchorage = kept;
    assessed.verdict.action = number % 3 == 0 ? Action::keep : Action::keep_with_measures;
    assessed.verdict.vitality = Concern::material;
    assessed.verdict.stability = Concern::small;
    assessed.verdict.reasons.push_back(
        {Reason::About::vitality, "A limit is passed.", "invented-rule-0", "area-share", work});
    assessed.verdict.measures = {"Dig by hand.", "Fence the zone."};
    assessed.verdict.missing = {"rooting depth"};
    assessed.notes.push_back({NoteCode::first_estimate, tree.id, "A first estimate."});
    assessment.trees.push_back(std::move(assessed));
  }
  return assessment;
}

std::string difference(const ProjectSettings& a, const ProjectSettings& b) {
  Fields f(0);
  f.check("title", a.title == b.title);
  f.check("address", a.address == b.address);
  f.check("client", a.client == b.client);
  f.check("author", a.author == b.author && a.credentials == b.credentials);
  f.check("date", a.date == b.date && a.revision == b.revision && a.status == b.status);
  f.check("units", a.units == b.units);
  f.check("rules", a.rules == b.rules);
  f.check("demo", a.demo == b.demo);
  f.check("other settings", a.other == b.other);
  return f.first();
}

std::string difference(const Site& a, const Site& b, double tolerance) {
  Fields f(tolerance);
  const std::string settings = difference(a.settings, b.settings);
  f.check("settings " + settings, settings.empty());
  f.check("system", a.system.code == b.system.code && a.system.file_unit == b.system.file_unit);
  compare_all(f, "trees", a.trees, b.trees);
  compare_all(f, "works", a.works, b.works);
  compare_all(f, "barriers", a.barriers, b.barriers);
  compare_all(f, "surfaces", a.surfaces, b.surfaces);
  compare_all(f, "openings", a.evidence, b.evidence);
  compare_all(f, "soil layers", a.soil.layers, b.soil.layers);
  f.check("water table", a.soil.water_table == b.soil.water_table);
  f.check("wind", a.wind.standard == b.wind.standard && a.wind.basic_speed == b.wind.basic_speed &&
                      a.wind.terrain == b.wind.terrain &&
                      a.wind.return_years == b.wind.return_years &&
                      a.wind.elevation == b.wind.elevation);
  f.check("boundary", a.boundary, b.boundary);
  compare_all(f, "gates", a.gates, b.gates);
  f.check("climate", a.climate.hardiness_zone == b.climate.hardiness_zone &&
                         a.climate.latitude == b.climate.latitude &&
                         a.climate.elevation == b.climate.elevation &&
                         a.climate.source == b.climate.source);
  f.check("climate by month", a.climate.evapotranspiration == b.climate.evapotranspiration &&
                                  a.climate.rain == b.climate.rain);
  f.check("soil", a.soil.texture == b.soil.texture && a.soil.drainage == b.soil.drainage &&
                      a.soil.rooting_depth == b.soil.rooting_depth &&
                      a.soil.compacted == b.soil.compacted && a.soil.notes == b.soil.notes);
  return f.first();
}

}  // namespace rootstead::test
