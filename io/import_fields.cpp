#include "io/import_fields.hpp"

#include <algorithm>
#include <string>

#include "io/digits.hpp"

namespace rootstead::io {
namespace {

struct FieldInfo {
  std::string_view name;
  Measure measure;
};

// In the order of Field.
constexpr std::array<FieldInfo, kFieldCount> kFields{{
    {"id", Measure::text},
    {"tag", Measure::text},
    {"botanical_name", Measure::text},
    {"genus", Measure::text},
    {"species", Measure::text},
    {"cultivar", Measure::text},
    {"common_name", Measure::text},
    {"form", Measure::text},
    {"stem_diameter", Measure::stem_length},
    {"stem_diameter_2", Measure::stem_length},
    {"stem_diameter_3", Measure::stem_length},
    {"stem_diameter_4", Measure::stem_length},
    {"stem_diameter_5", Measure::stem_length},
    {"stem_diameter_6", Measure::stem_length},
    {"stem_diameter_7", Measure::stem_length},
    {"stem_diameter_8", Measure::stem_length},
    {"stem_girth", Measure::stem_length},
    {"stem_girth_2", Measure::stem_length},
    {"stem_girth_3", Measure::stem_length},
    {"stem_girth_4", Measure::stem_length},
    {"stem_girth_5", Measure::stem_length},
    {"stem_girth_6", Measure::stem_length},
    {"stem_girth_7", Measure::stem_length},
    {"stem_girth_8", Measure::stem_length},
    {"stem_count", Measure::number},
    {"measured_at", Measure::spread_length},
    {"basal_diameter", Measure::stem_length},
    {"height", Measure::spread_length},
    {"crown_radius", Measure::spread_length},
    {"crown_diameter", Measure::spread_length},
    {"crown_diameter_2", Measure::spread_length},
    {"crown_north", Measure::spread_length},
    {"crown_east", Measure::spread_length},
    {"crown_south", Measure::spread_length},
    {"crown_west", Measure::spread_length},
    {"crown_base_height", Measure::spread_length},
    {"columnar", Measure::text},
    {"condition", Measure::text},
    {"stage", Measure::text},
    {"lean", Measure::angle},
    {"lean_towards", Measure::angle},
    {"flare", Measure::text},
    {"flare_buried_by", Measure::stem_length},
    {"easting", Measure::coordinate},
    {"northing", Measure::coordinate},
    {"longitude", Measure::coordinate},
    {"latitude", Measure::coordinate},
    {"lat_lon", Measure::coordinate},
    {"lon_lat", Measure::coordinate},
    {"wkt", Measure::coordinate},
    {"position_source", Measure::text},
    {"position_error", Measure::error_length},
    {"ownership", Measure::text},
    {"protection", Measure::text},
    {"category", Measure::text},
    {"notes", Measure::text},
    {"name", Measure::text},
    {"kind", Measure::text},
    {"state", Measure::text},
    {"method", Measure::text},
    {"width", Measure::work_length},
    {"depth", Measure::work_length},
    {"working_room", Measure::work_length},
    {"bore_diameter", Measure::work_length},
    {"spacing", Measure::work_length},
    {"permeable", Measure::text},
    {"tree", Measure::text},
    {"counted_from", Measure::stem_length},
    {"root_diameter", Measure::stem_length},
    {"root_depth", Measure::work_length},
    {"root_x", Measure::coordinate},
    {"root_y", Measure::coordinate},
    {"alive", Measure::text},
    {"date", Measure::text},
    {"seen_by", Measure::text},
    {"top", Measure::work_length},
    {"bottom", Measure::work_length},
    {"texture", Measure::text},
    {"bulk_density", Measure::number},
    {"air_filled", Measure::number},
    {"resistance", Measure::number},
    {"water_table", Measure::work_length},
    {"drainage", Measure::text},
    {"rooting_depth", Measure::work_length},
    {"compacted", Measure::text},
    {"history", Measure::text},
    {"intent", Measure::text},
    {"transplant", Measure::text},
    {"clear_trunk", Measure::spread_length},
    {"flare_signs", Measure::text},
    {"taper", Measure::stem_length},
    {"flare_found_depth", Measure::stem_length},
    {"first_main_root", Measure::stem_length},
    {"girdled_share", Measure::number},
    {"excavation_radius", Measure::spread_length},
    {"flare_date", Measure::text},
    {"flare_seen_by", Measure::text},
    {"seen", Measure::text},
    {"wet", Measure::text},
    {"vehicle", Measure::text},
    {"gross_mass", Measure::number},
    {"wheel_load", Measure::number},
    {"contact_pressure", Measure::number},
    {"contact_width", Measure::work_length},
    {"contact_length", Measure::work_length},
    {"passes", Measure::number},
    {"cover", Measure::text},
    {"chips", Measure::work_length},
    {"plate_width", Measure::work_length},
    {"plate_length", Measure::work_length},
    {"fill_texture", Measure::text},
    {"sand", Measure::number},
    {"silt", Measure::number},
    {"clay", Measure::number},
    {"organic_matter", Measure::number},
    {"water", Measure::number},
}};

// The plain letter of a two-byte UTF-8 letter with an accent (U+00C0 to U+00FF); "" for others.
std::string_view plain_latin(unsigned char second) {
  constexpr std::string_view kPlain = "aaaaaaaceeeeiiiidnooooo ouuuuyts";
  const std::size_t index = (second & 0x3Fu) & 0x1Fu;
  if (second == 0x9F) return "ss";
  return kPlain.substr(index, 1);
}

bool is_lower(char c) {
  return c >= 'a' && c <= 'z';
}
bool is_upper(char c) {
  return c >= 'A' && c <= 'Z';
}

std::size_t last_blank(const std::string& words) {
  const auto at = words.rfind(' ');
  return at == std::string::npos ? 0 : at + 1;
}

// The unit in round or square brackets, which is then cut out of `header`.
std::optional<LengthUnit> take_bracketed_unit(std::string& header) {
  for (const auto& [open, close] : {std::pair{'(', ')'}, std::pair{'[', ']'}}) {
    const auto begin = header.find(open);
    const auto end = header.find(close, begin == std::string::npos ? 0 : begin);
    if (begin == std::string::npos || end == std::string::npos) continue;
    const auto unit = length_unit_from(header.substr(begin + 1, end - begin - 1));
    if (!unit) continue;
    header.erase(begin, end - begin + 1);
    return unit;
  }
  return std::nullopt;
}

// A last word that is a unit, as in "dbh cm", "height in ft"; cut off with a joining "in".
std::optional<LengthUnit> take_last_unit(std::string& words) {
  const std::size_t at = last_blank(words);
  if (at == 0) return std::nullopt;
  auto unit = length_unit_from(words.substr(at));
  if (!unit) return std::nullopt;
  words.erase(at - 1);
  if (unit == LengthUnit::foot && words.ends_with(" us")) {
    unit = LengthUnit::us_survey_foot;
    words.erase(words.size() - 3);
  }
  if (words.ends_with(" in")) words.erase(words.size() - 3);
  return unit;
}

// "dbhcm": no blank before the unit.
std::optional<LengthUnit> take_glued_unit(std::string& words) {
  for (const std::string_view unit : {"cm", "mm"}) {
    if (words.size() <= unit.size() + 1 || !words.ends_with(unit)) continue;
    std::string without = words.substr(0, words.size() - unit.size());
    const auto field = field_for_words(without, Topic::trees);
    if (!field || !is_length(measure_of(*field))) continue;
    words = std::move(without);
    return length_unit_from(unit);
  }
  return std::nullopt;
}

}  // namespace

std::string_view name_of(Topic topic) {
  constexpr std::array<std::string_view, 4> kNames{"trees", "works", "evidence", "soil"};
  return kNames[static_cast<std::size_t>(topic)];
}

Topic topic_named(std::string_view as) {
  if (as.empty() || as == "trees") return Topic::trees;
  if (as == "evidence") return Topic::evidence;
  return as == "soil" ? Topic::soil : Topic::works;
}

std::string_view name_of(Field field) {
  return kFields[static_cast<std::size_t>(field)].name;
}

Measure measure_of(Field field) {
  return kFields[static_cast<std::size_t>(field)].measure;
}

std::optional<Field> field_named(std::string_view name) {
  for (std::size_t i = 0; i < kFields.size(); ++i) {
    if (kFields[i].name == name) return static_cast<Field>(i);
  }
  return std::nullopt;
}

Field following(Field first, int steps) {
  return static_cast<Field>(static_cast<int>(first) + steps);
}

std::string plain_words(std::string_view text) {
  std::string words;
  const auto blank = [&words] {
    if (!words.empty() && words.back() != ' ') words += ' ';
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (static_cast<unsigned char>(c) == 0xC3 && i + 1 < text.size()) {
      words += plain_latin(static_cast<unsigned char>(text[++i]));
    } else if (is_upper(c)) {
      if (i > 0 && is_lower(text[i - 1])) blank();
      words += static_cast<char>(c - 'A' + 'a');
    } else if (is_lower(c) || is_digit(c)) {
      words += c;
    } else {
      blank();
    }
  }
  if (words.ends_with(' ')) words.pop_back();
  return words;
}

HeaderWords header_words(std::string_view header) {
  HeaderWords found;
  std::string rest(header);
  found.unit = take_bracketed_unit(rest);
  found.words = plain_words(rest);
  if (!found.unit) found.unit = take_last_unit(found.words);
  if (!found.unit) found.unit = take_glued_unit(found.words);
  return found;
}

}  // namespace rootstead::io
