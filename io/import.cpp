#include "io/import.hpp"

#include <algorithm>
#include <array>

#include "engine/base/text.hpp"
#include "io/import_source.hpp"
#include "io/whole_file.hpp"

namespace rootstead::io {
namespace {

namespace fs = std::filesystem;

enum class Format { table, vector, drawing, unknown };

struct Ending {
  std::string_view text;
  Format format;
};
constexpr std::array<Ending, 14> kEndings{{{".csv", Format::table},
                                           {".txt", Format::table},
                                           {".tsv", Format::table},
                                           {".tab", Format::table},
                                           {".csv.gz", Format::table},
                                           {".txt.gz", Format::table},
                                           {".tsv.gz", Format::table},
                                           {".geojson", Format::vector},
                                           {".json", Format::vector},
                                           {".geojsonl", Format::vector},
                                           {".gpkg", Format::vector},
                                           {".shp", Format::vector},
                                           {".fgb", Format::vector},
                                           {".dxf", Format::drawing}}};

Format format_of(const std::string& lower_name) {
  for (const Ending& ending : kEndings) {
    if (lower_name.ends_with(ending.text)) return ending.format;
  }
  return Format::unknown;
}

// Formats people try, and the way round each.
std::string remedy_for(const std::string& lower_name) {
  struct Way {
    std::string_view ending;
    std::string_view remedy;
  };
  constexpr std::array<Way, 8> kWays{
      {{".dwg", "save the drawing as DXF"},
       {".xlsx", "save the sheet as CSV"},
       {".xls", "save the sheet as CSV"},
       {".ods", "save the sheet as CSV"},
       {".kml", "export it as GeoJSON or GeoPackage"},
       {".kmz", "export it as GeoJSON or GeoPackage"},
       {".pdf", "ask for the drawing as DXF; a PDF has no true coordinates"},
       {".zip", "unpack it and name the file inside"}}};
  for (const Way& way : kWays) {
    if (lower_name.ends_with(way.ending)) return std::string(way.remedy);
  }
  return "give .csv, .txt or .tsv (also .gz), .geojson, .gpkg, .shp, .fgb or .dxf";
}

std::string kind_of(const Import& import) {
  std::vector<std::string> kinds;
  if (!import.trees.empty()) kinds.emplace_back("trees");
  if (!import.works.empty()) kinds.emplace_back("works");
  if (!import.barriers.empty()) kinds.emplace_back("barriers");
  if (!import.surfaces.empty()) kinds.emplace_back("ground");
  if (!import.evidence.empty()) kinds.emplace_back("evidence");
  if (import.soil) kinds.emplace_back("soil");
  if (!import.boundary.empty()) kinds.emplace_back("boundary");
  if (!import.gates.empty()) kinds.emplace_back("gates");
  return joined(kinds, " and ");
}

}  // namespace

Result<std::optional<LayerKind>> kind_asked_for(const std::string& as) {
  using Kind = std::optional<LayerKind>;
  if (as.empty()) return Kind{};
  for (const std::string_view known :
       {"trees", "works", "barriers", "ground", "evidence", "soil", "boundary", "gates"}) {
    if (as == known) return Kind{layer_kind_from(as)};
  }
  return Error{Code::unknown_name, "--as " + as, "this is nothing a source can be read as",
               "use trees, works, barriers, ground, evidence, soil, boundary or gates"};
}

Result<std::optional<LayerKind>> drawn_kind_asked_for(const SourceJob& job) {
  ROOTSTEAD_TRY(const auto asked, kind_asked_for(job.options.as));
  if (!asked || asked->target != LayerKind::Target::soil) return asked;
  return Error{Code::wrong_use, job.name(), "the soil is not read from a file of shapes",
               "give its layers as a table, one row a layer (.csv, .txt or .tsv)"};
}

Result<FieldTable> field_table(const SourceJob& job, const std::vector<std::string>& header,
                               Topic topic, ColumnMap& used) {
  const ColumnMap* given = job.map();
  if (given != nullptr && !given->fields.empty()) {
    used = *given;
  } else {
    used = propose_columns(header, std::string(name_of(topic)));
    if (given != nullptr) {
      used.crs = given->crs;
      used.values = given->values;
      used.layer_kinds = given->layer_kinds;
    }
  }
  ROOTSTEAD_TRY(FieldTable table, FieldTable::make(used, header, job.name()));
  if (job.options.length_unit) table.answer_unit(*job.options.length_unit);
  return table;
}

void report_unread(const FieldTable& table, const std::string& place, ProblemLog& log) {
  if (table.unread().empty()) return;
  const bool one = table.unread().size() == 1;
  log.add(NoteCode::not_taken, place,
          std::string(one ? "column " : "columns ") + joined(table.unread(), ", ") +
              (one ? " is" : " are") + " not read",
          "name what is needed in a column map");
}

namespace {

Result<Import> read_any(const fs::path& source, const ImportOptions& options,
                        const ReferenceSystem& project) {
  ROOTSTEAD_CHECK(check_file(source));
  ROOTSTEAD_CHECK(kind_asked_for(options.as));
  ProblemLog log(source.filename().string());
  const SourceJob job{source, options, project, log};
  Import import;
  import.source = job.name();
  const std::string lower_name = lower_case(job.name());
  switch (format_of(lower_name)) {
    case Format::table:
      ROOTSTEAD_CHECK(read_table(job, import));
      break;
    case Format::vector:
      ROOTSTEAD_CHECK(read_vector(job, import));
      break;
    case Format::drawing:
      ROOTSTEAD_CHECK(read_dxf(job, import));
      break;
    case Format::unknown:
      return Error{Code::format_unknown, job.name(), "this kind of file is not read",
                   remedy_for(lower_name)};
  }
  import.kind = kind_of(import);
  if (import.kind.empty()) import.kind = options.as;
  import.problems = log.take();
  return import;
}

}  // namespace

Result<Import> read_source(const fs::path& source, const ImportOptions& options,
                           const ReferenceSystem& project) {
  auto import = read_any(source, options, project);
  if (import) return import;
  const Error& error = import.error();
  return Error{error.code, on_one_line(error.subject), on_one_line(error.message),
               on_one_line(error.remedy)};
}

}  // namespace rootstead::io
