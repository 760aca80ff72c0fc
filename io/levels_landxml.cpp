// LandXML 1.0 to 2.0: surfaces of triangles. Read as a stream by expat; nothing is fetched, no
// entity is expanded beyond expat's own bounds. Points are northing, easting, height.
#include <expat.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>
#include <memory>
#include <unordered_map>

#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/import_coordinates.hpp"
#include "io/levels_source.hpp"

namespace rootstead::io {
namespace {

constexpr std::size_t kMostThings = 20'000'000;  // points or faces of one file
constexpr std::size_t kLongestText = 4096;       // of one point or face

struct FaceRow {
  std::array<std::string, 4> corners;  // ids of points, as written
  std::size_t count = 0;
  bool hidden = false;
};

struct XmlSurface {
  std::string name, kind;
  std::vector<LevelPoint> points;  // at: x east, y north, as written
  std::unordered_map<std::string, std::uint32_t> number_of;
  std::vector<FaceRow> faces;
  std::size_t points_by_reference = 0;
  bool has_definition = false, has_source_data = false;
};

struct XmlFile {
  bool is_landxml = false, has_units = false;
  std::string linear_unit, elevation_unit, system_name, epsg, vertical_datum;
  std::vector<XmlSurface> surfaces;
};

std::string local_name(const char* name) {
  const char* colon = std::strrchr(name, '|');  // expat joins namespace and name with it
  return colon == nullptr ? name : colon + 1;
}

// Words parted by blanks, at most `most`.
std::vector<std::string_view> words_of(std::string_view text, std::size_t most) {
  std::vector<std::string_view> words;
  std::size_t at = 0;
  constexpr std::string_view kBlank = " \t\r\n";
  while (words.size() < most) {
    at = text.find_first_not_of(kBlank, at);
    if (at == std::string_view::npos) break;
    const std::size_t end = std::min(text.find_first_of(kBlank, at), text.size());
    words.push_back(text.substr(at, end - at));
    at = end;
  }
  return words;
}

class Parsing {
 public:
  Parsing() : parser_(XML_ParserCreateNS(nullptr, '|')) {
    XML_SetUserData(parser_.get(), this);
    XML_SetElementHandler(parser_.get(), &Parsing::on_start, &Parsing::on_end);
    XML_SetCharacterDataHandler(parser_.get(), &Parsing::on_text);
  }

  Result<XmlFile> parse(const std::string& bytes, const std::string& file) {
    constexpr std::size_t kPiece = std::size_t{1} << 20;
    for (std::size_t at = 0; at < bytes.size() || at == 0; at += kPiece) {
      const std::size_t size = std::min(kPiece, bytes.size() - at);
      const bool last = at + size >= bytes.size();
      const auto status =
          XML_Parse(parser_.get(), bytes.data() + at, static_cast<int>(size), last ? 1 : 0);
      if (!fault_.empty())
        return Error{Code::format_broken, at_line(file), fault_, "export it again"};
      if (status == XML_STATUS_ERROR) {
        return Error{Code::format_broken, at_line(file),
                     "the XML is broken (" +
                         std::string(XML_ErrorString(XML_GetErrorCode(parser_.get()))) + ")",
                     "export it again, whole"};
      }
    }
    return std::move(read_);
  }

 private:
  struct Free {
    void operator()(XML_Parser parser) const { XML_ParserFree(parser); }
  };

  std::string at_line(const std::string& file) const {
    return file + " line " + std::to_string(XML_GetCurrentLineNumber(parser_.get()));
  }

  static void on_start(void* self, const char* name, const char** attributes) {
    static_cast<Parsing*>(self)->start(local_name(name), attributes);
  }
  static void on_end(void* self, const char* name) {
    static_cast<Parsing*>(self)->end(local_name(name));
  }
  static void on_text(void* self, const char* text, int size) {
    static_cast<Parsing*>(self)->text({text, static_cast<std::size_t>(size)});
  }

  static std::string value_of(const char** attributes, std::string_view name) {
    for (; *attributes != nullptr; attributes += 2) {
      if (name == local_name(attributes[0])) return attributes[1];
    }
    return {};
  }

  void stop(std::string fault) {
    fault_ = std::move(fault);
    XML_StopParser(parser_.get(), XML_FALSE);
  }

  void start(const std::string& name, const char** attributes) {
    if (name == "LandXML") read_.is_landxml = true;
    if (name == "Metric" || name == "Imperial") take_units(name, attributes);
    if (name == "CoordinateSystem") take_system(attributes);
    if (name == "Surface") {
      read_.surfaces.push_back({});
      read_.surfaces.back().name = value_of(attributes, "name");
      in_surface_ = true;
    }
    if (!in_surface_) return;
    XmlSurface& surface = read_.surfaces.back();
    if (name == "SourceData") surface.has_source_data = true;
    if (name == "Definition") {
      surface.kind = value_of(attributes, "surfType");
      surface.has_definition = in_definition_ = true;
    }
    if (!in_definition_ || (name != "P" && name != "F")) return;
    in_row_ = true;
    row_text_.clear();
    id_ = value_of(attributes, "id");
    by_reference_ = !value_of(attributes, "pntRef").empty();
    const std::string invisible = lower_case(value_of(attributes, "i"));
    hidden_ = invisible == "1" || invisible == "true" ||
              lower_case(value_of(attributes, "state")) == "hidden";
  }

  void take_units(const std::string& name, const char** attributes) {
    read_.has_units = true;
    read_.linear_unit = value_of(attributes, "linearUnit");
    if (read_.linear_unit.empty()) read_.linear_unit = name == "Metric" ? "meter" : "";
    read_.elevation_unit = value_of(attributes, "elevationUnit");
  }

  void take_system(const char** attributes) {
    read_.epsg = value_of(attributes, "epsgCode");
    read_.system_name = value_of(attributes, "name");
    read_.vertical_datum = value_of(attributes, "verticalDatum");
    if (read_.vertical_datum.empty())
      read_.vertical_datum = value_of(attributes, "verticalCoordinateSystemName");
  }

  void text(std::string_view part) {
    if (!in_row_) return;
    if (row_text_.size() + part.size() > kLongestText) return stop("a point or face is too long");
    row_text_ += part;
  }

  void end(const std::string& name) {
    if (name == "Surface") in_surface_ = false;
    if (name == "Definition") in_definition_ = false;
    if (!in_row_ || (name != "P" && name != "F")) return;
    in_row_ = false;
    name == "P" ? take_point() : take_face();
  }

  void take_point() {
    XmlSurface& surface = read_.surfaces.back();
    if (by_reference_) {
      ++surface.points_by_reference;
      return;
    }
    const auto words = words_of(row_text_, 4);
    if (words.size() < 3) return stop("point " + id_ + " has not three numbers");
    std::array<double, 3> numbers{};
    for (std::size_t i = 0; i < 3; ++i) {
      const auto number = number_from(words[i]);
      if (!number || !std::isfinite(*number)) {
        return stop("point " + id_ + " has \"" + std::string(words[i]) +
                    "\" where a number is expected");
      }
      numbers[i] = *number;
    }
    if (surface.points.size() >= kMostThings) return stop("it has too many points");
    if (id_.empty()) id_ = std::to_string(surface.points.size() + 1);
    const auto number = static_cast<std::uint32_t>(surface.points.size());
    if (!surface.number_of.emplace(id_, number).second) return stop("point " + id_ + " is twice");
    surface.points.push_back({{numbers[1], numbers[0]}, numbers[2]});  // northing comes first
  }

  void take_face() {
    XmlSurface& surface = read_.surfaces.back();
    const auto words = words_of(row_text_, 5);
    if (words.size() < 3 || words.size() > 4) return stop("a face has not three or four points");
    if (surface.faces.size() >= kMostThings) return stop("it has too many faces");
    FaceRow face;
    face.count = words.size();
    for (std::size_t i = 0; i < words.size(); ++i) face.corners[i] = words[i];
    face.hidden = hidden_;
    surface.faces.push_back(std::move(face));
  }

  std::unique_ptr<std::remove_pointer_t<XML_Parser>, Free> parser_;
  XmlFile read_;
  std::string row_text_, id_, fault_;
  bool in_surface_ = false, in_definition_ = false, in_row_ = false;
  bool hidden_ = false, by_reference_ = false;
};

std::optional<LengthUnit> xml_unit(const std::string& word) {
  const std::string lower = lower_case(word);
  if (lower == "meter" || lower == "metre") return LengthUnit::metre;
  if (lower == "millimeter") return LengthUnit::millimetre;
  if (lower == "centimeter") return LengthUnit::centimetre;
  if (lower == "foot" || lower == "feet") return LengthUnit::foot;
  if (lower == "ussurveyfoot") return LengthUnit::us_survey_foot;
  if (lower == "inch") return LengthUnit::inch;
  return std::nullopt;
}

Result<LengthUnit> plan_unit(const LevelsJob& job, const XmlFile& file) {
  if (job.options.length_unit) return *job.options.length_unit;
  if (const auto unit = xml_unit(file.linear_unit)) return *unit;
  const bool none = !file.has_units || file.linear_unit.empty();
  return Error{Code::unit_missing, job.name(),
               none ? "the file does not say its unit of length (no Units)"
                    : "its unit of length \"" + file.linear_unit + "\" is none of a survey",
               "answer with --length-unit m, ft or us-ft"};
}

std::string names_of(const std::vector<XmlSurface>& surfaces) {
  std::vector<std::string> names;
  for (const XmlSurface& surface : surfaces) names.push_back("\"" + surface.name + "\"");
  return joined(names, ", ");
}

Result<std::size_t> chosen_surface(const LevelsJob& job, const XmlFile& file) {
  const auto& surfaces = file.surfaces;
  if (surfaces.empty()) {
    return Error{Code::empty_geometry, job.name(), "it holds no surface",
                 "export the surface as triangles (TIN) to LandXML"};
  }
  if (job.options.surface.empty()) {
    if (surfaces.size() == 1) return std::size_t{0};
    return Error{Code::wrong_use, job.name(),
                 "it holds " + std::to_string(surfaces.size()) + " surfaces: " + names_of(surfaces),
                 "say which with --surface"};
  }
  for (std::size_t i = 0; i < surfaces.size(); ++i) {
    if (surfaces[i].name == job.options.surface) return i;
  }
  return Error{Code::unknown_name, job.name(),
               "there is no surface \"" + job.options.surface + "\"",
               "use one of: " + names_of(surfaces)};
}

// Faces by number of point; hidden ones are left out, faces of four become two triangles.
Result<TriangleMesh> mesh_of(const LevelsJob& job, XmlSurface& surface) {
  TriangleMesh mesh;
  std::size_t hidden = 0;
  for (const FaceRow& face : surface.faces) {
    if (face.hidden) {
      ++hidden;
      continue;
    }
    std::array<std::uint32_t, 4> numbers{};
    for (std::size_t i = 0; i < face.count; ++i) {
      const auto found = surface.number_of.find(face.corners[i]);
      if (found == surface.number_of.end()) {
        return Error{Code::format_broken, job.name() + ", surface " + surface.name,
                     "a face names point " + face.corners[i] + ", which is not there",
                     surface.points_by_reference > 0
                         ? "export it with the coordinates of its points, not with references"
                         : "export it again, whole"};
      }
      numbers[i] = found->second;
    }
    mesh.triangles.push_back({numbers[0], numbers[1], numbers[2]});
    if (face.count == 4) mesh.triangles.push_back({numbers[0], numbers[2], numbers[3]});
  }
  mesh.points = std::move(surface.points);
  if (hidden > 0) {
    job.log.add(
        NoteCode::levels_not_taken, "",
        counted_things(hidden, "face that is", "faces that are") + " marked invisible left out",
        "");
  }
  if (mesh.triangles.empty()) {
    return Error{Code::empty_geometry, job.name() + ", surface " + surface.name,
                 surface.has_source_data && !surface.has_definition
                     ? "it holds points or breaklines but no triangles"
                     : "it has no triangles",
                 "export the surface as triangles (TIN) to LandXML"};
  }
  return mesh;
}

Outcome to_project(const LevelsJob& job, const XmlFile& file, LengthUnit unit, double height_metres,
                   TriangleMesh& mesh) {
  std::string crs;
  if (!file.epsg.empty()) crs = "EPSG:" + file.epsg;
  if (crs.empty()) {
    job.log.add(NoteCode::assumed_in_reading, "",
                "it names no reference system by number" +
                    (file.system_name.empty() ? "" : " (only \"" + file.system_name + "\")") +
                    ": its points are taken to be on the project's grid, " + job.project.code,
                "check one point against a known one");
  }
  ROOTSTEAD_TRY(const Georeference place, Georeference::make({crs, unit}, job.project, job.name()));
  std::vector<Point> places;
  places.reserve(mesh.points.size());
  for (const LevelPoint& point : mesh.points) places.push_back(point.at);
  place.report_exchanged(places, job.log);
  place.to_project(places);
  for (std::size_t i = 0; i < places.size(); ++i) {
    mesh.points[i].at = places[i];
    mesh.points[i].height *= height_metres;
  }
  place.report(job.log);
  return Nothing{};
}

}  // namespace

Result<ReadLevels> read_landxml(const LevelsJob& job) {
  ROOTSTEAD_TRY(const std::string bytes, read_bytes(job.file));
  ROOTSTEAD_TRY(XmlFile file, Parsing().parse(bytes, job.name()));
  if (!file.is_landxml) {
    return Error{Code::format_unknown, job.name(), "this XML is not LandXML",
                 "export the surface as LandXML 1.2"};
  }
  ROOTSTEAD_TRY(const std::size_t which, chosen_surface(job, file));
  XmlSurface& surface = file.surfaces[which];
  if (lower_case(surface.kind) == "grid") {
    return Error{Code::format_unknown, job.name() + ", surface " + surface.name,
                 "it is a grid surface", "export it as triangles (TIN), or the grid as GeoTIFF"};
  }
  ROOTSTEAD_TRY(const LengthUnit unit, plan_unit(job, file));
  const auto said = file.elevation_unit.empty() ? unit : xml_unit(file.elevation_unit);
  ROOTSTEAD_TRY(const LengthUnit heights, height_unit(job, said, unit));
  ROOTSTEAD_TRY(TriangleMesh mesh, mesh_of(job, surface));
  ROOTSTEAD_CHECK(to_project(job, file, unit, metres_per(heights), mesh));
  ReadLevels read;
  read.surface.name = surface.name;
  read.surface.vertical_datum = file.vertical_datum;
  read.understood = "LandXML, surface \"" + surface.name + "\", plan in " +
                    std::string(symbol(unit)) + ", heights in " + std::string(symbol(heights)) +
                    ", " + counted_things(mesh.points.size(), "point", "points") + ", " +
                    counted_things(mesh.triangles.size(), "triangle", "triangles");
  read.surface.levels = std::move(mesh);
  return read;
}

}  // namespace rootstead::io
