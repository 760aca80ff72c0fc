// Delimited text to trees, works, barriers and surfaces.
#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/import_coordinates.hpp"
#include "io/import_evidence.hpp"
#include "io/import_shapes.hpp"
#include "io/import_soil.hpp"
#include "io/import_source.hpp"
#include "io/import_trees.hpp"
#include "io/import_works.hpp"

namespace rootstead::io {
namespace {

constexpr double kNowhere = std::numeric_limits<double>::quiet_NaN();

class TableReading {
 public:
  TableReading(const SourceJob& job, Import& import, std::string_view text)
      : job_(job), import_(import), rows_(text) {}

  Outcome read() {
    CsvRow first;
    if (!rows_.next(first)) return broken("the file is empty", "export it again");
    for (const std::string& cell : first.cells) header_.emplace_back(trimmed(cell));
    ROOTSTEAD_CHECK(check_header());
    ROOTSTEAD_TRY(const auto asked, kind_asked_for(job_.options.as));
    const LayerKind kind = asked.value_or(guessed_kind());
    ROOTSTEAD_TRY(const FieldTable table, field_table(job_, header_, topic_of(kind), used_));
    ROOTSTEAD_CHECK(read_rows(table, kind));
    if (const auto opened = rows_.unclosed_quote())
      return Error{Code::format_broken, job_.name() + " row " + std::to_string(*opened),
                   "a quotation mark opens here and never closes",
                   "close it, or remove it from the cell"};
    if (import_.rows_read == 0)
      return broken("there is a header and no row", "export the table with its rows");
    return Nothing{};
  }

 private:
  Error broken(std::string what, std::string remedy) const {
    return {Code::format_broken, job_.name(), std::move(what), std::move(remedy)};
  }

  Outcome check_header() const {
    for (const std::string& name : header_) {
      if (name.empty() || std::count(header_.begin(), header_.end(), name) < 2) continue;
      return Error{Code::duplicate, job_.name() + " row 1",
                   "two columns are called \"" + name + "\"", "rename one of them"};
    }
    const bool all_numbers = std::all_of(header_.begin(), header_.end(), [](const auto& name) {
      return name.empty() || number_from(name);
    });
    if (all_numbers)
      return Error{Code::column_missing, job_.name() + " row 1",
                   "the first row holds numbers where the column names should stand",
                   "put a row of column names above"};
    return Nothing{};
  }

  Outcome read_rows(const FieldTable& table, const LayerKind& kind) {
    report_unread(table, "", job_.log);
    if (kind.target == LayerKind::Target::soil) {
      import_.mapping = to_toml(used_);
      return read_soil(table);
    }
    ROOTSTEAD_TRY(const Georeference georeference, georeference_for(table));
    import_.mapping = to_toml(used_);
    if (kind.target == LayerKind::Target::trees) return read_trees(table, georeference);
    if (kind.target == LayerKind::Target::evidence) return read_evidence(table, georeference, kind);
    return read_works(table, georeference, kind);
  }

  // A table without stems is of openings where it has diameters or places of roots, of soil where
  // it has layers of a density or texture, of works where it has shapes or depths.
  LayerKind guessed_kind() const {
    const auto has = [this](const char* topic, std::initializer_list<const char*> fields) {
      const ColumnMap map = propose_columns(header_, topic);
      return std::any_of(fields.begin(), fields.end(),
                         [&map](const char* field) { return map.fields.contains(field); });
    };
    const char* guess = "trees";
    if (!has("trees", {"stem_diameter", "stem_girth", "botanical_name"})) {
      if (has("works", {"wkt", "depth"})) guess = "works";
      if (has("evidence", {"root_diameter", "root_depth", "counted_from"})) guess = "evidence";
      if (has("soil", {"bottom"}) && has("soil", {"bulk_density", "air_filled", "texture"}))
        guess = "soil";
    }
    return layer_kind_from(guess).value_or(LayerKind{});
  }

  Result<Georeference> georeference_for(const FieldTable& table) {
    const bool degrees =
        table.has(Field::longitude) || table.has(Field::lat_lon) || table.has(Field::lon_lat);
    const bool grid = table.has(Field::easting) && table.has(Field::northing);
    const bool half = table.has(Field::easting) != table.has(Field::northing) ||
                      table.has(Field::longitude) != table.has(Field::latitude);
    if ((!degrees && !grid && !table.has(Field::wkt)) || half)
      return Error{
          Code::column_missing, job_.name(),
          half ? "one of the two coordinate columns is missing" : "no coordinate columns are found",
          "map easting and northing, longitude and latitude, or wkt in a column map; the "
          "columns are " +
              joined(header_, ", ")};
    if (degrees && !grid && used_.crs.empty()) used_.crs = "EPSG:4326";
    return Georeference::make({used_.crs, table.unit(Field::easting)}, job_.project, job_.name());
  }

  // The next row as a record; a row of the wrong length is read as far as it goes and reported.
  bool next(Record& record, CsvRow& row) {
    row.cells.swap(record.cells);
    if (!rows_.next(row)) return false;
    row.cells.swap(record.cells);
    ++import_.rows_read;
    const std::string number = std::to_string(row.row);
    record.place = "row " + number;
    record.spare_id = "row-" + number;
    const std::size_t cells = record.cells.size(), columns = header_.size();
    const bool only_blanks_beyond =
        cells > columns &&
        std::all_of(record.cells.begin() + static_cast<std::ptrdiff_t>(columns), record.cells.end(),
                    [](const auto& cell) { return trimmed(cell).empty(); });
    if (cells != columns && !only_blanks_beyond)
      job_.log.add(
          NoteCode::value_unreadable, record.place,
          "the row has " + std::to_string(cells) + " cells, the header " + std::to_string(columns),
          "look for a missing or an unquoted delimiter");
    return true;
  }

  Outcome read_trees(const FieldTable& table, const Georeference& georeference) {
    TreeReader reader(table, georeference, false, job_.log);
    Record record;
    CsvRow row;
    while (next(record, row)) ROOTSTEAD_CHECK(reader.read(record));
    import_.trees = reader.finish();
    return Nothing{};
  }

  Outcome read_works(const FieldTable& table, const Georeference& georeference,
                     const LayerKind& kind) {
    WorkReader reader(import_, job_.log);
    Record record;
    CsvRow row;
    while (next(record, row)) {
      if (!read_shape(record, table, georeference, "the row is not taken")) continue;
      ROOTSTEAD_CHECK(reader.read(record, table, kind));
    }
    georeference.report(job_.log);
    return Nothing{};
  }

  Outcome read_evidence(const FieldTable& table, const Georeference& georeference,
                        const LayerKind& kind) {
    EvidenceReader reader(job_.log);
    Record record;
    CsvRow row;
    std::vector<Point> raw;
    while (next(record, row)) {
      read_shape(record, table, georeference, "the row is read without it");
      const auto at = root_place(record, table, georeference);
      if (const auto written = pair_of(record, table)) raw.push_back(*written);
      ROOTSTEAD_CHECK(reader.read(record, table, kind, at));
    }
    import_.evidence = reader.finish();
    georeference.report(job_.log);
    georeference.report_exchanged(raw, job_.log);
    return Nothing{};
  }

  Outcome read_soil(const FieldTable& table) {
    SoilReader reader(job_.log);
    Record record;
    CsvRow row;
    while (next(record, row)) ROOTSTEAD_CHECK(reader.read(record, table));
    import_.soil = reader.finish();
    return Nothing{};
  }

  // The shape of a row: drawn in well-known text, or one coordinate pair (a post, a pit). False,
  // and a problem that says what follows, where it cannot be read.
  bool read_shape(Record& record, const FieldTable& table, const Georeference& georeference,
                  const std::string& consequence) {
    record.shape.reset();
    const auto place = [&](Point point) { return georeference.to_project(point); };
    const std::string_view wkt = table.text(record, Field::wkt);
    auto shape = wkt.empty() ? point_shape(record, table, place) : shape_of_wkt(wkt, place);
    if (!shape) {
      job_.log.add_blocking(NoteCode::not_taken, record.place,
                            shape.error().message + "; " + consequence, shape.error().remedy);
      return false;
    }
    for (const std::string& doubt : shape->doubts)
      job_.log.add(NoteCode::shape_doubtful, record.place, doubt, "correct it in the source");
    record.shape = std::move(shape->shape);
    return true;
  }

  // The coordinates as written: of the grid, in degrees, or both in one text.
  static std::optional<Point> pair_of(const Record& record, const FieldTable& table) {
    for (const Field field : {Field::lat_lon, Field::lon_lat}) {
      const std::string_view text = table.text(record, field);
      if (!text.empty()) return latitude_longitude_from(text, field == Field::lon_lat);
    }
    const bool grid = table.has(Field::easting);
    const auto x = coordinate_from(table.text(record, grid ? Field::easting : Field::longitude));
    const auto y = coordinate_from(table.text(record, grid ? Field::northing : Field::latitude));
    return x && y ? std::optional(Point{*x, *y}) : std::nullopt;
  }

  Result<ShapeReading> point_shape(const Record& record, const FieldTable& table,
                                   const std::function<Point(Point)>& place) {
    ShapeReading reading;
    const auto written = pair_of(record, table);
    if (!written) {
      report_half_pair(record, table);
      return reading;
    }
    const Point at = place(*written);
    if (std::isfinite(at.x) && std::isfinite(at.y)) {
      reading.shape.points.push_back(at);
    } else {
      reading.doubts.emplace_back("the coordinates cannot be brought to the project's system");
    }
    return reading;
  }

  // Coordinates that are there and cannot be read.
  void report_half_pair(const Record& record, const FieldTable& table) {
    for (const Field field : {Field::easting, Field::northing, Field::longitude, Field::latitude,
                              Field::lat_lon, Field::lon_lat}) {
      const std::string_view cell = table.text(record, field);
      if (cell.empty() || coordinate_from(cell)) continue;
      job_.log.add(
          NoteCode::value_unreadable, record.place,
          "the coordinate \"" + std::string(cell) + "\" cannot be read",
          "column \"" + table.column(field) + "\": write a plain number such as 430035.12");
    }
  }

  // Where the root of a row was: in the system of the other coordinates.
  std::optional<Point> root_place(const Record& record, const FieldTable& table,
                                  const Georeference& georeference) {
    const std::string_view a = table.text(record, Field::root_x);
    const std::string_view b = table.text(record, Field::root_y);
    if (a.empty() && b.empty()) return std::nullopt;
    const auto x = coordinate_from(a), y = coordinate_from(b);
    const Point at = x && y ? georeference.to_project(Point{*x, *y}) : Point{kNowhere, kNowhere};
    if (std::isfinite(at.x) && std::isfinite(at.y)) return at;
    job_.log.add(NoteCode::value_unreadable, record.place,
                 "the place of the root \"" + std::string(a) + "\", \"" + std::string(b) +
                     "\" cannot be read; it is taken as somewhere in the opening",
                 "write plain numbers in the system of the opening");
    return std::nullopt;
  }

  const SourceJob& job_;
  Import& import_;
  CsvReader rows_;
  std::vector<std::string> header_;
  ColumnMap used_;
};

Outcome check_is_text(const std::string& text, const std::string& name) {
  constexpr std::size_t kLooked = 8192;
  if (text.substr(0, kLooked).find('\0') == std::string::npos) return Nothing{};
  return Error{Code::format_unknown, name, "this is not a text file", "export the table as CSV"};
}

}  // namespace

Outcome read_table(const SourceJob& job, Import& import) {
  ROOTSTEAD_TRY(std::string bytes, read_bytes(job.file));
  const DecodedText text = decoded(std::move(bytes));
  ROOTSTEAD_CHECK(check_is_text(text.text, job.name()));
  if (text.encoding != "UTF-8")
    job.log.add(NoteCode::text_recoded, "", "the text is read as " + text.encoding,
                "check names with accents; save as UTF-8 if they look wrong");
  return TableReading(job, import, text.text).read();
}

}  // namespace rootstead::io
