// DXF drawings: tree symbols by our own scan, all other geometry through GDAL.
#include <cpl_conv.h>
#include <cpl_vsi.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "io/csv.hpp"
#include "io/dxf_scan.hpp"
#include "io/dxf_symbols.hpp"
#include "io/import_coordinates.hpp"
#include "io/import_evidence.hpp"
#include "io/import_shapes.hpp"
#include "io/import_source.hpp"
#include "io/import_trees.hpp"
#include "io/import_works.hpp"
#include "io/spatial_reference.hpp"

namespace rootstead::io {
namespace {

using Target = LayerKind::Target;

// A text as a file for GDAL, in memory, while it lives.
class MemoryFile {
 public:
  explicit MemoryFile(std::string& text) {
    name_ = "/vsimem/rootstead-" + shortest_number(static_cast<double>(++count())) + ".dxf";
    // GDAL reads the buffer and does not own it; GByte is what its interface calls a char.
    VSILFILE* file = VSIFileFromMemBuffer(name_.c_str(), reinterpret_cast<GByte*>(text.data()),
                                          text.size(), FALSE);
    if (file != nullptr) VSIFCloseL(file);
  }
  ~MemoryFile() { VSIUnlink(name_.c_str()); }
  MemoryFile(const MemoryFile&) = delete;
  MemoryFile& operator=(const MemoryFile&) = delete;
  const std::string& name() const { return name_; }

 private:
  static int& count() {
    thread_local int number = 0;
    return number;
  }
  std::string name_;
};

// GDAL's options for drawings, for this thread and while it lives.
class DrawingOptions {
 public:
  DrawingOptions() {
    set("DXF_INLINE_BLOCKS", "TRUE");
    set("DXF_MERGE_BLOCK_GEOMETRIES", "FALSE");  // else the layers inside blocks are lost
    set("DXF_INCLUDE_RAW_CODE_VALUES", "TRUE");  // width of polylines, code 43
    set("OGR_ARC_STEPSIZE", "0.5");              // kArcStepDegrees
  }
  ~DrawingOptions() {
    for (const auto& name : names_) CPLSetThreadLocalConfigOption(name.c_str(), nullptr);
  }
  DrawingOptions(const DrawingOptions&) = delete;
  DrawingOptions& operator=(const DrawingOptions&) = delete;

 private:
  void set(const std::string& name, const char* value) {
    CPLSetThreadLocalConfigOption(name.c_str(), value);
    names_.push_back(name);
  }
  std::vector<std::string> names_;
};

// Widths of a polyline by group code 43, in drawing units; 0 where there is none.
double drawn_width(OGRFeature& feature) {
  const int field = feature.GetFieldIndex("RawCodeValues");
  if (field < 0 || feature.IsFieldSetAndNotNull(field) == 0) return 0;
  char** values = feature.GetFieldAsStringList(field);
  for (int i = 0; values != nullptr && values[i] != nullptr; ++i) {
    const std::string_view value = values[i];
    if (value.starts_with("43 ")) return number_from(value.substr(3)).value_or(0);
  }
  return 0;
}

// A layer's name without a last word that says what kind of thing it holds.
std::string without_kind(const std::string& layer) {
  constexpr std::size_t kTelling = 3;  // letters: "V" of V-TREE tells nothing by itself
  const auto cut = layer.find_last_of("-_ ");
  if (cut == std::string::npos || cut < kTelling) return layer;
  return layer_kind_from(layer.substr(cut + 1)) ? layer.substr(0, cut) : layer;
}

class DrawingReading {
 public:
  DrawingReading(const SourceJob& job, Import& import, const DxfDrawing& drawing)
      : job_(job),
        import_(import),
        drawing_(drawing),
        works_(import, job.log),
        evidence_(job.log) {}

  Outcome read(std::string_view text) {
    ROOTSTEAD_TRY(asked_, drawn_kind_asked_for(job_));
    ROOTSTEAD_TRY(unit_, drawing_unit());
    const std::string crs = job_.map() == nullptr ? "" : job_.map()->crs;
    ROOTSTEAD_TRY(georeference_, Georeference::make({crs, unit_}, job_.project, job_.name()));
    DxfSymbols symbols =
        take_symbols(drawing_, text, [this](const std::string& layer, const std::string& block) {
          return is_tree(layer, block);
        });
    report_skipped_kinds();
    if (symbols.cut_short)
      job_.log.add(NoteCode::not_taken, "", "blocks within blocks are too deep or too many",
                   "explode the blocks that hold the tree symbols");
    ROOTSTEAD_CHECK(read_geometry(symbols.rest));
    ROOTSTEAD_CHECK(read_trees(symbols.symbols));
    import_.evidence = evidence_.finish();
    report_layers();
    report_place();
    import_.mapping = to_toml(used_);
    if (!job_.options.layer.empty() && !seen_layer_)
      return Error{Code::unknown_name, job_.name(),
                   "there is no layer \"" + job_.options.layer + "\" with anything on it",
                   "use one of: " + joined(layers_seen(), ", ")};
    return Nothing{};
  }

 private:
  std::vector<std::string> layers_seen() const {
    std::set<std::string> names;
    for (const DxfEntity& entity : drawing_.entities)
      names.insert(decoded(std::string(entity.layer)).text);
    return {names.begin(), names.end()};
  }

  // The unit that is said, or that --length-unit answers: a drawing without one has no scale.
  Result<LengthUnit> drawing_unit() {
    const auto in_file = drawing_.insunits ? dxf_unit(*drawing_.insunits) : std::nullopt;
    const auto said = job_.options.length_unit;
    if (!in_file && !said) {
      const bool other = drawing_.insunits.value_or(0) != 0;
      const std::string number = other ? std::to_string(*drawing_.insunits) : "";
      return Error{Code::unit_missing, job_.name(),
                   other ? "its unit ($INSUNITS " + number + ") is none a site is drawn in"
                         : "the drawing does not say its unit ($INSUNITS is missing or 0)",
                   "measure a known distance in it and answer with --length-unit m, mm, cm, ft, "
                   "us-ft or in"};
    }
    if (in_file && said && *in_file != *said)
      job_.log.add(NoteCode::assumed_in_reading, "",
                   "the drawing says its unit is " + std::string(symbol(*in_file)) +
                       "; it is read in " + std::string(symbol(*said)) + " as told",
                   "leave --length-unit out if the drawing is right");
    const LengthUnit unit = said ? *said : *in_file;
    if (!said && unit == LengthUnit::foot && job_.project.file_unit == LengthUnit::us_survey_foot)
      job_.log.add(NoteCode::assumed_in_reading, "",
                   "the drawing is in international feet, the project's system in US survey feet: "
                   "at 2,000,000 ft they are 4 ft apart",
                   "answer with --length-unit us-ft if the survey foot is meant");
    return unit;
  }

  LayerChoice choice_for(const std::string& layer) const {
    static const std::map<std::string, std::string> kNone;
    if (!job_.options.layer.empty() && job_.options.layer != layer)
      return {LayerKind{}, "another layer was asked for"};
    const auto& kinds = job_.map() != nullptr ? job_.map()->layer_kinds : kNone;
    return choose_layer_kind(layer, kinds, asked_, layers_seen().size() > 1);
  }

  const LayerChoice& known_choice(const std::string& layer) {
    const auto found = choices_.find(layer);
    return found != choices_.end() ? found->second
                                   : choices_.emplace(layer, choice_for(layer)).first->second;
  }

  // On a tree layer, or a block whose name says tree on a layer that says nothing else.
  bool is_tree(const std::string& layer, const std::string& block) {
    const LayerChoice& choice = known_choice(layer);
    if (choice.kind && choice.kind->target == Target::trees) return true;
    if (choice.kind || block.empty()) return false;
    const auto by_block = guessed_layer_kind(block);
    return by_block && by_block->target == Target::trees;
  }

  void count_not_taken(const std::string& layer, const std::string& why) {
    ++not_taken_[{layer, why}];
  }

  void report_skipped_kinds() {
    std::map<std::string, std::size_t> counts;
    for (const DxfEntity& entity : drawing_.entities) {
      if (entity.paper_space) {
        ++paper_space_;
      } else if (!dxf_skip_reason(entity.kind).empty()) {
        ++counts[std::string(entity.kind)];
        ++import_.rows_read;
      }
    }
    for (const auto& [kind, count] : counts)
      job_.log.add(
          NoteCode::not_taken, "",
          std::to_string(count) + " " + kind + " not taken: " + std::string(dxf_skip_reason(kind)),
          "draw what matters as lines, outlines or symbols");
    if (paper_space_ > 0)
      job_.log.add(NoteCode::not_taken, "",
                   std::to_string(paper_space_) + " entities of sheet layouts not taken",
                   "what is built is drawn in model space");
  }

  Outcome read_geometry(std::string& text) {
    GDALAllRegister();
    const QuietGdal quiet;
    const DrawingOptions options;
    const MemoryFile file(text);
    constexpr const char* kDrivers[] = {"DXF", nullptr};
    const GDALDatasetUniquePtr data(GDALDataset::Open(
        file.name().c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY, kDrivers, nullptr, nullptr));
    if (!data || data->GetLayerCount() == 0)
      return Error{Code::format_broken, job_.name(),
                   "the drawing cannot be read (" + quiet.last_message() + ")",
                   "save it again as DXF (ASCII)"};
    used_ = job_.map() == nullptr ? ColumnMap{} : *job_.map();
    used_.fields.clear();
    ROOTSTEAD_TRY(const FieldTable table, work_table());
    for (const auto& feature : *data->GetLayer(0)) ROOTSTEAD_CHECK(read_feature(*feature, table));
    return read_outlines(table);
  }

  // Works and barriers of a drawing have one cell: the drawn width.
  Result<FieldTable> work_table() const {
    ColumnMap map = used_;
    map.fields["width"] = {"width", unit_};
    return FieldTable::make(map, {"width"}, job_.name());
  }

  Outcome read_feature(OGRFeature& feature, const FieldTable& table) {
    ++import_.rows_read;
    const std::string layer = feature.GetFieldAsString("Layer");
    seen_layer_ = seen_layer_ || layer == job_.options.layer;
    const LayerChoice& choice = known_choice(layer);
    if (!choice.kind || choice.kind->target == Target::skip) {
      count_not_taken(layer, choice.kind ? choice.why_not : "nothing says what it is");
      return Nothing{};
    }
    const OGRGeometry* geometry = feature.GetGeometryRef();
    if (geometry == nullptr || geometry->IsEmpty() != 0) {
      count_not_taken(layer, "it has no shape");
      return Nothing{};
    }
    Record record = record_of(feature, layer, *geometry);
    if (choice.kind->target == Target::trees) {
      outlines_of_trees_.push_back(std::move(record));
      layers_of_outlines_.push_back(layer);
      return Nothing{};
    }
    if (!record.shape->points.empty() && record.shape->lines.empty() &&
        record.shape->areas.empty() && !takes_points(*choice.kind)) {
      count_not_taken(layer, "a point has no extent");
      return Nothing{};
    }
    if (takes_areas(*choice.kind) && is_open_line(*record.shape)) {
      open_lines_[layer].push_back(std::move(record));
      return Nothing{};
    }
    return choice.kind->target == Target::evidence ? evidence_.read(record, table, *choice.kind)
                                                   : works_.read(record, table, *choice.kind);
  }

  static bool takes_points(const LayerKind& kind) {
    return kind.target == Target::evidence || kind.target == Target::gate ||
           (kind.target == Target::work && kind.work == WorkKind::fence_posts);
  }

  static bool is_open_line(const Shape& shape) {
    constexpr double kClosed = 0.001;  // m
    if (!shape.areas.empty() || shape.lines.size() != 1) return false;
    const Line& line = shape.lines.front();
    return distance(line.front(), line.back()).metres() > kClosed || line.size() < 4;
  }

  // A drawing names nothing: its things are numbered by layer, "STORM-DRAIN-1" on the layer
  // STORM-DRAIN-TRENCH, past what other sources have numbered so.
  std::string numbered(const std::string& layer) {
    const std::string what = without_kind(layer);
    while (true) {
      std::string id = what + "-" + std::to_string(++numbers_[what]);
      const auto taken = job_.options.taken.find(id);
      if (taken == job_.options.taken.end() || taken->second == job_.name()) return id;
    }
  }

  Record record_of(OGRFeature& feature, const std::string& layer, const OGRGeometry& geometry) {
    const std::string handle = feature.GetFieldAsString("EntityHandle");
    const std::string name = handle.empty() ? std::to_string(feature.GetFID() + 1) : handle;
    Record record;
    record.place = "layer " + layer + " entity " + name;
    record.spare_id = numbered(layer);
    const double width = drawn_width(feature);
    constexpr double kHairline = 1e-6;  // drawing units: some programs write it for "no width"
    record.cells = {width > kHairline ? shortest_number(width) : ""};
    const auto place = [this](Point point) { return georeference_->to_project(point); };
    ShapeReading reading = shape_of(geometry, place);
    for (const std::string& doubt : reading.doubts)
      job_.log.add(NoteCode::shape_doubtful, record.place, doubt, "correct it in the drawing");
    for (const Point& point : reading.shape.points) note_place(point);
    for (const Line& line : reading.shape.lines) note_place(line.front());
    for (const Polygon& area : reading.shape.areas) note_place(area.outer.front());
    record.shape = std::move(reading.shape);
    return record;
  }

  // Outlines drawn as single lines and arcs: what closes becomes an area, the rest is reported.
  Outcome read_outlines(const FieldTable& table) {
    for (auto& [layer, records] : open_lines_) {
      const MultiPolygon areas = closed_by(records);
      const std::string places = "layer " + layer;
      for (std::size_t i = 0; i < areas.size(); ++i) {
        Record record;
        record.place = places + " outline " + std::to_string(i + 1);
        record.spare_id = numbered(layer);
        record.cells = {""};
        record.shape = Shape{{}, {areas[i]}, {}};
        ROOTSTEAD_CHECK(works_.read(record, table, *known_choice(layer).kind));
      }
      if (!areas.empty())
        job_.log.add(NoteCode::assumed_in_reading, places,
                     std::to_string(records.size()) + " single lines and arcs were joined to " +
                         std::to_string(areas.size()) +
                         (areas.size() == 1 ? " outline" : " outlines"),
                     "check them on the plan");
      if (areas.empty())
        job_.log.add(NoteCode::not_taken, places,
                     std::to_string(records.size()) + " open lines not taken: an area is needed",
                     "close the outlines in the drawing");
    }
    return Nothing{};
  }

  static MultiPolygon closed_by(const std::vector<Record>& records) {
    OGRGeometryCollection lines;
    for (const Record& record : records) {
      OGRLineString line;
      // A tenth of a millimetre: ends of lines and arcs that meet in the drawing meet here.
      constexpr double kGrid = 1e-4;
      for (const Point& p : record.shape->lines.front())
        line.addPoint(std::round(p.x / kGrid) * kGrid, std::round(p.y / kGrid) * kGrid);
      lines.addGeometry(&line);
    }
    const std::unique_ptr<OGRGeometry> areas(lines.Polygonize());
    if (!areas) return {};
    return shape_of(*areas, [](Point point) { return point; }).shape.areas;
  }

  Outcome read_trees(const std::vector<DxfSymbol>& symbols) {
    if (symbols.empty() && outlines_of_trees_.empty()) return Nothing{};
    std::vector<std::string> header{"symbol", "symbol radius"};
    for (const DxfSymbol& symbol : symbols) {
      for (const auto& [tag, text] : symbol.attributes) {
        if (std::find(header.begin(), header.end(), tag) == header.end()) header.push_back(tag);
      }
    }
    ROOTSTEAD_TRY(const FieldTable table, tree_table(header));
    TreeReader reader(table, *georeference_, true, job_.log);
    std::vector<Point> centres;
    for (const DxfSymbol& symbol : symbols) {
      ++import_.rows_read;
      seen_layer_ = seen_layer_ || symbol.layer == job_.options.layer;
      const Record record = record_of(symbol, header);
      centres.push_back(record.shape->points.front());
      ROOTSTEAD_CHECK(as_drawing_error(reader.read(record)));
    }
    for (std::size_t i = 0; i < outlines_of_trees_.size(); ++i) {
      Record record = outlines_of_trees_[i];
      record.cells.assign(header.size(), "");
      if (!is_new_circle(record, centres)) {
        count_not_taken(layers_of_outlines_[i],
                        "on a tree layer only symbols, points and circles are trees");
        continue;
      }
      ROOTSTEAD_CHECK(as_drawing_error(reader.read(record)));
    }
    import_.trees = reader.finish();
    return Nothing{};
  }

  // A closed curve that is a circle, and not one drawn around a tree that has its symbol.
  static bool is_new_circle(const Record& record, std::vector<Point>& centres) {
    const Shape& shape = *record.shape;
    if (!shape.points.empty()) return true;
    Ring ring = shape.areas.empty() ? shape.lines.front() : shape.areas.front().outer;
    const auto circle = circle_through(ring);
    if (!circle) return false;
    constexpr double kSamePlace = 0.05;  // m
    for (const Point& centre : centres) {
      if (distance(centre, circle->centre).metres() < kSamePlace) return false;
    }
    centres.push_back(circle->centre);
    return true;
  }

  Result<FieldTable> tree_table(const std::vector<std::string>& header) {
    const ColumnMap* given = job_.map();
    if (given != nullptr && !given->fields.empty()) {
      used_.fields = given->fields;
    } else {
      used_.fields = propose_columns(header, "trees").fields;
      if (!used_.fields.contains("notes")) used_.fields["notes"] = {"symbol", {}};
    }
    return FieldTable::make(used_, header, job_.name());
  }

  Record record_of(const DxfSymbol& symbol, const std::vector<std::string>& header) {
    Record record;
    const std::string name =
        symbol.handle.empty() ? std::to_string(import_.rows_read) : symbol.handle;
    record.place = "layer " + symbol.layer + " entity " + name;
    record.spare_id = numbered(symbol.layer);
    record.cells.assign(header.size(), "");
    record.cells[0] = symbol.block.empty() ? "" : "symbol " + symbol.block;
    if (symbol.radius > 0)
      record.cells[1] =
          shortest_number(symbol.radius) + " " + std::string(rootstead::symbol(unit_));
    for (const auto& [tag, text] : symbol.attributes) {
      const auto at = std::find(header.begin(), header.end(), tag) - header.begin();
      record.cells[static_cast<std::size_t>(at)] = text;
    }
    const Point at = georeference_->to_project(symbol.at);
    note_place(at);
    record.shape = Shape{{}, {}, {at}};
    return record;
  }

  // --length-unit is the drawing's unit, so it cannot also be that of a number in a symbol.
  static Outcome as_drawing_error(Outcome outcome) {
    if (outcome || outcome.error().code != Code::unit_missing) return outcome;
    Error error = outcome.error();
    const auto map = error.remedy.find("in a column map");
    if (map != std::string::npos) error.remedy = "answer " + error.remedy.substr(map);
    return error;
  }

  void note_place(const Point& point) {
    ++places_;
    if (!georeference_->in_area(point)) ++places_outside_;
  }

  void report_layers() {
    for (const auto& [what, count] : not_taken_)
      job_.log.add(NoteCode::not_taken, "layer " + what.first,
                   std::to_string(count) + (count == 1 ? " entity" : " entities") +
                       " not taken: " + what.second,
                   "name the layer in [layers] of a column map to take it");
  }

  void report_place() {
    georeference_->report(job_.log);
    if (places_outside_ * 2 <= places_) return;
    job_.log.add(NoteCode::outside_site, "",
                 "the drawing lies outside the area of " + job_.project.code +
                     "; it may be drawn about an origin of its own, or in another unit",
                 "move it to the survey grid, or check its unit");
  }

  const SourceJob& job_;
  Import& import_;
  const DxfDrawing& drawing_;
  WorkReader works_;
  EvidenceReader evidence_;
  std::optional<LayerKind> asked_;
  LengthUnit unit_ = LengthUnit::metre;
  std::optional<Georeference> georeference_;
  ColumnMap used_;
  std::map<std::string, LayerChoice> choices_;
  std::map<std::pair<std::string, std::string>, std::size_t> not_taken_;  // layer and why
  std::map<std::string, std::vector<Record>> open_lines_;
  std::map<std::string, int> numbers_;  // given so far, by what they number
  std::vector<Record> outlines_of_trees_;
  std::vector<std::string> layers_of_outlines_;
  std::size_t paper_space_ = 0, places_ = 0, places_outside_ = 0;
  bool seen_layer_ = false;
};

}  // namespace

Outcome read_dxf(const SourceJob& job, Import& import) {
  ROOTSTEAD_TRY(const std::string text, read_bytes(job.file));
  ROOTSTEAD_TRY(const DxfDrawing drawing, scan_dxf(text, job.name()));
  return DrawingReading(job, import, drawing).read(text);
}

}  // namespace rootstead::io
