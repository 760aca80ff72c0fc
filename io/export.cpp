#include "io/export.hpp"

#include <array>
#include <string_view>

#include "engine/base/text.hpp"
#include "io/export_formats.hpp"
#include "io/export_rows.hpp"

namespace rootstead::io {
namespace {

struct Format {
  std::string_view ending;
  Outcome (*write)(const Export&, const PartFolder&, Warnings&);
};
constexpr std::array<Format, 6> kFormats{{{".dxf", write_dxf},
                                          {".geojson", write_geojson},
                                          {".csv", write_csv},
                                          {".gpkg", write_geopackage},
                                          {".fgb", write_flatgeobuf},
                                          {".shp", write_shapefile}}};

Result<const Format*> format_of(const std::filesystem::path& file) {
  const std::string ending = lower_case(file.extension().string());
  std::vector<std::string> known;
  for (const Format& format : kFormats) {
    if (format.ending == ending) return &format;
    known.emplace_back(format.ending);
  }
  const std::string what = ending.empty() ? "the name has no ending"
                                          : "the ending " + ending + " names no format we write";
  return Error{Code::format_unknown, file.filename().string(), what,
               "use one of " + joined(known, " ")};
}

}  // namespace

Outcome write_about_beside(const Export& out, const PartFolder& folder) {
  const auto about = about_of(out.site, out.assessment, out.tables);
  const auto name = folder.file().stem().string() + ".about.txt";
  return write_bytes(folder.folder() / name, about_text(about));
}

Result<ExportReport> write_export(const Site& site, const Assessment& assessment,
                                  const Tables& tables, const std::filesystem::path& file) {
  ROOTSTEAD_TRY(const Format* format, format_of(file));
  ROOTSTEAD_TRY(PartFolder folder, PartFolder::beside(file));
  ExportReport report;
  ROOTSTEAD_CHECK(format->write({site, assessment, tables}, folder, report.warnings));
  ROOTSTEAD_TRY(report.files, folder.publish());
  return report;
}

}  // namespace rootstead::io
