#include "serve/measured.hpp"

#include "engine/base/text.hpp"

namespace rootstead::serve {
namespace {

using io::Json;

class Lines {
 public:
  void add(const std::string& name, std::string_view text) {
    if (!text.empty()) lines_.push_back(named(name, std::string(text)));
  }
  void add(const std::string& name, const std::optional<EnteredLength>& length) {
    if (length) add(name, to_text(*length));
  }
  Json lines() { return std::move(lines_); }

 private:
  Json lines_ = Json::array();
};

std::string stem_text(const Stem& stem) {
  std::string text = stem.read == Stem::Read::girth ? "girth " : "diameter ";
  text += to_text(stem.size);
  return stem.measured_at ? text + " at " + to_text(*stem.measured_at) : text;
}

void add_stems(const Tree& tree, Lines& lines) {
  for (std::size_t i = 0; i < tree.stems.size(); ++i) {
    const std::string number = tree.stems.size() > 1 ? " " + std::to_string(i + 1) : "";
    lines.add("Stem" + number, stem_text(tree.stems[i]));
  }
  lines.add("Diameter above the buttress", tree.basal_diameter);
}

void add_crown(const Tree& tree, Lines& lines) {
  if (!tree.crown) return;
  std::vector<std::string> radii;
  for (const EnteredLength& radius : tree.crown->radius) radii.push_back(to_text(radius));
  lines.add("Crown radii north, east, south, west", joined(radii, ", "));
  lines.add("Crown begins at", tree.crown->base_height);
  if (tree.crown->columnar) lines.add("Crown form", "columnar");
}

void add_flare(const Flare& flare, Lines& lines) {
  if (flare.state != Flare::State::unknown) lines.add("Flare", to_text(flare.state));
  lines.add("Flare buried by", flare.buried_by);
  for (const TaperReading& reading : flare.taper)
    lines.add("Taper at " + to_text(reading.height), to_text(reading.diameter));
  for (const FlareSign sign : flare.signs) lines.add("Seen at the base", to_text(sign));
  if (!flare.found) return;
  lines.add("Flare found at a depth of", flare.found->flare_depth);
  lines.add("First main root at a depth of", flare.found->first_main_root);
  if (flare.found->girdled_share)
    lines.add("Girdled share of the trunk", percent(*flare.found->girdled_share, 0));
  lines.add("Found at the flare", flare.found->notes);
}

std::string position_text(const Position& position) {
  constexpr int kCentimetres = 2;
  std::string text = "x " + fixed_number(position.at.x, kCentimetres) + " m, y " +
                     fixed_number(position.at.y, kCentimetres) + " m";
  if (!position.source.empty()) text += ", by " + position.source;
  return position.error ? text + ", to within " + to_text(*position.error) : text;
}

std::string lean_text(const Lean& lean) {
  return fixed_number(lean.from_vertical.degrees(), 0) + " degrees from upright, towards " +
         fixed_number(lean.towards.degrees(), 0) + " degrees";
}

}  // namespace

Json named(const std::string& name, const std::string& text) {
  return {{"name", name}, {"text", text}};
}

Json measured_of(const Tree& tree) {
  Lines lines;
  lines.add("Tag", tree.tag);
  lines.add("Botanical name", tree.botanical_name);
  lines.add("Common name", tree.common_name);
  if (tree.form != GrowthForm::unknown) lines.add("Growth form", to_text(tree.form));
  add_stems(tree, lines);
  lines.add("Height", tree.height);
  lines.add("Clear trunk", tree.clear_trunk);
  add_crown(tree, lines);
  if (tree.condition != Condition::unknown) lines.add("Condition", to_text(tree.condition));
  if (tree.stage != LifeStage::unknown) lines.add("Life stage", to_text(tree.stage));
  if (tree.lean) lines.add("Lean", lean_text(*tree.lean));
  add_flare(tree.flare, lines);
  if (tree.history != GrowthHistory::unknown) lines.add("History", to_text(tree.history));
  if (tree.intent != Intent::undecided) lines.add("Intent", to_text(tree.intent));
  if (tree.position) lines.add("Position", position_text(*tree.position));
  lines.add("Owner", tree.ownership);
  lines.add("Protected by", tree.protection);
  lines.add("Category", tree.category);
  lines.add("Notes", tree.notes);
  if (!tree.origin.file.empty())
    lines.add("Read from",
              tree.origin.file + (tree.origin.place.empty() ? "" : ", " + tree.origin.place));
  return lines.lines();
}

}  // namespace rootstead::serve
