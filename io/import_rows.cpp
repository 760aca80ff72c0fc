#include "io/import_rows.hpp"

#include <algorithm>

#include "engine/base/text.hpp"

namespace rootstead::io {
namespace {

bool means_unknown(std::string_view cell) {
  constexpr std::array<std::string_view, 17> kWords{
      "-",   "--",   "---",     "?",         "n/a",     "na",   "n.a.", "nan",         "null",
      "nil", "none", "unknown", "unbekannt", "inconnu", "n.d.", "nd",   "\xE2\x80\x93"};
  if (cell.size() > 9) return false;
  return std::find(kWords.begin(), kWords.end(), lower_case(cell)) != kWords.end();
}

std::string header_list(const std::vector<std::string>& header) {
  constexpr std::size_t kMost = 20;
  std::vector<std::string> shown(
      header.begin(), header.begin() + static_cast<std::ptrdiff_t>(std::min(header.size(), kMost)));
  return joined(shown, ", ") + (header.size() > kMost ? ", ..." : "");
}

}  // namespace

Result<FieldTable> FieldTable::make(const ColumnMap& map, const std::vector<std::string>& header,
                                    const std::string& file) {
  FieldTable table;
  std::vector<bool> read(header.size(), false);
  for (const auto& [name, column] : map.fields) {
    const auto field = field_named(name);
    if (!field)
      return Error{Code::unknown_name, file, "the column map has an unknown field \"" + name + "\"",
                   "use the field names of docs/formats/column-map.md"};
    const auto found = std::find(header.begin(), header.end(), column.column);
    if (found == header.end())
      return Error{Code::column_missing, file,
                   "there is no column \"" + column.column + "\" for " + name,
                   "correct the column map; the columns are " + header_list(header)};
    const auto cell = static_cast<std::size_t>(found - header.begin());
    read[cell] = true;
    table.bindings_[static_cast<std::size_t>(*field)] =
        Binding{cell, column.column, {}, column.unit};
  }
  for (const auto& [name, value] : map.values) {
    const auto field = field_named(name);
    if (!field)
      return Error{Code::unknown_name, file, "the column map has an unknown field \"" + name + "\"",
                   "use the field names of docs/formats/column-map.md"};
    auto& binding = table.bindings_[static_cast<std::size_t>(*field)];
    if (!binding) binding = Binding{{}, name, {}, {}};
    binding->constant = value;
  }
  for (std::size_t i = 0; i < header.size(); ++i) {
    if (!read[i] && !header[i].empty()) table.unread_.push_back(header[i]);
  }
  return table;
}

void FieldTable::answer_unit(LengthUnit unit) {
  const auto lacks = [this](std::size_t i, Measure group) {
    return bindings_[i] && !bindings_[i]->unit && measure_of(static_cast<Field>(i)) == group;
  };
  for (const Measure group : {Measure::stem_length, Measure::spread_length, Measure::work_length,
                              Measure::error_length}) {
    bool answered = false;
    for (std::size_t i = 0; i < kFieldCount; ++i) {
      if (!lacks(i, group)) continue;
      bindings_[i]->unit = unit;
      answered = true;
    }
    if (answered) return;
  }
}

const FieldTable::Binding* FieldTable::binding(Field field) const {
  const auto& held = bindings_[static_cast<std::size_t>(field)];
  return held ? &*held : nullptr;
}

bool FieldTable::has(Field field) const {
  return binding(field) != nullptr;
}

std::string_view FieldTable::text(const Record& record, Field field) const {
  const Binding* bound = binding(field);
  if (bound == nullptr) return {};
  std::string_view cell;
  if (bound->cell && *bound->cell < record.cells.size()) cell = trimmed(record.cells[*bound->cell]);
  if (means_unknown(cell)) cell = {};
  return cell.empty() ? std::string_view(bound->constant) : cell;
}

std::optional<LengthUnit> FieldTable::unit(Field field) const {
  const Binding* bound = binding(field);
  return bound == nullptr ? std::nullopt : bound->unit;
}

std::string FieldTable::column(Field field) const {
  const Binding* bound = binding(field);
  return bound == nullptr ? std::string(name_of(field)) : bound->column;
}

Result<std::optional<EnteredLength>> length_cell(const Record& record, const FieldTable& table,
                                                 Field field, std::string_view what,
                                                 ProblemLog& log, const std::string& place,
                                                 std::string_view example, Unreadable unreadable) {
  using Length = std::optional<EnteredLength>;
  const std::string_view cell = table.text(record, field);
  if (cell.empty()) return Length{};
  const ReadLength read = length_in(cell, table.unit(field));
  if (read.unit_missing) return unit_missing_error(log.file(), table, field);
  if (read.length && read.length->value >= 0) return read.length;
  const std::string message =
      "the " + std::string(what) + " \"" + std::string(cell) + "\" cannot be read";
  const std::string remedy = "column \"" + table.column(field) +
                             "\": write a number with its unit, such as " + std::string(example);
  if (unreadable == Unreadable::blocks)
    log.add_blocking(NoteCode::value_unreadable, place, message,
                     remedy + ", or leave it empty, and add the source again with --replace");
  else
    log.add(NoteCode::value_unreadable, place, message, remedy);
  return Length{};
}

Error unit_missing_error(const std::string& file, const FieldTable& table, Field field) {
  const std::string column = table.column(field);
  return {Code::unit_missing, file + " column \"" + column + "\"", "the numbers have no unit",
          "answer with --length-unit, or in a column map: " + std::string(name_of(field)) +
              " = { column = \"" + column + "\", unit = \"cm\" }"};
}

}  // namespace rootstead::io
