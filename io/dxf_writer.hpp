// A small writer of drawings in the DXF of AutoCAD 2000 (AC1015), the oldest with light polylines
// and layer line widths, which every later program reads. Western letters are bytes of code
// page 1252, others are written as \U+XXXX, as the format prescribes.
// Source: Autodesk, DXF Reference (2000 and later): groups, tables and handles.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/geom/shapes.hpp"

namespace rootstead::io {

struct DxfLineType {
  std::string name;
  std::string picture;          // "__ . __ .", shown by the drawing program
  std::vector<double> pattern;  // drawing units: dashes above zero, gaps below, dots zero
};

struct DxfLayer {
  std::string name;        // letters, digits, "_", "-" and "$"
  int colour = 7;          // colour index, 1 to 255; 7 is black or white
  std::string line_type;   // "CONTINUOUS" or the name of a DxfLineType
  int hundredths_mm = 25;  // line width on paper
};

// Unit codes of $INSUNITS.
enum class DxfUnit { foot = 2, metre = 6, us_survey_foot = 21 };

// Coordinates are drawing units throughout.
class DxfWriter {
 public:
  explicit DxfWriter(DxfUnit unit) : unit_(unit) {}

  void add_line_type(DxfLineType type) { line_types_.push_back(std::move(type)); }
  void add_layer(DxfLayer layer);  // the second of a name is left out
  bool has_layer(const std::string& name) const;
  const std::vector<DxfLayer>& layers() const { return layers_; }
  void add_comment(const std::string& line) { comments_.push_back(line); }  // head of the file

  void point(const std::string& layer, const Point& at);
  void circle(const std::string& layer, const Point& centre, double radius);
  // `width` above zero draws the line that wide.
  void polyline(const std::string& layer, const Line& points, bool closed, double width = 0);
  // One line of text, its lower left corner at `at`.
  void text(const std::string& layer, const Point& at, double height, const std::string& words);

  Box extents() const { return extents_; }
  std::string file() const;

 private:
  void begin(const char* kind, const std::string& layer, const char* subclass);
  void grow(const Point& at, double by = 0);
  DxfUnit unit_;
  std::vector<DxfLineType> line_types_;
  std::vector<DxfLayer> layers_;
  std::vector<std::string> comments_;
  std::string entities_;
  std::int64_t entity_count_ = 0;
  Box extents_;
};

// What DXF can hold: letters of Latin-1 as bytes, typographic quotes and dashes as plain ones,
// other letters as \U+XXXX, line breaks as blanks.
std::string dxf_text(const std::string& utf8);
// Upper case letters, digits and "_" only.
std::string dxf_layer_name(const std::string& words);

}  // namespace rootstead::io
