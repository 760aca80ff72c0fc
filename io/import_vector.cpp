// GeoJSON, GeoPackage, Shapefile and FlatGeobuf through GDAL.
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include <algorithm>
#include <set>

#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/import_coordinates.hpp"
#include "io/import_evidence.hpp"
#include "io/import_shapes.hpp"
#include "io/import_source.hpp"
#include "io/import_trees.hpp"
#include "io/import_works.hpp"
#include "io/spatial_reference.hpp"

namespace rootstead::io {
namespace {

namespace fs = std::filesystem;
using Target = LayerKind::Target;

bool has_companion(const fs::path& file, const std::string& ending) {
  fs::path small = file, large = file;
  small.replace_extension(ending);
  large.replace_extension(ending == ".shx" ? ".SHX" : ".DBF");
  std::error_code ignored;
  return fs::exists(small, ignored) || fs::exists(large, ignored);
}

Outcome check_companions(const SourceJob& job) {
  if (lower_case(job.file.extension().string()) != ".shp") return Nothing{};
  if (!has_companion(job.file, ".shx"))
    return Error{Code::file_unreadable, job.name(),
                 "its index file " + job.file.stem().string() + ".shx is missing",
                 "copy all parts of the shapefile: .shp, .shx, .dbf and .prj"};
  if (!has_companion(job.file, ".dbf"))
    job.log.add(NoteCode::value_unreadable, "",
                "its table " + job.file.stem().string() + ".dbf is missing: only shapes are read",
                "copy all parts of the shapefile: .shp, .shx, .dbf and .prj");
  return Nothing{};
}

Result<GDALDatasetUniquePtr> open_vector(const SourceJob& job) {
  GDALAllRegister();
  constexpr const char* kDrivers[] = {"GPKG",       "GeoJSON",  "GeoJSONSeq", "ESRI Shapefile",
                                      "FlatGeobuf", "TopoJSON", "ESRIJSON",   nullptr};
  const QuietGdal quiet;
  GDALDatasetUniquePtr data(GDALDataset::Open(job.file.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY,
                                              kDrivers, nullptr, nullptr));
  if (data) return data;
  const std::string said = quiet.last_message();
  return Error{Code::format_broken, job.name(),
               "the file cannot be read as what its ending says" +
                   (said.empty() ? std::string() : " (" + said + ")"),
               "export it again, or check that it opens in a GIS"};
}

std::vector<std::string> header_of(OGRLayer& layer) {
  std::vector<std::string> header;
  OGRFeatureDefn* fields = layer.GetLayerDefn();
  for (int i = 0; i < fields->GetFieldCount(); ++i)
    header.emplace_back(fields->GetFieldDefn(i)->GetNameRef());
  return header;
}

std::string layer_names(GDALDataset& data) {
  std::vector<std::string> names;
  for (OGRLayer* layer : data.GetLayers()) names.emplace_back(layer->GetName());
  return joined(names, ", ");
}

class VectorReading {
 public:
  VectorReading(const SourceJob& job, Import& import, GDALDataset& data)
      : job_(job), import_(import), data_(data), works_(import, job.log), evidence_(job.log) {}

  Outcome read() {
    ROOTSTEAD_TRY(asked_, drawn_kind_asked_for(job_));
    bool found = job_.options.layer.empty();
    for (OGRLayer* layer : data_.GetLayers()) {
      const bool wanted = job_.options.layer.empty() || job_.options.layer == layer->GetName();
      if (!wanted) continue;
      found = true;
      ROOTSTEAD_CHECK(read_layer(*layer));
    }
    if (!found)
      return Error{Code::unknown_name, job_.name(),
                   "there is no layer \"" + job_.options.layer + "\"",
                   "use one of: " + layer_names(data_)};
    if (!taken_any_layer_)
      return Error{
          Code::wrong_use, job_.name(),
          "nothing says what its layers hold (" + layer_names(data_) + ")",
          "say it with --as trees, works, barriers, ground, evidence, boundary or gates, or in "
          "[layers] of a "
          "column map"};
    import_.evidence = evidence_.finish();
    if (job_.options.columns) import_.mapping = to_toml(*job_.options.columns);
    if (import_.mapping.empty()) import_.mapping = to_toml(used_);
    return Nothing{};
  }

 private:
  static std::string place_of(OGRLayer& layer) { return "layer " + std::string(layer.GetName()); }

  LayerChoice choice_for(OGRLayer& layer) {
    static const std::map<std::string, std::string> kNone;
    const auto& kinds = job_.options.columns ? job_.options.columns->layer_kinds : kNone;
    LayerChoice choice =
        choose_layer_kind(layer.GetName(), kinds, asked_, data_.GetLayerCount() > 1);
    if (!choice.kind) choice.kind = kind_from_content(layer);
    return choice;
  }

  static std::optional<LayerKind> kind_from_content(OGRLayer& layer) {
    const auto header = header_of(layer);
    const ColumnMap as_trees = propose_columns(header, "trees");
    const ColumnMap as_works = propose_columns(header, "works");
    const ColumnMap as_evidence = propose_columns(header, "evidence");
    const bool points = wkbFlatten(layer.GetGeomType()) == wkbPoint ||
                        wkbFlatten(layer.GetGeomType()) == wkbUnknown;
    const bool stems =
        as_trees.fields.contains("stem_diameter") || as_trees.fields.contains("stem_girth");
    if (points && stems) return layer_kind_from("trees");
    const bool roots =
        as_evidence.fields.contains("root_diameter") || as_evidence.fields.contains("counted_from");
    if (roots && !stems) return layer_kind_from("evidence");
    const bool works = as_works.fields.contains("depth") && as_works.fields.contains("kind");
    if (works && !stems) return layer_kind_from("works");
    return std::nullopt;
  }

  Outcome read_layer(OGRLayer& layer) {
    const LayerChoice choice = choice_for(layer);
    const auto& kind = choice.kind;
    const auto count = static_cast<std::size_t>(std::max<GIntBig>(layer.GetFeatureCount(), 0));
    const std::string features = std::to_string(count) + (count == 1 ? " feature" : " features");
    if (!kind) {
      job_.log.add(NoteCode::not_taken, place_of(layer),
                   features + " not taken: nothing says what they are",
                   "read it with --layer " + std::string(layer.GetName()) +
                       " and --as, or name it in [layers] of a column map");
      return Nothing{};
    }
    taken_any_layer_ = true;
    if (kind->target == Target::skip) {
      job_.log.add(NoteCode::not_taken, place_of(layer), features + " not taken: " + choice.why_not,
                   "name the layer in [layers] of a column map to take it");
      return Nothing{};
    }
    ROOTSTEAD_TRY(const Georeference georeference, georeference_for(layer));
    const Topic topic = topic_of(*kind);
    ROOTSTEAD_TRY(const FieldTable table, field_table(job_, header_of(layer), topic, used_));
    report_unread(table, place_of(layer), job_.log);
    if (topic == Topic::trees) return read_trees(layer, table, georeference);
    return topic == Topic::evidence ? read_evidence(layer, table, georeference, *kind)
                                    : read_works(layer, table, georeference, *kind);
  }

  Result<Georeference> georeference_for(OGRLayer& layer) {
    const std::string in_file = system_of(layer);
    const std::string said = job_.options.columns ? job_.options.columns->crs : "";
    if (in_file.empty() && said.empty())
      return Error{
          Code::crs_unknown, job_.name() + " " + place_of(layer),
          "the file does not say its coordinate system",
          "name it in a column map: crs = \"" + job_.project.code + "\" where it is the project's"};
    const std::string crs = said.empty() ? in_file : said;
    return Georeference::make({crs, {}}, job_.project, job_.name());
  }

  // The feature as a record; its shape in project metres.
  Record record_of(OGRLayer& layer, OGRFeature& feature, const Georeference& georeference) {
    Record record;
    const std::string number = std::to_string(feature.GetFID());
    const bool only_layer = data_.GetLayerCount() == 1;
    record.place = (only_layer ? "" : place_of(layer) + " ") + "feature " + number;
    record.spare_id = std::string(layer.GetName()) + "-" + number;
    record.cells.reserve(static_cast<std::size_t>(feature.GetFieldCount()));
    for (int i = 0; i < feature.GetFieldCount(); ++i) {
      const bool set = feature.IsFieldSetAndNotNull(i) != 0;
      record.cells.push_back(set ? text_of(feature, i, record.place) : std::string());
    }
    const OGRGeometry* geometry = feature.GetGeometryRef();
    if (geometry == nullptr) return record;
    if (geometry->IsEmpty() != 0) {
      job_.log.add(NoteCode::shape_doubtful, record.place, "its shape is empty",
                   "draw it again in the source");
      return record;
    }
    if (geometry->Is3D() != 0)
      job_.log.add_repeated(NoteCode::not_taken, place_of(layer),
                            "the heights (z) of its shapes are not read", "");
    note_first_point(*geometry);
    const auto place = [&](Point point) { return georeference.to_project(point); };
    ShapeReading reading = shape_of(*geometry, place);
    for (const std::string& doubt : reading.doubts)
      job_.log.add(NoteCode::shape_doubtful, record.place, doubt, "correct it in the source");
    record.shape = std::move(reading.shape);
    return record;
  }

  std::string text_of(OGRFeature& feature, int field, const std::string& place) {
    DecodedText text = decoded(feature.GetFieldAsString(field));
    if (text.encoding != "UTF-8")
      job_.log.add_repeated(NoteCode::text_recoded, place, "a text is read as " + text.encoding,
                            "check names with accents");
    return std::move(text.text);
  }

  void note_first_point(const OGRGeometry& geometry) {
    OGREnvelope box;
    geometry.getEnvelope(&box);
    raw_.push_back({(box.MinX + box.MaxX) / 2, (box.MinY + box.MaxY) / 2});
  }

  void report_system(OGRLayer& layer, const Georeference& georeference) {
    if (reported_.insert(system_of(layer)).second) georeference.report(job_.log);
    georeference.report_exchanged(raw_, job_.log);
    raw_.clear();
  }

  Outcome read_trees(OGRLayer& layer, const FieldTable& table, const Georeference& georeference) {
    const bool drawn = layer.GetGeomType() != wkbNone;
    TreeReader reader(table, georeference, drawn, job_.log);
    for (const auto& feature : layer) {
      ++import_.rows_read;
      ROOTSTEAD_CHECK(reader.read(record_of(layer, *feature, georeference)));
    }
    std::vector<Tree> trees = reader.finish();
    std::move(trees.begin(), trees.end(), std::back_inserter(import_.trees));
    report_system(layer, georeference);
    return Nothing{};
  }

  Outcome read_works(OGRLayer& layer, const FieldTable& table, const Georeference& georeference,
                     const LayerKind& kind) {
    for (const auto& feature : layer) {
      ++import_.rows_read;
      ROOTSTEAD_CHECK(works_.read(record_of(layer, *feature, georeference), table, kind));
    }
    report_system(layer, georeference);
    return Nothing{};
  }

  // Openings may stand in one layer and their roots in another: one reader takes both.
  Outcome read_evidence(OGRLayer& layer, const FieldTable& table, const Georeference& georeference,
                        const LayerKind& kind) {
    for (const auto& feature : layer) {
      ++import_.rows_read;
      ROOTSTEAD_CHECK(evidence_.read(record_of(layer, *feature, georeference), table, kind));
    }
    report_system(layer, georeference);
    return Nothing{};
  }

  const SourceJob& job_;
  Import& import_;
  GDALDataset& data_;
  WorkReader works_;
  EvidenceReader evidence_;
  std::optional<LayerKind> asked_;
  ColumnMap used_;
  std::set<std::string> reported_;
  std::vector<Point> raw_;
  bool taken_any_layer_ = false;
};

}  // namespace

Outcome read_vector(const SourceJob& job, Import& import) {
  ROOTSTEAD_CHECK(check_companions(job));
  ROOTSTEAD_TRY(const GDALDatasetUniquePtr data, open_vector(job));
  const QuietGdal quiet;
  return VectorReading(job, import, *data).read();
}

}  // namespace rootstead::io
