// The proposed column map: which header is which field.
#include <algorithm>
#include <array>

#include "engine/base/text.hpp"
#include "io/import.hpp"
#include "io/import_fields.hpp"

namespace rootstead::io {
namespace {

class Proposal {
 public:
  Proposal(const std::vector<std::string>& header, Topic topic)
      : header_(header), topic_(topic), taken_(header.size(), false) {
    for (const std::string& name : header) words_.push_back(header_words(name));
  }

  ColumnMap made() {
    if (topic_ == Topic::trees) take_crown_letters();
    if (topic_ == Topic::trees) take_numbered_stems();
    for (std::size_t i = 0; i < header_.size(); ++i) {
      if (const auto field = field_for_words(words_[i].words, topic_)) take(i, *field);
    }
    if (topic_ == Topic::trees) split_genus_and_species();
    keep_one_kind_of_coordinates();
    return std::move(map_);
  }

 private:
  bool has(Field field) const { return map_.fields.contains(std::string(name_of(field))); }

  void take(std::size_t column, Field field) {
    if (taken_[column] || has(field)) return;
    taken_[column] = true;
    const bool has_unit =
        is_length(measure_of(field)) || field == Field::easting || field == Field::northing;
    map_.fields[std::string(name_of(field))] = {
        header_[column], has_unit ? words_[column].unit : std::optional<LengthUnit>()};
  }

  std::optional<std::size_t> column_with(std::string_view words) const {
    for (std::size_t i = 0; i < words_.size(); ++i) {
      if (words_[i].words == words) return i;
    }
    return std::nullopt;
  }

  // Columns N, E, S, W together are the crown; N and E alone are coordinates.
  void take_crown_letters() {
    constexpr std::array<std::string_view, 3> kLetters{"nesw", "nosw", "nozw"};
    for (const std::string_view letters : kLetters) {
      std::array<std::optional<std::size_t>, 4> columns;
      for (std::size_t side = 0; side < 4; ++side)
        columns[side] = column_with(letters.substr(side, 1));
      if (std::any_of(columns.begin(), columns.end(), [](auto c) { return !c; })) continue;
      for (int side = 0; side < 4; ++side)
        take(*columns[static_cast<std::size_t>(side)], following(Field::crown_north, side));
      return;
    }
  }

  // "dbh 1", "dbh 2" or "stem1", "stem2": one column a stem. They win over a plain "dbh", which
  // is then some combined figure; in "dbh, dbh 2" the plain one is the first stem.
  void take_numbered_stems() {
    for (std::size_t i = 0; i < words_.size(); ++i) {
      const std::string& words = words_[i].words;
      if (words.size() < 2) continue;
      const int number = words.back() - '0';
      if (number < 1 || number > kMostStemColumns) continue;
      const std::string what(trimmed(std::string_view(words).substr(0, words.size() - 1)));
      if (const auto first = stem_series(what)) take(i, following(*first, number - 1));
    }
  }

  static std::optional<Field> stem_series(const std::string& what) {
    constexpr std::array<std::string_view, 8> kStem{"stem",   "trunk", "stamm", "tronc",
                                                    "tronco", "stam",  "d",     "stamm bhd"};
    if (std::find(kStem.begin(), kStem.end(), what) != kStem.end()) return Field::stem_diameter;
    const auto field = field_for_words(what, Topic::trees);
    if (field == Field::stem_diameter || field == Field::stem_girth) return field;
    return std::nullopt;
  }

  // "species" beside "genus" is the second word of the name only.
  void split_genus_and_species() {
    const auto botanical = map_.fields.find(std::string(name_of(Field::botanical_name)));
    if (!has(Field::genus) || has(Field::species) || botanical == map_.fields.end()) return;
    const std::string words = header_words(botanical->second.column).words;
    if (!(words == "species" || words == "art" || words == "espece" || words == "especie" ||
          words == "soort" || words == "tree species"))
      return;
    map_.fields[std::string(name_of(Field::species))] = botanical->second;
    map_.fields.erase(botanical);
  }

  void drop(Field field) { map_.fields.erase(std::string(name_of(field))); }

  // The most exact kind wins where a table gives several: drawn shape, grid, degrees, text.
  void keep_one_kind_of_coordinates() {
    const bool grid = has(Field::easting) && has(Field::northing);
    const bool degrees = has(Field::longitude) && has(Field::latitude);
    if (has(Field::wkt) || grid) {
      for (const Field field : {Field::longitude, Field::latitude, Field::lat_lon, Field::lon_lat})
        drop(field);
    }
    if (has(Field::wkt) || (degrees && !grid)) {
      drop(Field::easting);
      drop(Field::northing);
    }
    if (degrees) {
      drop(Field::lat_lon);
      drop(Field::lon_lat);
    }
  }

  const std::vector<std::string>& header_;
  Topic topic_;
  std::vector<HeaderWords> words_;
  std::vector<bool> taken_;
  ColumnMap map_;
};

}  // namespace

ColumnMap propose_columns(const std::vector<std::string>& header, const std::string& as) {
  return Proposal(header, topic_named(as)).made();
}

}  // namespace rootstead::io
