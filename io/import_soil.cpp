#include "io/import_soil.hpp"

#include <array>
#include <cmath>
#include <span>

#include "engine/base/text.hpp"
#include "engine/site/plausible.hpp"

namespace rootstead::io {
namespace {

constexpr std::string_view kDepthExample = "300 mm";

// "0-30 cm", "30 - 60": both depths of a layer in one cell. Nothing where it is no such pair.
struct DepthPair {
  std::string top, bottom;
};
std::optional<DepthPair> depth_pair(std::string_view cell) {
  const std::string_view long_dash = "\xE2\x80\x93";
  std::size_t at = cell.find(long_dash), width = long_dash.size();
  if (at == std::string_view::npos) at = cell.find('-', 1), width = 1;
  if (at == std::string_view::npos) return std::nullopt;
  DepthPair pair{std::string(trimmed(cell.substr(0, at))),
                 std::string(trimmed(cell.substr(at + width)))};
  const auto bottom = leading_number(pair.bottom);
  if (!leading_number(pair.top) || !bottom) return std::nullopt;
  if (number_from(pair.top)) pair.top += std::string(bottom->rest);  // the unit of the second
  return pair;
}

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

}  // namespace

Outcome SoilReader::read(const Record& record, const FieldTable& table) {
  ROOTSTEAD_CHECK(read_whole(record, table));
  return read_layer(record, table);
}

// What is said of the whole soil twice must agree.
template <class Value>
void SoilReader::keep(const Record& record, std::string_view what, Value& kept,
                      const Value& unknown, const Value& said) {
  if (said == unknown || said == kept) return;
  if (kept == unknown) {
    kept = said;
    return;
  }
  log_.add(NoteCode::value_unreadable, record.place,
           "the " + std::string(what) + " is not that of an earlier row; the first is kept",
           "write it once, or the same in every row");
}

Outcome SoilReader::read_whole(const Record& record, const FieldTable& table) {
  const auto length = [&](Field field, std::string_view what) {
    return length_cell(record, table, field, what, log_, record.place, kDepthExample);
  };
  ROOTSTEAD_TRY(const Length water, length(Field::water_table, "depth of the water table"));
  keep(record, "depth of the water table", soil_.water_table, {}, water);
  ROOTSTEAD_TRY(const Length rooting, length(Field::rooting_depth, "rooting depth"));
  keep(record, "rooting depth", soil_.rooting_depth, {}, rooting);
  const auto not_known = [&](Field field, const std::string& what, const std::string& remedy) {
    log_.add(NoteCode::word_unknown, record.place,
             "\"" + std::string(table.text(record, field)) + "\" is no word known for the " + what,
             "column \"" + table.column(field) + "\": write " + remedy);
  };
  if (const auto word = table.text(record, Field::drainage); !word.empty()) {
    const auto said = drainage_from(word);
    said ? keep(record, "drainage", soil_.drainage, Drainage::unknown, *said)
         : not_known(Field::drainage, "drainage", "free or poor");
  }
  if (const auto word = table.text(record, Field::compacted); !word.empty()) {
    const auto said = yes_no_from(word);
    if (!said) not_known(Field::compacted, "compaction", "yes or no");
    if (said) soil_.compacted = soil_.compacted || *said;
  }
  const std::string notes(table.text(record, Field::notes));
  if (!notes.empty()) soil_.notes += (soil_.notes.empty() ? "" : "; ") + notes;
  return Nothing{};
}

Outcome SoilReader::read_layer(const Record& record, const FieldTable& table) {
  static constexpr std::array<Unit, 6> kDensities{
      {{"g/cm3", 1}, {"g/cc", 1}, {"mg/m3", 1}, {"t/m3", 1}, {"kg/m3", 0.001}, {"kg/l", 1}}};
  static constexpr std::array<Unit, 2> kShares{{{"", 1}, {"%", 0.01}}};
  static constexpr std::array<Unit, 4> kPressures{
      {{"mpa", 1}, {"kpa", 0.001}, {"bar", 0.1}, {"n/cm2", 0.01}}};
  using namespace plausible;
  const SoilTexture texture_said = texture(record, table);
  const auto density = number(
      record, table,
      {Field::bulk_density, "bulk density", kDensities, kLightestSoil, kDensestSoil, "1.45 g/cm3"});
  const auto air =
      number(record, table, {Field::air_filled, "air-filled share", kShares, 0, 1, "0.12 or 12 %"});
  const auto resistance =
      number(record, table,
             {Field::resistance, "penetration resistance", kPressures, 0, kHardestSoil, "2.1 MPa"});
  Length top;
  ROOTSTEAD_TRY(const Length bottom, read_top_and_bottom(record, table, top));
  if (bottom) {
    if (top) check_top(record, *top);
    soil_.layers.push_back({*bottom, texture_said, density, air, resistance});
    return Nothing{};
  }
  keep(record, "texture", soil_.texture, SoilTexture::unknown, texture_said);
  const bool of_a_layer = density || air || resistance || top;
  if (of_a_layer)
    log_.add_blocking(NoteCode::not_taken, record.place,
                      "it does not say how deep its layer goes and the layer is not taken",
                      "write the depth of its underside in a column mapped to bottom");
  return Nothing{};
}

Result<SoilReader::Length> SoilReader::read_top_and_bottom(const Record& record,
                                                           const FieldTable& table, Length& top) {
  const auto length = [&](Field field, std::string_view what) {
    return length_cell(record, table, field, what, log_, record.place, kDepthExample);
  };
  ROOTSTEAD_TRY(top, length(Field::top, "depth of the top"));
  const auto pair = depth_pair(table.text(record, Field::bottom));
  if (!pair) return length(Field::bottom, "depth of the underside");
  const ReadLength upper = length_in(pair->top, table.unit(Field::bottom));
  const ReadLength lower = length_in(pair->bottom, table.unit(Field::bottom));
  if (lower.unit_missing) return unit_missing_error(log_.file(), table, Field::bottom);
  if (!upper.length || !lower.length) return length(Field::bottom, "depth of the underside");
  if (!top) top = upper.length;
  return lower.length;
}

void SoilReader::check_top(const Record& record, const EnteredLength& top) {
  constexpr double kSame = 0.005;  // m: half a centimetre, as depths are read
  const EnteredLength above =
      soil_.layers.empty() ? EnteredLength{0, top.unit} : soil_.layers.back().bottom;
  const double gap = top.length().metres() - above.length().metres();
  if (std::abs(gap) <= kSame) return;
  log_.add(NoteCode::soil_doubtful, record.place,
           "the layer begins at " + to_text(top) + " where the one above ends at " +
               to_text(above) + "; it is read from there",
           "let each layer begin where the one above ends");
}

SoilTexture SoilReader::texture(const Record& record, const FieldTable& table) {
  const std::string_view word = table.text(record, Field::texture);
  if (word.empty()) return SoilTexture::unknown;
  const auto said = soil_texture_from(word);
  if (!said) {
    log_.add(NoteCode::word_unknown, record.place,
             "\"" + std::string(word) + "\" is no word known for the texture; it is left open",
             "column \"" + table.column(Field::texture) + "\": write sand, loam, silt or clay");
    return SoilTexture::unknown;
  }
  if (word.find(' ') != std::string_view::npos)
    log_.add_repeated(NoteCode::assumed_in_reading, record.place,
                      "\"" + std::string(word) + "\" is read as " + std::string(to_text(*said)),
                      "write sand, loam, silt or clay where that is not meant");
  return *said;
}

std::optional<double> SoilReader::number(const Record& record, const FieldTable& table,
                                         const Quantity& quantity) {
  const std::string_view cell = table.text(record, quantity.field);
  if (cell.empty()) return std::nullopt;
  const std::string header = plain_unit(table.column(quantity.field));
  const auto read = leading_number(cell);
  const std::string written = read ? plain_unit(read->rest) : "";
  double factor = quantity.units.front().factor;
  bool known = written.empty();
  for (const Unit& unit : quantity.units) {
    const bool here = !written.empty() && written == unit.text;
    const bool above =
        written.empty() && !unit.text.empty() && header.find(unit.text) != std::string::npos;
    if (here || above) factor = unit.factor;
    known = known || here;
  }
  const double value = read ? read->value * factor : 0;
  if (read && known && value >= quantity.low && value <= quantity.high) return value;
  const std::string what = "the " + std::string(quantity.what) + " \"" + std::string(cell) + "\"";
  const bool nonsense = read && known;
  log_.add(nonsense ? NoteCode::soil_doubtful : NoteCode::value_unreadable, record.place,
           what + (nonsense ? " is none that a soil has, and is not taken" : " cannot be read"),
           "column \"" + table.column(quantity.field) + "\": write a number such as " +
               std::string(quantity.example));
  return std::nullopt;
}

}  // namespace rootstead::io
