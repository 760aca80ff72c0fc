// Layers of GIS files, and tables of PostgreSQL, in blocks of features.
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include <algorithm>

#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/import_coordinates.hpp"
#include "io/import_shapes.hpp"
#include "io/import_source.hpp"
#include "io/import_trees.hpp"
#include "io/screen_source.hpp"
#include "io/screen_trees.hpp"

namespace rootstead::io {
namespace {

struct Layer {
  std::string name;
  ImportOptions options;
  ReferenceSystem grid;
  SourceSystem system;
  bool drawn = true;
  std::optional<FieldTable> fields;
};

class LayerBlockReader : public TreeBlockReader {
 public:
  LayerBlockReader(std::shared_ptr<const Layer> layer, Georeference georeference)
      : layer_(std::move(layer)), georeference_(std::move(georeference)) {}

  Result<TreesRead> read(const TreeBlock& block) override {
    ProblemLog log(layer_->name);
    TreeReader reader(*layer_->fields, georeference_, layer_->drawn, log);
    TreesRead read;
    for (std::size_t i = 0; i < block.records.size(); ++i) {
      Record record = block.records[i];
      if (record.shape) place(*record.shape);
      ROOTSTEAD_CHECK(reader.read(record));
      std::string_view id = layer_->fields->text(record, Field::id);
      if (id.empty()) id = layer_->fields->text(record, Field::tag);
      read.ids.emplace_back(id.empty() ? record.spare_id : id);
      read.rows.push_back(block.first_row + i);
    }
    read.trees = reader.finish();
    read.problems = log.take();
    return read;
  }

 private:
  void place(Shape& shape) const {
    georeference_.to_project(shape.points);
    for (Line& line : shape.lines) georeference_.to_project(line);
    for (Polygon& polygon : shape.areas) georeference_.to_project(polygon.outer);
  }
  std::shared_ptr<const Layer> layer_;
  Georeference georeference_;
};

class LayerBlocks : public TreeBlocks {
 public:
  LayerBlocks(OpenLayer open, const ScreenJob& job, const ReferenceSystem& grid)
      : open_(std::move(open)), layer_(std::make_shared<Layer>()) {
    layer_->name = source_name(job.trees.from);
    layer_->options.as = "trees";
    layer_->options.columns = job.trees.columns;
    layer_->options.length_unit = job.length_unit;
    layer_->grid = grid;
  }

  Outcome begin() {
    std::vector<std::string> header;
    OGRFeatureDefn* fields = open_.rows->GetLayerDefn();
    for (int i = 0; i < fields->GetFieldCount(); ++i)
      header.emplace_back(fields->GetFieldDefn(i)->GetNameRef());
    const std::filesystem::path path = layer_->name;
    ProblemLog log(layer_->name);
    const SourceJob source{path, layer_->options, layer_->grid, log};
    ColumnMap used;
    ROOTSTEAD_TRY(layer_->fields, field_table(source, header, Topic::trees, used));
    layer_->drawn = open_.rows->GetGeomType() != wkbNone;
    layer_->system = {used.crs.empty() ? open_.system : used.crs, {}};
    if (layer_->system.crs.empty() && layer_->drawn)
      return Error{Code::crs_unknown, layer_->name, "the file does not say its coordinate system",
                   "name it in a column map: crs = \"" + layer_->grid.code + "\""};
    all_ = static_cast<double>(std::max<GIntBig>(open_.features, 1));
    open_.rows->ResetReading();
    return Nothing{};
  }

  Result<bool> next(TreeBlock& block, bool wanted) override {
    const QuietGdal quiet;
    block.number = blocks_;
    block.first_row = features_ + 1;
    block.records.clear();
    std::size_t rows = 0;
    CPLErrorReset();
    while (rows < kBlockRows) {
      const OGRFeatureUniquePtr feature(open_.rows->GetNextFeature());
      if (!feature) break;
      ++rows;
      if (wanted) block.records.push_back(record_of(*feature, features_ + rows));
    }
    if (rows < kBlockRows && CPLGetLastErrorType() == CE_Failure)
      return Error{Code::format_broken, layer_->name,
                   "it cannot be read to its end (" + quiet.last_message() + ")",
                   "export it again, or check the connection"};
    features_ += rows;
    if (rows > 0) ++blocks_;
    return rows > 0;
  }

  Result<std::unique_ptr<TreeBlockReader>> reader() const override {
    ROOTSTEAD_TRY(Georeference georeference,
                  Georeference::make(layer_->system, layer_->grid, layer_->name));
    return std::unique_ptr<TreeBlockReader>(
        std::make_unique<LayerBlockReader>(layer_, std::move(georeference)));
  }

  double done() const override { return std::min(static_cast<double>(features_) / all_, 1.0); }

 private:
  static Record record_of(OGRFeature& feature, std::size_t number) {
    Record record;
    record.place = "feature " + std::to_string(number);
    record.spare_id = "feature-" + std::to_string(number);
    record.cells.reserve(static_cast<std::size_t>(feature.GetFieldCount()));
    for (int i = 0; i < feature.GetFieldCount(); ++i) {
      const bool set = feature.IsFieldSetAndNotNull(i) != 0;
      record.cells.push_back(set ? decoded(feature.GetFieldAsString(i)).text : std::string());
    }
    const OGRGeometry* geometry = feature.GetGeometryRef();
    if (geometry != nullptr && geometry->IsEmpty() == 0)
      record.shape = shape_of(*geometry, [](Point point) { return point; }).shape;
    return record;
  }

  OpenLayer open_;
  std::shared_ptr<Layer> layer_;
  std::size_t features_ = 0, blocks_ = 0;
  double all_ = 1;
};

}  // namespace

Result<std::unique_ptr<TreeBlocks>> open_tree_layer(const ScreenJob& job,
                                                    const ReferenceSystem& grid) {
  ROOTSTEAD_TRY(OpenLayer open, open_layer(job.trees));
  auto blocks = std::make_unique<LayerBlocks>(std::move(open), job, grid);
  ROOTSTEAD_CHECK(blocks->begin());
  return std::unique_ptr<TreeBlocks>(std::move(blocks));
}

}  // namespace rootstead::io
