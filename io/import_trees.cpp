#include "io/import_trees.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "io/import_words.hpp"

namespace rootstead::io {
namespace {

// Bounds beyond which a value is worth a second look; all our assumption, and wide: the thickest
// and tallest trees known are near the upper ones.
constexpr double kOftenAGirth = 1.30;     // m: many girths, few diameters are larger
constexpr double kHardlyADiameter = 2.5;  // m
constexpr double kNoTreeThicker = 12;     // m
constexpr double kNoTreeTaller = 120;     // m
constexpr double kNoCrownWider = 30;      // m, radius
constexpr std::size_t kRowsForMedian = 10;

constexpr std::string_view kLengthExample = "write a number with its unit, such as 45 cm";

std::string sized(const EnteredLength& length) {
  return to_text(length);
}

}  // namespace

std::string UniqueIds::give(const std::string& wanted, const std::string& place, ProblemLog& log) {
  if (given_.insert(wanted).second) {
    first_place_[wanted] = place;
    return wanted;
  }
  std::string id;
  int number = 2;
  do {
    id = wanted + "-" + std::to_string(number++);
  } while (!given_.insert(id).second);
  log.add(NoteCode::tag_duplicate, place,
          "\"" + wanted + "\" is used before, in " + first_place_[wanted] + "; it is called \"" +
              id + "\" here",
          "give each its own tag in the source");
  return id;
}

TreeReader::TreeReader(const FieldTable& table, const Georeference& georeference, bool drawn,
                       ProblemLog& log)
    : table_(table), georeference_(georeference), drawn_(drawn), log_(log) {}

std::string TreeReader::subject(const Record& record, const Tree& tree) const {
  const std::string& label = tree.tag.empty() ? tree.id : tree.tag;
  return label.empty() ? record.place : record.place + ", tree " + label;
}

Outcome TreeReader::read(const Record& record) {
  Tree tree;
  tree.origin = {log_.file(), record.place};
  read_names(record, tree);
  label_ = subject(record, tree);
  read_words(record, tree);
  ROOTSTEAD_CHECK(read_stems(record, tree));
  ROOTSTEAD_CHECK(read_sizes(record, tree));
  ROOTSTEAD_CHECK(read_crown(record, tree));
  ROOTSTEAD_CHECK(read_flare(record, tree));
  read_lean(record, tree);
  read_position(record, tree);
  ROOTSTEAD_CHECK(read_position_quality(record, tree));
  trees_.push_back(std::move(tree));
  spare_ids_.push_back(record.spare_id);
  return Nothing{};
}

void TreeReader::keep(Tree& tree, Field field, std::string_view text) {
  if (!tree.notes.empty()) tree.notes += "; ";
  tree.notes += table_.column(field) + ": " + std::string(text);
}

void TreeReader::unreadable(const Record& record, Field field, std::string_view what,
                            std::string_view example) {
  const std::string cell(table_.text(record, field));
  std::string message = "the " + std::string(what) + " \"" + cell + "\" cannot be read";
  if (looks_like_date(cell)) message += "; it looks like a date that a spreadsheet made of it";
  log_.add(NoteCode::value_unreadable, label_, message,
           "column \"" + table_.column(field) + "\": " + std::string(example));
}

Result<TreeReader::Length> TreeReader::length(const Record& record, Field field,
                                              std::string_view what) {
  const std::string_view cell = table_.text(record, field);
  if (cell.empty()) return Length{};
  const ReadLength read = length_in(cell, table_.unit(field));
  if (read.unit_missing) return unit_missing_error(log_.file(), table_, field);
  if (!read.length) unreadable(record, field, what, kLengthExample);
  return read.length;
}

std::optional<double> TreeReader::angle(const Record& record, Field field, std::string_view what) {
  std::string_view cell = table_.text(record, field);
  if (cell.empty()) return std::nullopt;
  const std::string_view sign = "\xC2\xB0";
  if (cell.ends_with(sign)) cell.remove_suffix(sign.size());
  const auto value = number_from(cell);
  if (!value) unreadable(record, field, what, "write degrees, such as 15");
  return value;
}

void TreeReader::read_names(const Record& record, Tree& tree) {
  tree.id = table_.text(record, Field::id);
  tree.tag = table_.text(record, Field::tag);
  tree.botanical_name = table_.text(record, Field::botanical_name);
  for (const Field part : {Field::genus, Field::species, Field::cultivar}) {
    const std::string_view word = table_.text(record, part);
    if (word.empty()) continue;
    if (!tree.botanical_name.empty()) tree.botanical_name += ' ';
    tree.botanical_name += part == Field::cultivar && !word.starts_with('\'')
                               ? "'" + std::string(word) + "'"
                               : std::string(word);
  }
  tree.common_name = table_.text(record, Field::common_name);
  tree.ownership = table_.text(record, Field::ownership);
  tree.protection = table_.text(record, Field::protection);
  tree.category = table_.text(record, Field::category);
  tree.notes = table_.text(record, Field::notes);
}

template <class Enum, class Reader>
void TreeReader::read_word(const Record& record, Field field, std::string_view what, Enum& value,
                           Reader reader, Tree& tree) {
  const std::string_view cell = table_.text(record, field);
  if (cell.empty()) return;
  if (const auto read = reader(cell)) {
    value = *read;
    return;
  }
  keep(tree, field, cell);
  log_.add_repeated(NoteCode::word_unknown, record.place,
                    "\"" + std::string(cell) + "\" in column \"" + table_.column(field) +
                        "\" is no word known for the " + std::string(what) +
                        "; it is kept in the notes",
                    "write one of the words of docs/formats/column-map.md, or map another column");
}

void TreeReader::read_words(const Record& record, Tree& tree) {
  read_word(record, Field::form, "growth form", tree.form, growth_form_from, tree);
  read_word(record, Field::condition, "condition", tree.condition, condition_word, tree);
  read_word(record, Field::stage, "life stage", tree.stage, life_stage_from, tree);
  read_word(record, Field::history, "history", tree.history, growth_history_from, tree);
  read_word(record, Field::intent, "intent", tree.intent, intent_from, tree);
  read_transplant(record, tree);
}

Outcome TreeReader::read_stems(const Record& record, Tree& tree) {
  ROOTSTEAD_TRY(const Length at, length(record, Field::measured_at, "measuring height"));
  const EnteredLength* measured_at = at ? &*at : nullptr;
  bool any_column = false;
  for (int i = 0; i < kMostStemColumns; ++i) {
    const Field diameter = following(Field::stem_diameter, i);
    const Field girth = following(Field::stem_girth, i);
    any_column = any_column || table_.has(diameter) || table_.has(girth);
    const std::size_t before = tree.stems.size();
    ROOTSTEAD_CHECK(read_stem_cell(record, diameter, Stem::Read::diameter, measured_at, tree));
    // A girth beside a diameter is the same stem measured twice.
    if (tree.stems.size() == before)
      ROOTSTEAD_CHECK(read_stem_cell(record, girth, Stem::Read::girth, measured_at, tree));
  }
  if (any_column && tree.stems.empty())
    log_.add(NoteCode::diameter_missing, label_, "no stem diameter is read",
             "measure the stem; the rules that need it leave this tree out");
  check_stem_count(record, tree);
  return Nothing{};
}

Outcome TreeReader::read_stem_cell(const Record& record, Field field, Stem::Read kind,
                                   const EnteredLength* measured_at, Tree& tree) {
  const std::string_view cell = table_.text(record, field);
  if (cell.empty()) return Nothing{};
  for (const std::string& part : stem_parts(cell)) {
    const ReadLength read = length_in(part, table_.unit(field));
    if (read.unit_missing) return unit_missing_error(log_.file(), table_, field);
    if (!read.length || read.length->value < 0) {
      unreadable(record, field, "stem size", "write a number above 0 with its unit, such as 45 cm");
      keep(tree, field, part);
      continue;
    }
    Stem stem{kind, *read.length, {}};
    if (measured_at != nullptr) stem.measured_at = *measured_at;
    if (read.estimated) keep(tree, field, "estimated");
    check_stem(field, stem);
    tree.stems.push_back(stem);
  }
  return Nothing{};
}

void TreeReader::check_stem(Field field, const Stem& stem) {
  const double metres =
      stem.size.length().metres() / (stem.read == Stem::Read::girth ? std::numbers::pi : 1.0);
  const std::string what = stem.read == Stem::Read::girth ? "girth" : "stem diameter";
  const std::string size = what + " " + sized(stem.size);
  if (stem.read == Stem::Read::diameter) diameters_.push_back(metres);
  if (metres == 0) {
    log_.add_blocking(NoteCode::diameter_doubtful, label_, "the " + what + " is 0",
                      "measure it, or leave the cell empty");
  } else if (metres > kNoTreeThicker) {
    log_.add_blocking(NoteCode::diameter_doubtful, label_, "no tree is that thick: " + size,
                      "check the unit of column \"" + table_.column(field) + "\"");
  } else if (metres > kHardlyADiameter) {
    log_.add(NoteCode::diameter_doubtful, label_, size + " is hardly possible",
             "check the value and the unit of column \"" + table_.column(field) + "\"");
  } else if (metres > kOftenAGirth && stem.read == Stem::Read::diameter) {
    log_.add(NoteCode::girth_suspected, label_,
             size + " is rare for a diameter and common for a girth",
             "check that it is not the girth; a girth belongs in a column mapped to stem_girth");
  }
}

void TreeReader::check_stem_count(const Record& record, const Tree& tree) {
  const std::string_view cell = table_.text(record, Field::stem_count);
  if (cell.empty()) return;
  const auto count = number_from(cell);
  if (!count || *count < 1 || *count != std::floor(*count)) {
    unreadable(record, Field::stem_count, "number of stems", "write a whole number such as 3");
    return;
  }
  if (tree.stems.empty() || static_cast<double>(tree.stems.size()) == *count) return;
  log_.add(NoteCode::diameter_doubtful, label_,
           "the number of stems is " + std::string(cell) + ", sizes are given for " +
               std::to_string(tree.stems.size()),
           "write all of them in the cell, such as 300+250+200");
}

Outcome TreeReader::read_sizes(const Record& record, Tree& tree) {
  ROOTSTEAD_TRY(tree.basal_diameter, length(record, Field::basal_diameter, "basal diameter"));
  ROOTSTEAD_TRY(tree.height, length(record, Field::height, "height"));
  ROOTSTEAD_TRY(tree.clear_trunk, length(record, Field::clear_trunk, "clear trunk"));
  if (!tree.height) return Nothing{};
  const double metres = tree.height->length().metres();
  if (metres <= 0 || metres > kNoTreeTaller)
    log_.add(NoteCode::height_doubtful, label_,
             "the height " + sized(*tree.height) + " is impossible",
             "check the value and the unit of column \"" + table_.column(Field::height) + "\"");
  if (metres < 0) {
    keep(tree, Field::height, sized(*tree.height));
    tree.height.reset();
  }
  return Nothing{};
}

Result<std::optional<std::array<EnteredLength, 4>>> TreeReader::crown_radii(const Record& record) {
  using Radii = std::optional<std::array<EnteredLength, 4>>;
  std::array<Length, 4> sides;
  for (int side = 0; side < 4; ++side) {
    const Field field = following(Field::crown_north, side);
    ROOTSTEAD_TRY(sides[static_cast<std::size_t>(side)], length(record, field, "crown radius"));
  }
  const auto given = std::count_if(sides.begin(), sides.end(), [](const Length& l) { return l; });
  if (given == 4) return Radii{{{*sides[0], *sides[1], *sides[2], *sides[3]}}};
  if (given > 0)
    log_.add(NoteCode::crown_missing, label_,
             "the crown is given in " + std::to_string(given) + " of four directions",
             "give all four, or one radius or spread for all");
  ROOTSTEAD_TRY(const Length radius, length(record, Field::crown_radius, "crown radius"));
  if (radius) return Radii{{{*radius, *radius, *radius, *radius}}};
  ROOTSTEAD_TRY(const Length across, length(record, Field::crown_diameter, "crown diameter"));
  ROOTSTEAD_TRY(const Length second, length(record, Field::crown_diameter_2, "crown diameter"));
  if (!across && !second) return Radii{};
  const EnteredLength a = across ? *across : *second, b = second ? *second : *across;
  const EnteredLength ns{a.value / 2, a.unit}, ew{b.value / 2, b.unit};
  return Radii{{{ns, ew, ns, ew}}};
}

Outcome TreeReader::read_crown(const Record& record, Tree& tree) {
  ROOTSTEAD_TRY(auto radii, crown_radii(record));
  ROOTSTEAD_TRY(const Length base, length(record, Field::crown_base_height, "crown base height"));
  if (!radii) return Nothing{};
  for (const EnteredLength& radius : *radii) {
    const double metres = radius.length().metres();
    if (metres >= 0 && metres <= kNoCrownWider) continue;
    log_.add(NoteCode::crown_missing, label_,
             "the crown radius " + sized(radius) + " is impossible",
             "check the value and its unit");
    if (metres < 0) return Nothing{};
    break;
  }
  tree.crown = Crown{*radii, base, false};
  const std::string_view columnar = table_.text(record, Field::columnar);
  if (columnar.empty()) return Nothing{};
  if (const auto yes = yes_no_from(columnar)) {
    tree.crown->columnar = *yes;
  } else {
    unreadable(record, Field::columnar, "word for columnar", "write yes or no");
  }
  return Nothing{};
}

Outcome TreeReader::read_flare(const Record& record, Tree& tree) {
  read_word(record, Field::flare, "root flare", tree.flare.state, flare_word, tree);
  ROOTSTEAD_TRY(tree.flare.buried_by, length(record, Field::flare_buried_by, "depth of the flare"));
  if (tree.flare.buried_by && tree.flare.state == Flare::State::unknown &&
      tree.flare.buried_by->value > 0)
    tree.flare.state = Flare::State::buried;
  read_flare_signs(record, tree);
  ROOTSTEAD_CHECK(read_taper(record, tree));
  return read_flare_record(record, tree);
}

void TreeReader::read_lean(const Record& record, Tree& tree) {
  const auto lean = angle(record, Field::lean, "lean");
  const auto towards = angle(record, Field::lean_towards, "direction of lean");
  constexpr double kFlatOnTheGround = 90;
  if (lean && (*lean < 0 || *lean > kFlatOnTheGround)) {
    unreadable(record, Field::lean, "lean", "write degrees from the vertical, 0 to 90");
  } else if (lean) {
    tree.lean = Lean{Angle::degrees(*lean), Angle::degrees(towards.value_or(0))};
  }
}

Outcome TreeReader::read_position_quality(const Record& record, Tree& tree) {
  ROOTSTEAD_TRY(const Length error, length(record, Field::position_error, "position error"));
  if (!tree.position) return Nothing{};
  if (const auto source = table_.text(record, Field::position_source); !source.empty())
    tree.position->source = source;
  tree.position->error = error;
  return Nothing{};
}

void TreeReader::report_girth_under_diameter_header() {
  if (diameters_.size() < kRowsForMedian) return;
  const auto middle = diameters_.begin() + static_cast<std::ptrdiff_t>(diameters_.size() / 2);
  std::nth_element(diameters_.begin(), middle, diameters_.end());
  constexpr double kMedianOfGirths = 0.9;  // m; a wood of such diameters is rare (our assumption)
  if (*middle < kMedianOfGirths || *middle > kNoTreeThicker) return;
  log_.add(NoteCode::girth_suspected, "",
           "half of the stem diameters are above " + fixed_number(*middle, 2) +
               " m; the column may hold girths",
           "if so, map it to stem_girth in a column map");
}

}  // namespace rootstead::io
