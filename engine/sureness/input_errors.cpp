#include "engine/sureness/input_errors.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <initializer_list>
#include <string_view>

#include "engine/base/text.hpp"
#include "engine/roots/root_model.hpp"

namespace rootstead {
namespace {

using Parts = std::initializer_list<std::string_view>;

bool has_any(std::string_view text, Parts parts) {
  return std::any_of(parts.begin(), parts.end(), [&](std::string_view part) {
    return text.find(part) != std::string_view::npos;
  });
}

InputError assumed(const Tables& tables, const std::string& id, std::string known) {
  const Parameter& parameter = tables.parameter(id);
  return {parameter.best, "assumed for " + std::move(known), parameter.from, false};
}

// A receiver of which nothing more is said counts as that of a phone.
InputError position_by_source(std::string_view source, const Tables& tables) {
  const std::string text = lower_case(source);
  const auto taken = [&](const char* kind, std::string known) {
    return assumed(tables, std::string("sureness.position.") + kind, std::move(known));
  };
  if (has_any(text, {"total station", "tachy", "theodolite", "rtk"}))
    return taken("instrument", "a surveyor's instrument");
  if (has_any(text, {"phone", "gps", "gnss"})) return taken("phone", "a phone");
  if (has_any(text, {"tape"})) return taken("tape", "tape ties");
  if (has_any(text, {"drawing", "outline", "plan", "map", "photo"}))
    return taken("drawing", "a drawing");
  return taken("unknown", "a survey that does not say how");
}

// Does a clause of the notes call the stem estimated? Reading a survey leaves such a clause for a
// size written as "~50".
bool stem_is_estimated(const Tree& tree) {
  const std::string notes = lower_case(tree.notes);
  std::size_t begin = 0;
  while (begin <= notes.size()) {
    const std::size_t end = std::min(notes.find_first_of(";.,", begin), notes.size());
    const std::string_view clause = std::string_view(notes).substr(begin, end - begin);
    if (has_any(clause, {"estimat"}) && !has_any(clause, {"height", "crown", "position", "place"}))
      return true;
    begin = end + 1;
  }
  return false;
}

InputError size_error(const Tree& tree, const Tables& tables, bool of_height) {
  if (of_height) return assumed(tables, "sureness.height", "the height of a palm");
  if (stem_is_estimated(tree)) return assumed(tables, "sureness.stem.estimated", "an estimate");
  const bool girths = !tree.stems.empty() &&
                      std::all_of(tree.stems.begin(), tree.stems.end(),
                                  [](const Stem& stem) { return stem.read == Stem::Read::girth; });
  return girths ? assumed(tables, "sureness.stem.girth", "a tape round the stem")
                : assumed(tables, "sureness.stem.diameter", "a measured diameter");
}

}  // namespace

TreeErrors errors_of(const Tree& tree, const Tables& tables) {
  TreeErrors errors;
  errors.of_height = roots_like_a_palm(tree, tables.species_of(tree.botanical_name));
  errors.size = size_error(tree, tables, errors.of_height);
  if (!tree.position) return errors;
  const auto& stated = tree.position->error;
  errors.position = stated ? InputError{stated->length().metres(), "as stated", {}, true}
                           : position_by_source(tree.position->source, tables);
  return errors;
}

Tree moved(Tree tree, const TreeErrors& errors, const Deviates& by) {
  assert(tree.position);
  tree.position->at.x += errors.position.sigma * by.east;
  tree.position->at.y += errors.position.sigma * by.north;
  return tree;
}

Tree resized(Tree tree, const TreeErrors& errors, const Deviates& by) {
  auto next = by.sizes.begin();
  const auto change = [&](EnteredLength& length) {
    if (next != by.sizes.end()) length.value *= std::exp(errors.size.sigma * *next++);
  };
  if (errors.of_height) {
    if (tree.height) change(*tree.height);
    return tree;
  }
  for (Stem& stem : tree.stems) change(stem.size);
  if (tree.basal_diameter) change(*tree.basal_diameter);
  return tree;
}

}  // namespace rootstead
