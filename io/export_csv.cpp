// The schedule: one line a tree, RFC 4180 (comma, CRLF), UTF-8 without a byte order mark.
#include <map>

#include "engine/base/text.hpp"
#include "io/export_formats.hpp"
#include "io/export_rows.hpp"

namespace rootstead::io {
namespace {

std::string csv_cell(const std::string& cell) {
  if (cell.find_first_of(",\"\r\n") == std::string::npos) return cell;
  std::string text = "\"";
  for (const char c : cell) {
    if (c == '"') text += '"';
    text += c;
  }
  return text + '"';
}

std::string csv_line(std::vector<std::string> cells) {
  for (std::string& cell : cells) cell = csv_cell(cell);
  return joined(cells, ",") + "\r\n";
}

// What the schedule says of each zone of each rule, under "<rule>.<zone>.<what>".
std::vector<std::pair<std::string, std::string>> cells_of(const ZoneRow& zone) {
  return {{"radius_m", fixed_number(zone.radius, 3)},
          {"area_m2", fixed_number(zone.area, 3)},
          {"affected_m2", fixed_number(zone.affected_area, 3)},
          {"affected_share", fixed_number(zone.affected_share, 6)},
          {"limits_passed", zone.limits},
          {"source", zone.source},
          {"status", zone.status}};
}

// Columns of zones in the order in which they are first met, each with its value by tree.
struct ZoneColumns {
  std::vector<std::string> names;
  std::map<std::string, std::map<std::string, std::string>> by_name;  // column -> tree -> text

  explicit ZoneColumns(const std::vector<ZoneOut>& zones) {
    for (const ZoneOut& out : zones) {
      for (const auto& [what, text] : cells_of(out.zone)) {
        const std::string name = out.zone.rule + "." + out.zone.zone + "." + what;
        if (!by_name.contains(name)) names.push_back(name);
        by_name[name][out.zone.tree] = text;
      }
    }
  }
};

// Coordinates as a surveyor of the project's system writes them.
std::vector<std::string> place_cells(const Site& site, const FlatRow& row) {
  if (row.shape.points.empty()) return {"", ""};
  const double unit = metres_per(site.system.file_unit);
  const Point& at = row.shape.points.front();
  return {fixed_number(at.x / unit, 4), fixed_number(at.y / unit, 4)};
}

}  // namespace

Outcome write_csv(const Export& out, const PartFolder& folder, Warnings&) {
  const FlatLayer trees = flat_layer("trees", "", trees_out(out.site, out.assessment));
  const ZoneColumns zones(zones_out(out.site, out.assessment, out.tables));
  std::vector<std::string> header;
  for (const Column& column : trees.columns) header.push_back(column.name);
  const std::string unit(symbol(out.site.system.file_unit));
  for (const char* axis : {"x_", "y_"}) header.push_back(axis + unit);
  header.push_back("reference_system");
  header.push_back("data_version");
  header.insert(header.end(), zones.names.begin(), zones.names.end());
  std::string text = csv_line(header);
  const std::size_t id = trees.column("id");
  for (const FlatRow& row : trees.rows) {
    std::vector<std::string> cells;
    for (const Cell& cell : row.cells) cells.push_back(text_of(cell));
    const std::string tree = cells[id];
    for (std::string& axis : place_cells(out.site, row)) cells.push_back(std::move(axis));
    cells.push_back(out.site.system.code);
    cells.push_back(out.assessment.data_version);
    for (const std::string& name : zones.names) {
      const auto& by_tree = zones.by_name.at(name);
      const auto found = by_tree.find(tree);
      cells.push_back(found == by_tree.end() ? "" : found->second);
    }
    text += csv_line(std::move(cells));
  }
  ROOTSTEAD_CHECK(write_bytes(folder.file(), text));
  return write_about_beside(out, folder);
}

}  // namespace rootstead::io
