#include "io/import_quantity.hpp"

#include <algorithm>
#include <cctype>

#include "engine/base/text.hpp"

namespace rootstead::io {
namespace {

// Lower case, without blanks and with the plain digits of powers: "g/cm³" is "g/cm3".
std::string plain_unit(std::string_view text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool power = text.substr(i).starts_with("\xC2\xB3");
    if (power) ++i;
    if (power) plain += '3';
    if (!power && text[i] != ' ') plain += text[i];
  }
  return lower_case(plain);
}

// "t" and "kn" stand alone in a header, longer units also within a word: "ResistanceMPa".
bool header_holds(std::string_view header, std::string_view unit) {
  constexpr std::size_t kShort = 2;
  const bool letters =
      std::all_of(unit.begin(), unit.end(), [](unsigned char c) { return std::isalnum(c) != 0; });
  if (!letters || unit.size() > kShort) return plain_unit(header).find(unit) != std::string::npos;
  std::string word;
  for (const char c : std::string(header) + " ") {
    const bool letter = std::isalnum(static_cast<unsigned char>(c)) != 0;
    if (letter) word += c;
    if (!letter && lower_case(word) == unit) return true;
    if (!letter) word.clear();
  }
  return false;
}

const QuantityUnit* unit_of_header(std::string_view header, const Quantity& quantity) {
  const QuantityUnit* found = nullptr;
  for (const QuantityUnit& unit : quantity.units) {
    if (!unit.text.empty() && header_holds(header, unit.text)) found = &unit;
  }
  return found;
}

const QuantityUnit* unit_named(std::string_view text, const Quantity& quantity) {
  for (const QuantityUnit& unit : quantity.units) {
    if (unit.text == text) return &unit;
  }
  return nullptr;
}

}  // namespace

bool unit_written(const Record& record, const FieldTable& table, const Quantity& quantity) {
  const auto read = leading_number(table.text(record, quantity.field));
  return (read && !trimmed(read->rest).empty()) ||
         unit_of_header(table.column(quantity.field), quantity) != nullptr;
}

std::optional<double> quantity_cell(const Record& record, const FieldTable& table,
                                    const Quantity& quantity, ProblemLog& log,
                                    const std::string& place) {
  const std::string_view cell = table.text(record, quantity.field);
  if (cell.empty()) return std::nullopt;
  const auto read = leading_number(cell);
  const std::string written = read ? plain_unit(read->rest) : "";
  const QuantityUnit* unit = written.empty()
                                 ? unit_of_header(table.column(quantity.field), quantity)
                                 : unit_named(written, quantity);
  if (unit == nullptr && written.empty()) unit = &quantity.units.front();
  const bool readable = read && unit != nullptr;
  const double value = readable ? read->value * unit->factor : 0;
  if (readable && value >= quantity.low && value <= quantity.high) return value;
  const std::string what = "the " + std::string(quantity.what) + " \"" + std::string(cell) + "\" ";
  const NoteCode code = readable ? quantity.code : NoteCode::value_unreadable;
  const std::string message =
      what + (readable ? std::string(quantity.nonsense) + ", and is not taken"
                       : std::string("cannot be read"));
  const std::string remedy = "column \"" + table.column(quantity.field) +
                             "\": write a number such as " + std::string(quantity.example);
  if (quantity.unreadable == Unreadable::blocks)
    log.add_blocking(code, place, message,
                     remedy + ", or leave it empty, and add the source again with --replace");
  else
    log.add(code, place, message, remedy);
  return std::nullopt;
}

}  // namespace rootstead::io
