#include "io/screen_works.hpp"

#include <cmath>
#include <map>
#include <thread>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/losses/losses.hpp"
#include "io/csv.hpp"
#include "io/import_coordinates.hpp"
#include "io/import_shapes.hpp"
#include "io/import_source.hpp"
#include "io/import_works.hpp"
#include "io/screen_source.hpp"
#include "io/screen_trees.hpp"

namespace rootstead::io {
namespace {

constexpr std::size_t kBatch = 2048;

// More works than any spot holds. Where all lie on one another, each is parted from all before it,
// which for a town read in degrees would take days. Our choice.
constexpr double kSpot = 64;  // m
constexpr std::size_t kMostOnOneSpot = 2'000;

class Spots {
 public:
  // False for the first work too many.
  bool add(const Point& at) {
    const std::pair spot{std::floor(at.x / kSpot), std::floor(at.y / kSpot)};
    return ++works_[spot] <= kMostOnOneSpot;
  }

 private:
  std::map<std::pair<double, double>, std::size_t> works_;
};

class Collector {
 public:
  Collector(const ScreenJob& job, NetworkWorks& to)
      : name_(source_name(job.works.from)), threads_(job.threads), to_(to) {}

  Outcome take(std::vector<Work> works) {
    std::vector<MultiPolygon> grounds(works.size());
    const auto n = static_cast<std::size_t>(threads_);
    const auto share = [&](std::size_t k) {
      for (std::size_t i = works.size() * k / n; i < works.size() * (k + 1) / n; ++i)
        if (is_new(works[i])) grounds[i] = footprint(works[i], true);
    };
    std::vector<std::thread> helpers;
    for (std::size_t k = 1; k < n; ++k) helpers.emplace_back(share, k);
    share(0);
    for (std::thread& helper : helpers) helper.join();
    for (std::size_t i = 0; i < works.size(); ++i) {
      ROOTSTEAD_CHECK(check_spot(works[i].id, grounds[i]));
      to_.ids.push_back(std::move(works[i].id));
      if (!is_new(works[i])) ++to_.existing;
      if (is_new(works[i]) && grounds[i].empty()) ++to_.without_ground;
      if (!builder_.add(grounds[i])) {
        ++to_.without_ground;
        to_.problems.push_back({true, NoteCode::shape_doubtful, "work " + to_.ids.back(),
                                "it is wider than 300 km and is left out",
                                "check its coordinates and their system"});
      }
    }
    return Nothing{};
  }
  void finish() { to_.ground = std::move(builder_).finish(threads_); }

 private:
  Outcome check_spot(const std::string& id, const MultiPolygon& ground) {
    const Box box = box_of(ground);
    if (box.empty() || spots_.add(box.centre())) return Nothing{};
    return Error{
        Code::crs_unknown, name_ + ", work " + id,
        "it is one of more than " + std::to_string(kMostOnOneSpot) + " works on one spot of 64 m",
        "check the coordinate system (degrees are not metres), or leave out copies"};
  }

  std::string name_;
  int threads_;
  NetworkWorks& to_;
  NetworkBuilder builder_;
  Spots spots_;
};

Result<NetworkWorks> read_whole(const ScreenJob& job, const ReferenceSystem& grid) {
  ImportOptions options;
  options.as = "works";
  options.layer = job.works.layer;
  options.columns = job.works.columns;
  options.length_unit = job.length_unit;
  ROOTSTEAD_TRY(Import import, read_source(job.works.from, options, grid));
  NetworkWorks read;
  read.problems = std::move(import.problems);
  Collector collector(job, read);
  ROOTSTEAD_CHECK(collector.take(std::move(import.works)));
  collector.finish();
  return read;
}

class LayerOfWorks {
 public:
  LayerOfWorks(const ScreenJob& job, const ReferenceSystem& grid, OpenLayer open)
      : job_(job), grid_(grid), open_(std::move(open)), log_(source_name(job.works.from)) {}

  Result<NetworkWorks> read(const ScreenProgress& progress) {
    options_.as = "works";
    options_.columns = job_.works.columns;
    options_.length_unit = job_.length_unit;
    const std::filesystem::path path = source_name(job_.works.from);
    const SourceJob source{path, options_, grid_, log_};
    std::vector<std::string> header;
    OGRFeatureDefn* fields = open_.rows->GetLayerDefn();
    for (int i = 0; i < fields->GetFieldCount(); ++i)
      header.emplace_back(fields->GetFieldDefn(i)->GetNameRef());
    ColumnMap used;
    ROOTSTEAD_TRY(const FieldTable table, field_table(source, header, Topic::works, used));
    const std::string system = used.crs.empty() ? open_.system : used.crs;
    if (system.empty())
      return Error{Code::crs_unknown, path.string(), "the file does not say its coordinate system",
                   "name it in a column map: crs = \"" + grid_.code + "\""};
    ROOTSTEAD_TRY(const Georeference georeference,
                  Georeference::make({system, {}}, grid_, path.string()));
    NetworkWorks read;
    Collector collector(job_, read);
    ROOTSTEAD_CHECK(read_rows(table, georeference, used, collector, progress));
    read.problems = log_.take();
    collector.finish();
    return read;
  }

 private:
  Outcome read_rows(const FieldTable& table, const Georeference& georeference,
                    const ColumnMap& used, Collector& collector, const ScreenProgress& progress) {
    const QuietGdal quiet;
    const auto asked = layer_kind_from("works");
    const LayerKind kind = choose_layer_kind(open_.rows->GetName(), used.layer_kinds, asked, false)
                               .kind.value_or(asked.value_or(LayerKind{}));
    const auto place = [&](Point point) { return georeference.to_project(point); };
    std::size_t done = 0;
    bool more = true;
    open_.rows->ResetReading();
    while (more) {
      Import import;
      WorkReader reader(import, log_);
      for (std::size_t i = 0; i < kBatch && more; ++i) {
        const OGRFeatureUniquePtr feature(open_.rows->GetNextFeature());
        more = feature != nullptr;
        if (more) ROOTSTEAD_CHECK(reader.read(record_of(*feature, ++done, place), table, kind));
      }
      ROOTSTEAD_CHECK(collector.take(std::move(import.works)));
      progress("reading works", static_cast<double>(done) /
                                    static_cast<double>(std::max<GIntBig>(open_.features, 1)));
    }
    return Nothing{};
  }

  Record record_of(OGRFeature& feature, std::size_t number,
                   const std::function<Point(Point)>& place) {
    Record record;
    record.place = "feature " + std::to_string(number);
    record.spare_id = "work-" + std::to_string(number);
    for (int i = 0; i < feature.GetFieldCount(); ++i) {
      const bool set = feature.IsFieldSetAndNotNull(i) != 0;
      record.cells.push_back(set ? decoded(feature.GetFieldAsString(i)).text : std::string());
    }
    const OGRGeometry* geometry = feature.GetGeometryRef();
    if (geometry == nullptr || geometry->IsEmpty() != 0) return record;
    ShapeReading reading = shape_of(*geometry, place);
    for (const std::string& doubt : reading.doubts)
      log_.add(NoteCode::shape_doubtful, record.place, doubt, "correct it in the source");
    record.shape = std::move(reading.shape);
    return record;
  }

  const ScreenJob& job_;
  const ReferenceSystem& grid_;
  OpenLayer open_;
  ProblemLog log_;
  ImportOptions options_;
};

}  // namespace

Result<NetworkWorks> read_network(const ScreenJob& job, const ReferenceSystem& grid,
                                  const ScreenProgress& progress) {
  progress("reading works", 0);
  const std::string name = lower_case(source_name(job.works.from));
  const bool layer = is_database(job.works.from) || name.ends_with(".gpkg") ||
                     name.ends_with(".fgb") || name.ends_with(".geojson") || name.ends_with(".shp");
  if (!layer) return read_whole(job, grid);
  auto open = open_layer(job.works);
  if (!open && open.error().code == Code::unknown_name && job.works.layer.empty())
    return read_whole(job, grid);  // several layers, each with works of its kind
  if (!open) return open.error();
  return LayerOfWorks(job, grid, std::move(open).value()).read(progress);
}

}  // namespace rootstead::io
