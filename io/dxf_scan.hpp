// A first look at an ASCII DXF drawing: what GDAL hides (the unit, the version, counts by kind) and
// where each entity stands in the text. Geometry is read by GDAL (import_drawing.cpp); this
// scanner knows pairs of group code and value, sections, and nothing of curves.
// Source: the group codes and $INSUNITS values published in the DXF reference.
#pragma once

#include <cstddef>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/result.hpp"
#include "engine/base/units.hpp"

namespace rootstead::io {

struct DxfGroup {
  int code = 0;
  std::string_view value;  // trimmed
};

struct DxfEntity {
  std::string_view kind;    // "LWPOLYLINE"
  std::string_view layer;   // "0" where none is given
  std::string_view handle;  // may be empty in old drawings
  bool paper_space = false;
  std::size_t begin = 0, end = 0;  // bytes in the text, with its vertices and attributes
  std::vector<DxfGroup> groups;
  std::vector<DxfEntity> parts;  // VERTEX and ATTRIB

  std::optional<std::string_view> text(int code) const;
  double number(int code, double otherwise) const;
};

struct DxfBlock {
  double base_x = 0, base_y = 0;
  std::vector<DxfEntity> entities;
};

// Views into the scanned text, which must outlive it.
struct DxfDrawing {
  std::string version;          // "AC1021"; empty without a header
  std::optional<int> insunits;  // as written; nothing where the header does not say
  std::vector<std::string_view> layers;
  std::map<std::string_view, DxfBlock> blocks;
  std::vector<DxfEntity> entities;  // model and paper space
};

// Fails with format_broken, naming the line, where the text is no DXF, and with format_unknown for
// binary DXF and DWG.
Result<DxfDrawing> scan_dxf(std::string_view text, const std::string& file);

// Metres a drawing unit by $INSUNITS: 1 inch, 2 foot, 4 mm, 5 cm, 6 m, 21 US survey foot. Nothing
// for 0 and for units no site is drawn in.
std::optional<LengthUnit> dxf_unit(int insunits);

// Why entities of this kind are not read; empty where they are.
std::string_view dxf_skip_reason(std::string_view kind);

struct DxfSummary {
  std::string version;
  std::optional<int> insunits;
  std::vector<std::string> layers;
  std::map<std::string, std::size_t> model_space;  // entities by kind
  std::map<std::string, std::string> skipped;      // kind -> why it is not read
};
Result<DxfSummary> dxf_summary(const std::filesystem::path& file);

}  // namespace rootstead::io
