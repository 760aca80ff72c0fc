// The drawing: stems, crowns, zones, works, barriers and surfaces on layers of our own names
// (docs/formats/exports.md), in the project's system and unit.
#include <map>

#include "engine/base/text.hpp"
#include "io/dxf_writer.hpp"
#include "io/export_formats.hpp"
#include "io/export_rows.hpp"

namespace rootstead::io {
namespace {

// Colours of the index; they only help: line types and layers carry the meaning.
constexpr int kPlain = 7, kGrey = 8, kGreen = 92, kBrown = 34, kBlue = 150, kRed = 1;
constexpr int kThin = 13, kMedium = 25, kHeavy = 50;  // hundredths of a millimetre

constexpr const char* kStem = "ROOT_TREE_STEM";
constexpr const char* kLabel = "ROOT_TREE_LABEL";
constexpr const char* kVerdict = "ROOT_TREE_VERDICT";
constexpr const char* kCrown = "ROOT_TREE_CROWN";
constexpr const char* kBorePits = "ROOT_WORK_BORE_PITS";
constexpr const char* kGround = "ROOT_GROUND_SURFACED";
constexpr const char* kNotes = "ROOT_NOTES";

DxfUnit unit_of(LengthUnit unit) {
  if (unit == LengthUnit::foot) return DxfUnit::foot;
  return unit == LengthUnit::us_survey_foot ? DxfUnit::us_survey_foot : DxfUnit::metre;
}

const char* line_type_of(ZonePurpose purpose) {
  switch (purpose) {
    case ZonePurpose::vitality:
      return "ROOT_DASH";
    case ZonePurpose::stability:
      return "ROOT_DASH_DOT";
    case ZonePurpose::crown:
      return "ROOT_SHORT_DASH";
    case ZonePurpose::precaution:
      return "ROOT_DOT";
  }
  return "ROOT_DASH";
}

// Draws in metres of the site; the drawing gets its own unit.
class Draughtsman {
 public:
  explicit Draughtsman(const Site& site)
      : unit_(metres_per(site.system.file_unit)), drawing_(unit_of(site.system.file_unit)) {
    add_line_types();
    drawing_.add_layer({kStem, kPlain, "CONTINUOUS", kMedium});
    drawing_.add_layer({kLabel, kPlain, "CONTINUOUS", kThin});
    drawing_.add_layer({kVerdict, kPlain, "CONTINUOUS", kThin});
    drawing_.add_layer({kCrown, kGreen, "CONTINUOUS", kThin});
    drawing_.add_layer({kBorePits, kRed, "CONTINUOUS", kHeavy});
    drawing_.add_layer({kGround, kGrey, "CONTINUOUS", kThin});
    drawing_.add_layer({kNotes, kPlain, "CONTINUOUS", kThin});
  }
  DxfWriter& drawing() { return drawing_; }
  double units(double metres) const { return metres / unit_; }
  Point place(const Point& at) const { return {at.x / unit_, at.y / unit_}; }
  Line places(const Line& line) const {
    Line moved;
    for (const Point& at : line) moved.push_back(place(at));
    return moved;
  }
  void areas(const std::string& layer, const MultiPolygon& areas) {
    for (const Polygon& area : areas) {
      drawing_.polyline(layer, places(area.outer), true);
      for (const Ring& hole : area.holes) drawing_.polyline(layer, places(hole), true);
    }
  }
  void shape(const std::string& layer, const Shape& shape, const std::optional<EnteredLength>& w) {
    const double width = w ? units(w->length().metres()) : 0;
    for (const Line& line : shape.lines) drawing_.polyline(layer, places(line), false, width);
    areas(layer, shape.areas);
    for (const Point& at : shape.points) drawing_.point(layer, place(at));
  }
  void text(const char* layer, const Point& at, double height, const std::string& words) {
    if (!words.empty()) drawing_.text(layer, place(at), units(height), words);
  }

 private:
  void add_line_types() {
    const double m = units(1);
    drawing_.add_line_type({"ROOT_DASH", "___ ___ ___", {1.2 * m, -0.6 * m}});
    drawing_.add_line_type({"ROOT_DASH_DOT", "___ . ___ .", {1.2 * m, -0.4 * m, 0.0, -0.4 * m}});
    drawing_.add_line_type({"ROOT_SHORT_DASH", "_ _ _ _", {0.5 * m, -0.4 * m}});
    drawing_.add_line_type({"ROOT_DOT", ". . . .", {0.0, -0.4 * m}});
  }
  double unit_;
  DxfWriter drawing_;
};

constexpr double kLabelHeight = 0.6;  // metres on the ground: 3 mm at 1:200

void draw_stem(Draughtsman& to, const Tree& tree) {
  const Point& at = tree.position->at;
  Length thickest;
  for (const Stem& stem : tree.stems) thickest = std::max(thickest, stem.diameter());
  if (thickest > Length{}) {
    to.drawing().circle(kStem, to.place(at), to.units(thickest.metres() / 2));
  } else {
    to.drawing().point(kStem, to.place(at));
  }
}

void draw_tree(Draughtsman& to, const Tree& tree, const std::string& verdict) {
  if (!tree.position) return;
  draw_stem(to, tree);
  const Point& at = tree.position->at;
  to.text(kLabel, {at.x + kLabelHeight, at.y + kLabelHeight}, kLabelHeight, tree.label());
  to.text(kVerdict, {at.x + kLabelHeight, at.y - kLabelHeight}, kLabelHeight * 0.7, verdict);
  if (tree.crown) to.drawing().polyline(kCrown, to.places(crown_outline(tree).outer), true);
}

void draw_zone(Draughtsman& to, const Zone& zone) {
  const std::string layer = "ROOT_ZONE_" + dxf_layer_name(zone.rule + "_" + zone.zone);
  to.drawing().add_layer({layer, kBrown, line_type_of(zone.purpose), kMedium});
  if (zone.outline) {
    to.areas(layer, *zone.outline);
  } else {
    to.drawing().circle(layer, to.place(zone.centre), to.units(zone.radius.metres()));
  }
}

void draw_trees(Draughtsman& to, const Export& out) {
  std::map<std::string, const TreeAssessment*> assessed;
  for (const TreeAssessment& tree : out.assessment.trees) assessed[tree.tree] = &tree;
  for (const Tree& tree : out.site.trees) {
    const auto found = assessed.find(tree.id);
    const bool known = found != assessed.end();
    draw_tree(to, tree, known ? std::string(to_text(found->second->verdict.action)) : "");
    if (!known || !tree.position) continue;
    for (const ZoneAssessment& zone : found->second->zones) draw_zone(to, zone.zone);
  }
}

void draw_ground(Draughtsman& to, const Site& site) {
  for (const Work& work : site.works) {
    const std::string layer = "ROOT_WORK_" + dxf_layer_name(std::string(to_text(work.kind))) +
                              (work.state == WorkState::existing ? "_EXISTING" : "");
    to.drawing().add_layer({layer, kRed, "CONTINUOUS", kHeavy});
    to.shape(layer, work.shape, work.width);
    to.areas(kBorePits, work.bore_pits);
  }
  for (const Barrier& barrier : site.barriers) {
    const std::string layer = "ROOT_BARRIER_" + dxf_layer_name(std::string(to_text(barrier.kind)));
    to.drawing().add_layer({layer, kBlue, "CONTINUOUS", kHeavy});
    to.shape(layer, barrier.shape, barrier.width);
  }
  for (const Surface& surface : site.surfaces) to.areas(kGround, surface.area);
}

std::vector<std::string> wrapped(const std::string& text, std::size_t width) {
  std::vector<std::string> lines{""};
  for (const std::string& word : split(text, ' ')) {
    if (!lines.back().empty() && lines.back().size() + word.size() >= width) lines.push_back("  ");
    lines.back() += (trimmed(lines.back()).empty() ? "" : " ") + word;
  }
  return lines;
}

// Title, data and cautions in the drawing itself, below it, and at the head of the file.
void write_notes(Draughtsman& to, const Export& out) {
  constexpr std::size_t kLetters = 110;
  const Box box = to.drawing().extents();
  Point at = box.empty() ? Point{} : Point{box.min_x, box.min_y};
  const double height = to.units(kLabelHeight);
  at.y -= 4 * height;
  for (const AboutOut& line : about_of(out.site, out.assessment, out.tables)) {
    for (const std::string& part : wrapped(line.topic + ": " + line.text, kLetters)) {
      to.drawing().add_comment(part);
      to.drawing().text(kNotes, at, height, part);
      at.y -= 1.6 * height;
    }
  }
}

}  // namespace

Outcome write_dxf(const Export& out, const PartFolder& folder, Warnings& warnings) {
  Draughtsman draughtsman(out.site);
  draw_ground(draughtsman, out.site);
  draw_trees(draughtsman, out);
  write_notes(draughtsman, out);
  const auto lost = std::count_if(out.site.trees.begin(), out.site.trees.end(),
                                  [](const Tree& tree) { return !tree.position; });
  if (lost > 0) {
    warnings.push_back("Without a position and so not in the drawing: " + std::to_string(lost) +
                       (lost == 1 ? " tree." : " trees."));
  }
  return write_bytes(folder.file(), draughtsman.drawing().file());
}

}  // namespace rootstead::io
