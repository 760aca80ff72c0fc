// Shapefiles hold one kind of geometry, names of ten letters and texts of 254 bytes:
//   NAME.shp        zones, each with the verdict of its tree
//   NAME_trees.shp  trees
//   NAME.fields.csv what each short name stands for, and which texts were cut
#include <algorithm>
#include <set>

#include "engine/base/text.hpp"
#include "io/export_formats.hpp"
#include "io/export_ogr.hpp"
#include "io/export_rows.hpp"

namespace rootstead::io {
namespace {

constexpr std::size_t kLongestName = 10;
constexpr std::size_t kLongestText = 254;

// The initials of all words but the last, then as much of the last as fits, and a number where two
// would be the same: "anchorage_kept_best" becomes "ak_best".
std::string short_name(const std::string& name, const std::set<std::string>& taken) {
  if (name.size() <= kLongestName && !taken.contains(name)) return name;
  std::vector<std::string> words = split(name, '_');
  std::string initials;
  for (std::size_t i = 0; i + 1 < words.size(); ++i) initials += words[i].substr(0, 1);
  const std::string prefix = initials.empty() ? "" : initials + "_";
  std::string candidate = (prefix + words.back()).substr(0, kLongestName);
  for (int number = 2; taken.contains(candidate); ++number) {
    const std::string digit = std::to_string(number);
    candidate = (prefix + words.back()).substr(0, kLongestName - digit.size()) + digit;
  }
  return candidate;
}

std::vector<std::string> short_names(const FlatLayer& layer) {
  std::vector<std::string> names;
  std::set<std::string> taken;
  for (const Column& column : layer.columns) {
    names.push_back(short_name(column.name, taken));
    taken.insert(names.back());
  }
  return names;
}

// Cuts texts between whole UTF-8 letters; gives how many were cut, by column.
std::vector<std::size_t> cut_texts(FlatLayer& layer) {
  std::vector<std::size_t> cut(layer.columns.size());
  for (FlatRow& row : layer.rows) {
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      auto* text = std::get_if<std::string>(&row.cells[i]);
      if (text == nullptr || text->size() <= kLongestText) continue;
      std::size_t end = kLongestText;
      while (end > 0 && (static_cast<unsigned char>((*text)[end]) & 0xC0U) == 0x80U) --end;
      text->resize(end);
      ++cut[i];
    }
  }
  return cut;
}

Outcome write_layer(FlatLayer layer, const std::string& file_name, const Export& out,
                    const PartFolder& folder, std::string& key, Warnings& warnings) {
  const std::vector<std::string> names = short_names(layer);
  const std::vector<std::size_t> cut = cut_texts(layer);
  for (std::size_t i = 0; i < names.size(); ++i) {
    const std::string& full = layer.columns[i].name;
    key += file_name + "," + names[i] + "," + full + "," + std::to_string(cut[i]) + "\r\n";
    if (cut[i] > 0) {
      warnings.push_back(file_name + ": " + std::to_string(cut[i]) + " texts of " + full +
                         " are cut to 254 bytes, the most a shapefile holds; export to .gpkg or "
                         ".csv for the whole texts.");
    }
  }
  return write_by_gdal(layer, out.site.system,
                       {"ESRI Shapefile", folder.folder() / file_name, names, {"ENCODING=UTF-8"}});
}

}  // namespace

Outcome write_shapefile(const Export& out, const PartFolder& folder, Warnings& warnings) {
  const std::string stem = folder.file().stem().string();
  std::string key = "file,field,full_name,texts_cut\r\n";
  ROOTSTEAD_CHECK(
      write_layer(flat_layer("zones", "", zones_out(out.site, out.assessment, out.tables)),
                  folder.file().filename().string(), out, folder, key, warnings));
  ROOTSTEAD_CHECK(write_layer(flat_layer("trees", "", trees_out(out.site, out.assessment)),
                              stem + "_trees.shp", out, folder, key, warnings));
  warnings.push_back(stem +
                     ".fields.csv tells the full names of fields, which a shapefile cuts to "
                     "ten letters.");
  ROOTSTEAD_CHECK(write_bytes(folder.folder() / (stem + ".fields.csv"), key));
  return write_about_beside(out, folder);
}

}  // namespace rootstead::io
