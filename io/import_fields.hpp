// The fields a source can fill: their names in a column map, what each measures, and the header
// words by which they are recognised. Private to the readers.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "engine/base/units.hpp"

namespace rootstead::io {

enum class Field : std::uint8_t {
  id,
  tag,
  botanical_name,
  genus,
  species,
  cultivar,
  common_name,
  form,
  stem_diameter,
  stem_diameter_2,
  stem_diameter_3,
  stem_diameter_4,
  stem_diameter_5,
  stem_diameter_6,
  stem_diameter_7,
  stem_diameter_8,
  stem_girth,
  stem_girth_2,
  stem_girth_3,
  stem_girth_4,
  stem_girth_5,
  stem_girth_6,
  stem_girth_7,
  stem_girth_8,
  stem_count,
  measured_at,
  basal_diameter,
  height,
  crown_radius,
  crown_diameter,
  crown_diameter_2,
  crown_north,
  crown_east,
  crown_south,
  crown_west,
  crown_base_height,
  columnar,
  condition,
  stage,
  lean,
  lean_towards,
  flare,
  flare_buried_by,
  easting,
  northing,
  longitude,
  latitude,
  lat_lon,
  lon_lat,
  wkt,
  position_source,
  position_error,
  ownership,
  protection,
  category,
  notes,
  name,
  kind,
  state,
  method,
  width,
  depth,
  working_room,
  bore_diameter,
  spacing,
  permeable,
  tree,
  counted_from,
  root_diameter,
  root_depth,
  root_x,
  root_y,
  alive,
  date,
  seen_by,
  top,
  bottom,
  texture,
  bulk_density,
  air_filled,
  resistance,
  water_table,
  drainage,
  rooting_depth,
  compacted,
  history,
  intent,
  transplant,
  clear_trunk,
  flare_signs,
  taper,
  flare_found_depth,
  first_main_root,
  girdled_share,
  excavation_radius,
  flare_date,
  flare_seen_by,
  seen,
  wet,
  vehicle,
  gross_mass,
  wheel_load,
  contact_pressure,
  contact_width,
  contact_length,
  passes,
  cover,
  chips,
  plate_width,
  plate_length,
  fill_texture,
  sand,
  silt,
  clay,
  organic_matter,
  water,
};
inline constexpr std::size_t kFieldCount = static_cast<std::size_t>(Field::water) + 1;
inline constexpr int kMostStemColumns = 8;

// Lengths of one group are written in one unit by habit: stems in cm, heights and spreads in m. A
// unit given for the whole source answers for one group, never for two.
enum class Measure : std::uint8_t {
  text,
  number,
  angle,
  stem_length,
  spread_length,
  work_length,
  error_length,
  coordinate,
};
inline bool is_length(Measure measure) {
  return measure >= Measure::stem_length && measure <= Measure::error_length;
}

std::string_view name_of(Field field);
Measure measure_of(Field field);
std::optional<Field> field_named(std::string_view name);
Field following(Field first, int steps);  // stem_diameter, 1 -> stem_diameter_2

// What a table is about: the same header heads different fields in each.
enum class Topic : std::uint8_t { trees, works, evidence, soil };
std::string_view name_of(Topic topic);
Topic topic_named(std::string_view as);  // "" is trees; "barriers" and "ground" are of works

// A header as its plain words: "Höhe [m]" is "hohe" with unit metre, "TreeHeight_ft" is
// "tree height" with unit foot.
struct HeaderWords {
  std::string words;
  std::optional<LengthUnit> unit;
};
HeaderWords header_words(std::string_view header);

// Lower case, accents dropped, everything but letters and digits a blank, "treeNo" two words.
std::string plain_words(std::string_view text);

// The field these words usually head in a table of this topic.
std::optional<Field> field_for_words(const std::string& words, Topic topic);

}  // namespace rootstead::io
