// What is seen and found at the base of a tree, and what is to become of the tree.
#include "engine/base/text.hpp"
#include "io/import_quantity.hpp"
#include "io/import_trees.hpp"

namespace rootstead::io {
namespace {

constexpr std::string_view kTaperExample = "0.1 m: 62 cm; 0.3 m: 58 cm";

// "a; b;; c" without the empty ones.
std::vector<std::string> listed(std::string_view cell) {
  std::vector<std::string> parts;
  for (const std::string& part : split(std::string(cell), ';')) {
    const std::string_view bare = trimmed(part);
    if (!bare.empty()) parts.emplace_back(bare);
  }
  return parts;
}

}  // namespace

// "Yes" under a header such as "to be transplanted" says move; another intent beside it disagrees.
void TreeReader::read_transplant(const Record& record, Tree& tree) {
  const std::string_view cell = table_.text(record, Field::transplant);
  if (cell.empty()) return;
  const auto yes = yes_no_from(cell);
  if (!yes)
    return unreadable(record, Field::transplant, "word for transplanting", "write yes or no");
  if (*yes && tree.intent == Intent::undecided) tree.intent = Intent::move;
  const bool disagrees = *yes != (tree.intent == Intent::move) && tree.intent != Intent::undecided;
  if (disagrees)
    log_.add(NoteCode::value_unreadable, label_,
             "\"" + std::string(cell) + "\" for transplanting and the intent \"" +
                 std::string(to_text(tree.intent)) + "\" disagree; the intent is kept",
             "column \"" + table_.column(Field::transplant) + "\": correct one of the two");
}

void TreeReader::read_flare_signs(const Record& record, Tree& tree) {
  for (const std::string& word : listed(table_.text(record, Field::flare_signs))) {
    if (const auto sign = flare_sign_from(word)) {
      tree.flare.signs.push_back(*sign);
      continue;
    }
    keep(tree, Field::flare_signs, word);
    log_.add_repeated(NoteCode::word_unknown, record.place,
                      "\"" + word + "\" in column \"" + table_.column(Field::flare_signs) +
                          "\" is no sign known of a buried flare; it is kept in the notes",
                      "write signs of docs/formats/column-map.md, separated by semicolons");
  }
}

Outcome TreeReader::read_taper(const Record& record, Tree& tree) {
  for (const std::string& part : listed(table_.text(record, Field::taper))) {
    const auto mark = part.find_first_of(":=");
    const bool pair = mark != std::string::npos;
    const ReadLength height = pair ? length_in(part.substr(0, mark), {}) : ReadLength{};
    const ReadLength diameter =
        pair ? length_in(part.substr(mark + 1), table_.unit(Field::taper)) : ReadLength{};
    if (diameter.unit_missing) return unit_missing_error(log_.file(), table_, Field::taper);
    if (height.length && diameter.length) {
      tree.flare.taper.push_back({*height.length, *diameter.length});
      continue;
    }
    keep(tree, Field::taper, part);
    log_.add(NoteCode::value_unreadable, label_,
             "the taper reading \"" + part + "\" cannot be read; it is kept in the notes",
             "column \"" + table_.column(Field::taper) +
                 "\": write height and diameter with their units, such as " +
                 std::string(kTaperExample));
  }
  return Nothing{};
}

Outcome TreeReader::read_flare_record(const Record& record, Tree& tree) {
  const auto depth = [&](Field field, std::string_view what) {
    return length_cell(record, table_, field, what, log_, label_, "120 mm");
  };
  FlareRecord found;
  ROOTSTEAD_TRY(found.flare_depth, depth(Field::flare_found_depth, "depth the flare was found at"));
  ROOTSTEAD_TRY(found.first_main_root,
                depth(Field::first_main_root, "depth of the first main root"));
  ROOTSTEAD_TRY(found.excavation_radius, depth(Field::excavation_radius, "excavation radius"));
  found.girdled_share =
      quantity_cell(record, table_,
                    {Field::girdled_share, "girdled share", kShareUnits, 0, 1, "0.25 or 25 %",
                     "is no share of a circumference", NoteCode::flare_doubtful},
                    log_, label_);
  found.date = table_.text(record, Field::flare_date);
  found.seen_by = table_.text(record, Field::flare_seen_by);
  const bool any = found.flare_depth || found.first_main_root || found.excavation_radius ||
                   found.girdled_share || !found.date.empty() || !found.seen_by.empty();
  if (any) tree.flare.found = std::move(found);
  return Nothing{};
}

}  // namespace rootstead::io
