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
  static constexpr std::array<QuantityUnit, 6> kDensities{
      {{"g/cm3", 1}, {"g/cc", 1}, {"mg/m3", 1}, {"t/m3", 1}, {"kg/m3", 0.001}, {"kg/l", 1}}};
  static constexpr std::array<QuantityUnit, 4> kPressures{
      {{"mpa", 1}, {"kpa", 0.001}, {"bar", 0.1}, {"n/cm2", 0.01}}};
  using namespace plausible;
  SoilLayer layer;
  layer.texture = texture(record, table);
  const auto read = [&](Field field, std::string_view what, std::span<const QuantityUnit> units,
                        double low, double high, std::string_view example) {
    return number(record, table, {field, what, units, low, high, example, {}, {}});
  };
  layer.bulk_density = read(Field::bulk_density, "bulk density", kDensities, kLightestSoil,
                            kDensestSoil, "1.45 g/cm3");
  layer.air_filled = read(Field::air_filled, "air-filled share", kShareUnits, 0, 1, "0.12 or 12 %");
  layer.resistance =
      read(Field::resistance, "penetration resistance", kPressures, 0, kHardestSoil, "2.1 MPa");
  read_particles(record, table, layer);
  layer.organic_matter =
      read(Field::organic_matter, "share of organic matter", kShareUnits, 0, 1, "0.04 or 4 %");
  layer.water = read(Field::water, "share of water", kShareUnits, 0, 1, "0.25 or 25 %");
  Length top;
  ROOTSTEAD_TRY(const Length bottom, read_top_and_bottom(record, table, top));
  if (bottom) {
    if (top) check_top(record, *top);
    layer.bottom = *bottom;
    soil_.layers.push_back(layer);
    return Nothing{};
  }
  keep(record, "texture", soil_.texture, SoilTexture::unknown, layer.texture);
  const bool of_a_layer = layer.bulk_density || layer.air_filled || layer.resistance ||
                          layer.sand || layer.silt || layer.clay || layer.organic_matter ||
                          layer.water || top;
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
                                         Quantity quantity) {
  quantity.nonsense = "is none that a soil has";
  quantity.code = NoteCode::soil_doubtful;
  return quantity_cell(record, table, quantity, log_, record.place);
}

void SoilReader::read_particles(const Record& record, const FieldTable& table, SoilLayer& layer) {
  struct Part {
    Field field;
    std::string_view what, example;
    std::optional<double> SoilLayer::*value;
  };
  constexpr std::array<Part, 3> kParts{
      {{Field::sand, "share of sand", "0.45 or 45 %", &SoilLayer::sand},
       {Field::silt, "share of silt", "0.35 or 35 %", &SoilLayer::silt},
       {Field::clay, "share of clay", "0.20 or 20 %", &SoilLayer::clay}}};
  static constexpr std::array<QuantityUnit, 1> kPercent{{{"", 0.01}}};
  const bool percent = plainly_percent(record, table);
  if (percent)
    log_.add_repeated(NoteCode::assumed_in_reading, record.place,
                      "sand, silt and clay without a unit add up to about 100 and are read as "
                      "percent",
                      "write the unit in the header, such as sand (%)");
  for (const Part& part : kParts) {
    const std::span<const QuantityUnit> units =
        percent ? std::span<const QuantityUnit>(kPercent) : kShareUnits;
    layer.*part.value =
        number(record, table, {part.field, part.what, units, 0, 1, part.example, {}, {}});
  }
}

// Numbers without a unit whose sum only percent can have.
bool SoilReader::plainly_percent(const Record& record, const FieldTable& table) {
  constexpr double kLeast = 90, kMost = 110;
  double sum = 0;
  for (const Field field : {Field::sand, Field::silt, Field::clay}) {
    if (unit_written(record, table, {field, {}, kShareUnits, 0, 1, {}, {}, {}})) return false;
    sum += number_from(table.text(record, field)).value_or(0);
  }
  return sum >= kLeast && sum <= kMost;
}

}  // namespace rootstead::io
