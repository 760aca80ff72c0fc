#include "io/import_evidence.hpp"

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "io/import_words.hpp"

namespace rootstead::io {
namespace {

constexpr std::string_view kRootExample = "35 mm";

bool same(const Shape& a, const Shape& b) {
  return a.lines == b.lines && a.areas == b.areas && a.points == b.points;
}

// Outlines drawn as closed lines are areas.
Shape with_outlines_as_areas(const Shape& drawn) {
  constexpr double kClosed = 0.001;  // m: drawings close outlines by eye
  Shape shape = drawn;
  std::erase_if(shape.lines, [&shape](Line& line) {
    if (line.size() < 4 || distance(line.front(), line.back()).metres() > kClosed) return false;
    line.pop_back();
    shape.areas.push_back({std::move(line), {}});
    return true;
  });
  return shape;
}

// What an opening is where nobody says it: ground is opened along a line by air, and in one spot
// by a pit.
EvidenceKind kind_by_shape(const Shape& shape) {
  return shape.lines.empty() ? EvidenceKind::pit : EvidenceKind::air_trench;
}

std::string with_article(EvidenceKind kind) {
  return (kind == EvidenceKind::air_trench ? "an " : "a ") + std::string(to_text(kind));
}

}  // namespace

Outcome EvidenceReader::read(const Record& record, const FieldTable& table,
                             const LayerKind& of_layer, const std::optional<Point>& root_at) {
  bool first = false;
  Evidence& opening = opening_of(record, table, first);
  const bool has_root = !table.text(record, Field::root_diameter).empty();
  std::optional<Point> at = root_at;
  read_shape(record, has_root, at, opening);
  read_kind(record, table, of_layer, opening, first);
  read_texts(record, table, opening);
  ROOTSTEAD_CHECK(read_sizes(record, table, opening));
  return read_roots(record, table, at, opening);
}

Evidence& EvidenceReader::opening_of(const Record& record, const FieldTable& table, bool& first) {
  std::string id(table.text(record, Field::id));
  if (id.empty()) id = record.spare_id;
  const auto [found, is_new] = by_id_.emplace(id, openings_.size());
  first = is_new;
  if (!is_new) return openings_[found->second];
  Evidence opening;
  opening.id = id;
  opening.origin = {log_.file(), record.place};
  openings_.push_back(std::move(opening));
  kind_said_.push_back(false);
  counted_from_said_.push_back(false);
  return openings_.back();
}

std::string EvidenceReader::label(const Record& record, const Evidence& opening) const {
  return record.place + ", opening " + opening.id;
}

void EvidenceReader::disagrees(const Record& record, const Evidence& opening,
                               const std::string& what, const std::string& said) {
  log_.add(NoteCode::value_unreadable, label(record, opening),
           "the " + what + (said.empty() ? "" : " \"" + said + "\"") +
               " is not that of its first row, " + opening.origin.place + "; the first is kept",
           "write the same in every row of an opening, or leave it out of all but one");
}

void EvidenceReader::read_kind(const Record& record, const FieldTable& table,
                               const LayerKind& of_layer, Evidence& opening, bool first) {
  const std::size_t number = by_id_.at(opening.id);
  const std::string_view word = table.text(record, Field::kind);
  const auto said = word.empty() ? of_layer.evidence : evidence_kind_from(word);
  if (said && kind_said_[number] && *said != opening.kind) {
    return disagrees(record, opening, "kind", std::string(to_text(*said)));
  }
  if (said) {
    opening.kind = *said;
    kind_said_[number] = true;
    return;
  }
  if (kind_said_[number] || (!first && word.empty())) return;
  opening.kind = kind_by_shape(opening.shape);
  const std::string what = word.empty() ? std::string("what kind of opening it is is not said")
                                        : "\"" + std::string(word) + "\" is no kind of opening";
  log_.add_repeated(NoteCode::assumed_in_reading, record.place,
                    what + "; it is read as " + with_article(opening.kind),
                    "write pit, air trench or dug root in a column mapped to kind");
}

void EvidenceReader::read_texts(const Record& record, const FieldTable& table, Evidence& opening) {
  const auto text = [&](Field field, const std::string& what, std::string& kept) {
    const std::string said(table.text(record, field));
    if (said.empty() || said == kept) return;
    if (!kept.empty()) return disagrees(record, opening, what, said);
    kept = said;
  };
  text(Field::tree, "tree", opening.tree);
  text(Field::date, "date", opening.date);
  text(Field::seen_by, "name of who saw it", opening.seen_by);
  // Notes of a root's row are about that root; all are kept.
  const std::string notes(table.text(record, Field::notes));
  if (notes.empty() || opening.notes.find(notes) != std::string::npos) return;
  opening.notes += (opening.notes.empty() ? "" : "; ") + notes;
}

Outcome EvidenceReader::read_sizes(const Record& record, const FieldTable& table,
                                   Evidence& opening) {
  const std::string at = label(record, opening);
  const auto size = [&](Field field, const std::string& what,
                        std::optional<EnteredLength>& kept) -> Outcome {
    ROOTSTEAD_TRY(const auto said, length_cell(record, table, field, what, log_, at));
    if (!said || said == kept) return Nothing{};
    if (kept) {
      disagrees(record, opening, what, to_text(*said));
    } else {
      kept = said;
    }
    return Nothing{};
  };
  ROOTSTEAD_CHECK(size(Field::width, "width", opening.width));
  ROOTSTEAD_CHECK(size(Field::depth, "depth", opening.depth));
  std::optional<EnteredLength> counted_from;
  const std::size_t number = by_id_.at(opening.id);
  if (counted_from_said_[number]) counted_from = opening.counted_from;
  ROOTSTEAD_CHECK(size(Field::counted_from, "diameter counted from", counted_from));
  counted_from_said_[number] = counted_from.has_value();
  if (counted_from) opening.counted_from = *counted_from;
  return Nothing{};
}

void EvidenceReader::read_shape(const Record& record, bool has_root, std::optional<Point>& root_at,
                                Evidence& opening) {
  if (!record.shape || record.shape->empty()) return;
  Shape shape = with_outlines_as_areas(*record.shape);
  if (opening.shape.empty()) {
    opening.shape = std::move(shape);
    return;
  }
  if (same(shape, opening.shape)) return;
  const bool one_point = shape.points.size() == 1 && shape.lines.empty() && shape.areas.empty();
  if (!has_root || !one_point || root_at) {
    disagrees(record, opening, "place", "");
    return;
  }
  root_at = shape.points.front();
  log_.add_repeated(NoteCode::assumed_in_reading, record.place,
                    "a place other than that of the opening is read as the place of the root",
                    "map the place of roots to root_x and root_y to say so");
}

bool EvidenceReader::read_alive(const Record& record, const FieldTable& table, Evidence& opening) {
  const std::string_view word = table.text(record, Field::alive);
  if (word.empty()) return true;
  if (const auto alive = alive_word(word)) return *alive;
  opening.notes +=
      (opening.notes.empty() ? "" : "; ") + table.column(Field::alive) + ": " + std::string(word);
  log_.add(NoteCode::word_unknown, label(record, opening),
           "\"" + std::string(word) +
               "\" does not say whether the root was alive; it is taken as "
               "alive and kept in the notes",
           "column \"" + table.column(Field::alive) + "\": write yes or no");
  return true;
}

Outcome EvidenceReader::read_roots(const Record& record, const FieldTable& table,
                                   const std::optional<Point>& root_at, Evidence& opening) {
  const std::string at = label(record, opening);
  const std::string_view cell = table.text(record, Field::root_diameter);
  if (cell.empty()) {
    const bool rest = !table.text(record, Field::root_depth).empty() || root_at;
    if (rest)
      log_.add_blocking(
          NoteCode::not_taken, at, "a root without a diameter is not taken",
          "write its diameter in column \"" + table.column(Field::root_diameter) + "\"");
    return Nothing{};
  }
  FoundRoot root;
  root.at = root_at;
  // A root dug up by itself was where its opening is.
  if (!root.at && opening.kind == EvidenceKind::dug_root && opening.shape.points.size() == 1)
    root.at = opening.shape.points.front();
  root.alive = read_alive(record, table, opening);
  ROOTSTEAD_TRY(root.depth,
                length_cell(record, table, Field::root_depth, "depth of the root", log_, at));
  for (const std::string& part : stem_parts(cell)) {
    const ReadLength read = length_in(part, table.unit(Field::root_diameter));
    if (read.unit_missing) return unit_missing_error(log_.file(), table, Field::root_diameter);
    // An opening that loses a root would say that there was none: that blocks.
    if (!read.length || read.length->value < 0) {
      log_.add_blocking(
          NoteCode::value_unreadable, at,
          "the root diameter \"" + part + "\" cannot be read and the root is not taken",
          "column \"" + table.column(Field::root_diameter) +
              "\": write a number with its unit, such as " + std::string(kRootExample));
      continue;
    }
    root.diameter = *read.length;
    opening.roots.push_back(root);
  }
  return Nothing{};
}

}  // namespace rootstead::io
