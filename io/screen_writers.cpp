#include "io/screen_writers.hpp"

#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include <fstream>

#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/screen_rows.hpp"
#include "io/screen_trees.hpp"
#include "io/spatial_reference.hpp"
#include "io/whole_file.hpp"

namespace rootstead::io {
namespace {

namespace fs = std::filesystem;
using Files = Result<std::vector<fs::path>>;

// FlatGeobuf's index is made in memory, about 100 bytes a row: beyond this it is left away, and the
// rows stand in their own order.
constexpr std::size_t kMostIndexed = 2'000'000;

Outcome write_about(const PartFolder& folder, const std::string& about) {
  const fs::path name = folder.file();
  return write_bytes(name.parent_path() / (name.stem().string() + ".about.txt"), about);
}

class TableWriter : public ScreenWriter {
 public:
  TableWriter(PartFolder folder, const std::string& about)
      : folder_(std::move(folder)), about_(about), out_(folder_.file(), std::ios::binary) {
    out_ << screen_header();
  }
  Outcome add(std::string_view rows) override {
    out_ << rows;
    return written();
  }
  Files finish() override {
    out_.close();
    ROOTSTEAD_CHECK(written());
    ROOTSTEAD_CHECK(write_about(folder_, about_));
    return folder_.publish();
  }

 private:
  Outcome written() const {
    if (out_) return Nothing{};
    return Error{Code::file_unwritable, folder_.file().filename().string(), "cannot be written",
                 "check the folder, its permissions and the space on the disk"};
  }
  PartFolder folder_;
  std::string about_;
  std::ofstream out_;
};

class OgrWriter : public ScreenWriter {
 public:
  OgrWriter(std::optional<PartFolder> folder, const ScreenJob& job, std::string about)
      : folder_(std::move(folder)), job_(job), about_(std::move(about)) {}

  Outcome begin(const ReferenceSystem& grid, std::size_t trees) {
    GDALAllRegister();
    const QuietGdal quiet;
    const std::string name = lower_case(job_.out);
    database_ = is_database(job_.out);
    takes_nowhere_ = !name.ends_with(".fgb");
    if (database_) {
      data_.reset(GDALDataset::Open(job_.out.c_str(), GDAL_OF_VECTOR | GDAL_OF_UPDATE));
      CPLSetThreadLocalConfigOption("PG_USE_COPY", "YES");
    } else {
      const char* driver_name = takes_nowhere_ ? "GPKG" : "FlatGeobuf";
      GDALDriver* driver = GetGDALDriverManager()->GetDriverByName(driver_name);
      if (driver != nullptr)
        data_.reset(driver->Create(folder_->file().c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    }
    if (!data_ || (database_ && data_->StartTransaction() != OGRERR_NONE)) return failed(quiet);
    CPLStringList options;
    if (!takes_nowhere_ && trees > kMostIndexed) options.SetNameValue("SPATIAL_INDEX", "NO");
    if (database_) options.SetNameValue("OVERWRITE", "YES");
    if (database_) options.SetNameValue("FID", "gid");
    auto reference = spatial_reference(grid.code);
    layer_ = data_->CreateLayer(job_.layer.c_str(), reference ? &*reference : nullptr, wkbPoint,
                                options.List());
    if (layer_ == nullptr || !add_fields()) return failed(quiet);
    return Nothing{};
  }

  Outcome add(std::string_view rows) override {
    const QuietGdal quiet;
    const bool own = takes_nowhere_ && !database_;  // GeoPackage: one transaction a part
    if (own && data_->StartTransaction() != OGRERR_NONE) return failed(quiet);
    CsvReader reader(rows, ',');
    CsvRow row;
    while (reader.next(row)) {
      if (row.cells.size() != kScreenColumns) continue;
      if (!add_row(row.cells)) return failed(quiet);
    }
    if (own && data_->CommitTransaction() != OGRERR_NONE) return failed(quiet);
    return Nothing{};
  }

  Files finish() override {
    const QuietGdal quiet;
    if (takes_nowhere_ && !add_about()) return failed(quiet);
    if (database_ && data_->CommitTransaction() != OGRERR_NONE) return failed(quiet);
    CPLErrorReset();
    data_.reset();  // the end of a file is written when it closes
    if (CPLGetLastErrorType() == CE_Failure) return failed(quiet);
    if (database_) return std::vector<fs::path>{};
    if (!takes_nowhere_) ROOTSTEAD_CHECK(write_about(*folder_, about_));
    return folder_->publish();
  }

 private:
  Error failed(const QuietGdal& quiet) const {
    return {Code::file_unwritable, source_name(job_.out),
            "cannot be written (" + quiet.last_message() + ")",
            database_ ? "check the address, and that you may make a table there"
                      : "check the folder, its permissions and the space on the disk"};
  }

  bool add_fields() {
    bool added = true;
    for (const ScreenColumnType& column : screen_columns()) {
      OGRFieldDefn field(column.name, column.kind == ScreenColumnType::whole    ? OFTInteger64
                                      : column.kind == ScreenColumnType::number ? OFTReal
                                                                                : OFTString);
      added = added && layer_->CreateField(&field) == OGRERR_NONE;
    }
    return added;
  }

  bool add_row(const std::vector<std::string>& cells) {
    OGRFeature feature(layer_->GetLayerDefn());
    for (std::size_t i = 0; i < kScreenColumns; ++i) {
      const int at = static_cast<int>(i);
      const auto number = screen_columns()[i].kind == ScreenColumnType::text
                              ? std::optional<double>()
                              : number_from(cells[i]);
      if (screen_columns()[i].kind == ScreenColumnType::text) {
        feature.SetField(at, cells[i].c_str());
      } else if (!number) {
        feature.SetFieldNull(at);
      } else if (screen_columns()[i].kind == ScreenColumnType::whole) {
        feature.SetField(at, static_cast<GIntBig>(*number));
      } else {
        feature.SetField(at, *number);
      }
    }
    const auto x = number_from(cells[static_cast<std::size_t>(ScreenColumn::x)]);
    const auto y = number_from(cells[static_cast<std::size_t>(ScreenColumn::y)]);
    if (x && y) feature.SetGeometryDirectly(new OGRPoint(*x, *y));  // GDAL takes it over
    if (!(x && y) && !takes_nowhere_) {
      ++left_out;
      return true;
    }
    return layer_->CreateFeature(&feature) == OGRERR_NONE;
  }

  bool add_about() {
    CPLStringList options;
    if (database_) options.SetNameValue("OVERWRITE", "YES");
    const std::string name = database_ ? job_.layer + "_about" : "about";
    OGRLayer* layer = data_->CreateLayer(name.c_str(), nullptr, wkbNone, options.List());
    if (layer == nullptr) return false;
    OGRFieldDefn text("text", OFTString);
    if (layer->CreateField(&text) != OGRERR_NONE) return false;
    for (const std::string& line : split(about_, '\n')) {
      if (line.empty()) continue;
      OGRFeature feature(layer->GetLayerDefn());
      feature.SetField(0, line.c_str());
      if (layer->CreateFeature(&feature) != OGRERR_NONE) return false;
    }
    return true;
  }

  std::optional<PartFolder> folder_;
  const ScreenJob& job_;
  std::string about_;
  GDALDatasetUniquePtr data_;
  OGRLayer* layer_ = nullptr;
  bool database_ = false, takes_nowhere_ = true;
};

}  // namespace

Outcome ScreenWriter::check_format(const std::string& out) {
  const std::string name = lower_case(out);
  if (is_database(out)) return Nothing{};
  for (const std::string_view ending : {".csv", ".gpkg", ".fgb"})
    if (name.ends_with(ending)) return Nothing{};
  return Error{Code::format_unknown, out, "a screening is not written in this format",
               "give a name that ends in .csv, .gpkg or .fgb, or a PG: address"};
}

Result<std::unique_ptr<ScreenWriter>> ScreenWriter::open(const ScreenJob& job,
                                                         const ReferenceSystem& grid,
                                                         const std::string& about,
                                                         std::size_t trees) {
  ROOTSTEAD_CHECK(check_format(job.out));
  std::optional<PartFolder> folder;
  if (!is_database(job.out)) {
    ROOTSTEAD_TRY(PartFolder made, PartFolder::beside(job.out));
    folder.emplace(std::move(made));
    if (lower_case(job.out).ends_with(".csv"))
      return std::unique_ptr<ScreenWriter>(
          std::make_unique<TableWriter>(std::move(*folder), about));
  }
  auto writer = std::make_unique<OgrWriter>(std::move(folder), job, about);
  ROOTSTEAD_CHECK(writer->begin(grid, trees));
  return std::unique_ptr<ScreenWriter>(std::move(writer));
}

}  // namespace rootstead::io
