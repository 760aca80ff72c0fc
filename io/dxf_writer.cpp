#include "io/dxf_writer.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "engine/base/text.hpp"

namespace rootstead::io {
namespace {

// Handles of the fixed objects; those of layers and entities count up from kFirstFree.
enum Handle : std::int64_t {
  kBlockRecordTable = 0x1,
  kLayerTable = 0x2,
  kStyleTable = 0x3,
  kLineTypeTable = 0x5,
  kViewTable = 0x6,
  kUcsTable = 0x7,
  kViewportTable = 0x8,
  kAppIdTable = 0x9,
  kDimStyleTable = 0xA,
  kRootDictionary = 0xC,
  kGroupDictionary = 0xD,
  kLayer0 = 0x10,
  kStandardStyle = 0x11,
  kAcadAppId = 0x12,
  kByBlock = 0x14,
  kByLayer = 0x15,
  kContinuous = 0x16,
  kStandardDimStyle = 0x17,
  kActiveViewport = 0x18,
  kPaperSpace = 0x1B,
  kPaperBlock = 0x1C,
  kPaperBlockEnd = 0x1D,
  kModelSpace = 0x1F,
  kModelBlock = 0x20,
  kModelBlockEnd = 0x21,
  kLayoutDictionary = 0x22,
  kModelLayout = 0x23,
  kPaperLayout = 0x24,
  kPlotStyleDictionary = 0x25,
  kNormalPlotStyle = 0x26,
  kFirstFree = 0x100,
};

std::string hex(std::int64_t number) {
  std::array<char, 20> text{};
  std::snprintf(text.data(), text.size(), "%llX", static_cast<unsigned long long>(number));
  return text.data();
}

// Lines of group code and value.
class Groups {
 public:
  Groups& put(int code, const std::string& value) {
    text_ += std::to_string(code) + "\n" + value + "\n";
    return *this;
  }
  Groups& put(int code, const char* value) { return put(code, std::string(value)); }
  Groups& put(int code, int value) { return put(code, std::to_string(value)); }
  Groups& put(int code, double value) {
    const std::string number = shortest_number(value);
    const bool whole = number.find_first_of(".e") == std::string::npos;
    return put(code, whole ? number + ".0" : number);
  }
  Groups& handle(int code, std::int64_t value) { return put(code, hex(value)); }
  Groups& at(int code, const Point& point) {
    return put(code, point.x).put(code + 10, point.y).put(code + 20, 0.0);
  }
  Groups& add(const std::string& lines) {
    text_ += lines;
    return *this;
  }
  const std::string& text() const { return text_; }

 private:
  std::string text_;
};

std::string section(const char* name, const std::string& content) {
  return Groups().put(0, "SECTION").put(2, name).add(content).put(0, "ENDSEC").text();
}

std::string table(const char* name, std::int64_t handle, int count, const std::string& entries,
                  bool dimension_styles = false) {
  Groups out;
  out.put(0, "TABLE").put(2, name).handle(5, handle).handle(330, 0);
  out.put(100, "AcDbSymbolTable").put(70, count);
  if (dimension_styles) out.put(100, "AcDbDimStyleTable").put(71, 0);
  return out.add(entries).put(0, "ENDTAB").text();
}

Groups entry(const char* kind, std::int64_t handle, std::int64_t owner, const char* subclass,
             const std::string& name, int handle_code = 5) {
  Groups out;
  out.put(0, kind).handle(handle_code, handle).handle(330, owner);
  out.put(100, "AcDbSymbolTableRecord").put(100, subclass).put(2, name);
  return out;
}

std::string line_type(std::int64_t handle, const DxfLineType& type) {
  double length = 0;
  for (const double part : type.pattern) length += std::abs(part);
  Groups out = entry("LTYPE", handle, kLineTypeTable, "AcDbLinetypeTableRecord", type.name);
  out.put(70, 0).put(3, type.picture).put(72, 65);
  out.put(73, static_cast<int>(type.pattern.size())).put(40, length);
  for (const double part : type.pattern) out.put(49, part).put(74, 0);
  return out.text();
}

std::string layer(std::int64_t handle, const DxfLayer& layer) {
  Groups out = entry("LAYER", handle, kLayerTable, "AcDbLayerTableRecord", layer.name);
  out.put(70, 0).put(62, layer.colour).put(6, layer.line_type).put(370, layer.hundredths_mm);
  return out.handle(390, kNormalPlotStyle).text();
}

std::string viewport(const Box& box) {
  const double width = std::max(box.max_x - box.min_x, 1.0);
  const double height = std::max(box.max_y - box.min_y, 1.0);
  const Point centre{(box.min_x + box.max_x) / 2, (box.min_y + box.max_y) / 2};
  Groups out =
      entry("VPORT", kActiveViewport, kViewportTable, "AcDbViewportTableRecord", "*ACTIVE");
  out.put(70, 0).put(10, 0.0).put(20, 0.0).put(11, 1.0).put(21, 1.0);
  out.put(12, centre.x).put(22, centre.y).put(13, 0.0).put(23, 0.0).put(14, 1.0).put(24, 1.0);
  out.put(15, 0.0).put(25, 0.0).put(16, 0.0).put(26, 0.0).put(36, 1.0);
  out.put(17, 0.0).put(27, 0.0).put(37, 0.0);
  out.put(40, std::max(height, width / 1.5) * 1.1).put(41, 1.5).put(42, 50.0);
  out.put(43, 0.0).put(44, 0.0).put(50, 0.0).put(51, 0.0).put(71, 0).put(72, 100).put(73, 1);
  return out.put(74, 3).put(75, 0).put(76, 0).put(77, 0).put(78, 0).text();
}

std::string text_style() {
  Groups out = entry("STYLE", kStandardStyle, kStyleTable, "AcDbTextStyleTableRecord", "STANDARD");
  out.put(70, 0).put(40, 0.0).put(41, 1.0).put(50, 0.0).put(71, 0).put(42, 1.0);
  return out.put(3, "txt").put(4, "").text();
}

std::string block_record(std::int64_t handle, const char* name, std::int64_t layout) {
  return entry("BLOCK_RECORD", handle, kBlockRecordTable, "AcDbBlockTableRecord", name)
      .handle(340, layout)
      .text();
}

std::string block(const char* name, std::int64_t owner, std::int64_t begin, std::int64_t end,
                  bool paper) {
  Groups out;
  out.put(0, "BLOCK").handle(5, begin).handle(330, owner).put(100, "AcDbEntity");
  if (paper) out.put(67, 1);
  out.put(8, "0").put(100, "AcDbBlockBegin").put(2, name).put(70, 0).at(10, {});
  out.put(3, name).put(1, "");
  out.put(0, "ENDBLK").handle(5, end).handle(330, owner).put(100, "AcDbEntity");
  if (paper) out.put(67, 1);
  return out.put(8, "0").put(100, "AcDbBlockEnd").text();
}

Groups dictionary(std::int64_t handle, std::int64_t owner,
                  const std::vector<std::pair<const char*, std::int64_t>>& entries) {
  Groups out;
  out.put(0, "DICTIONARY").handle(5, handle).handle(330, owner).put(100, "AcDbDictionary");
  out.put(281, 1);
  for (const auto& [name, value] : entries) out.put(3, name).handle(350, value);
  return out;
}

// How a sheet would be plotted; every drawing of this version has one for the model and one more.
std::string layout(std::int64_t handle, const char* name, int order, std::int64_t space) {
  const bool model = order == 0;
  Groups out;
  out.put(0, "LAYOUT").handle(5, handle).handle(330, kLayoutDictionary);
  out.put(100, "AcDbPlotSettings").put(1, "").put(2, "none_device").put(4, "").put(6, "");
  for (const int code : {40, 41, 42, 43}) out.put(code, 0.0);            // margins
  out.put(44, 420.0).put(45, 297.0);                                     // paper, millimetres
  for (const int code : {46, 47, 48, 49, 140, 141}) out.put(code, 0.0);  // origin and window
  out.put(142, 1.0).put(143, 1.0).put(70, model ? 1024 : 688).put(72, 1).put(73, 0);
  out.put(74, 5).put(7, "").put(75, 16).put(147, 1.0).put(148, 0.0).put(149, 0.0);
  out.put(100, "AcDbLayout").put(1, name).put(70, 1).put(71, order);
  out.put(10, 0.0).put(20, 0.0).put(11, 420.0).put(21, 297.0).at(12, {}).at(14, {}).at(15, {});
  out.put(146, 0.0).at(13, {}).put(16, 1.0).put(26, 0.0).put(36, 0.0);
  return out.put(17, 0.0).put(27, 1.0).put(37, 0.0).put(76, 0).handle(330, space).text();
}

std::string objects() {
  Groups out;
  out.add(dictionary(kRootDictionary, 0,
                     {{"ACAD_GROUP", kGroupDictionary},
                      {"ACAD_LAYOUT", kLayoutDictionary},
                      {"ACAD_PLOTSTYLENAME", kPlotStyleDictionary}})
              .text());
  out.add(dictionary(kGroupDictionary, kRootDictionary, {}).text());
  out.add(dictionary(kLayoutDictionary, kRootDictionary,
                     {{"Model", kModelLayout}, {"Layout1", kPaperLayout}})
              .text());
  out.add(layout(kModelLayout, "Model", 0, kModelSpace));
  out.add(layout(kPaperLayout, "Layout1", 1, kPaperSpace));
  out.put(0, "ACDBDICTIONARYWDFLT").handle(5, kPlotStyleDictionary).handle(330, kRootDictionary);
  out.put(100, "AcDbDictionary").put(281, 1).put(3, "Normal").handle(350, kNormalPlotStyle);
  out.put(100, "AcDbDictionaryWithDefault").handle(340, kNormalPlotStyle);
  out.put(0, "ACDBPLACEHOLDER").handle(5, kNormalPlotStyle).handle(330, kPlotStyleDictionary);
  return out.text();
}

std::string header(DxfUnit unit, const Box& box, std::int64_t next_handle) {
  const bool metric = unit == DxfUnit::metre;
  Groups out;
  out.put(9, "$ACADVER").put(1, "AC1015");
  out.put(9, "$DWGCODEPAGE").put(3, "ANSI_1252");
  out.put(9, "$INSBASE").at(10, {});
  out.put(9, "$EXTMIN").at(10, {box.min_x, box.min_y});
  out.put(9, "$EXTMAX").at(10, {box.max_x, box.max_y});
  out.put(9, "$LTSCALE").put(40, 1.0);
  out.put(9, "$TEXTSTYLE").put(7, "STANDARD");
  out.put(9, "$CLAYER").put(8, "0");
  out.put(9, "$LUNITS").put(70, 2);
  out.put(9, "$LUPREC").put(70, 4);
  out.put(9, "$AUNITS").put(70, 0);
  out.put(9, "$MEASUREMENT").put(70, metric ? 1 : 0);
  out.put(9, "$INSUNITS").put(70, static_cast<int>(unit));
  return out.put(9, "$HANDSEED").handle(5, next_handle).text();
}

// Plain signs for characters outside ASCII: the decoder of UTF-8, tolerant of broken bytes.
char32_t next_letter(const std::string& text, std::size_t& at) {
  const auto byte = [&](std::size_t i) {
    return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U;
  };
  const unsigned first = byte(at++);
  int more = first >= 0xF0 ? 3 : first >= 0xE0 ? 2 : first >= 0xC0 ? 1 : 0;
  if (first < 0x80) return first;
  char32_t letter = first & (0x3FU >> more);
  for (; more > 0; --more) {
    if ((byte(at) & 0xC0U) != 0x80U) return U'?';
    letter = (letter << 6U) | (byte(at++) & 0x3FU);
  }
  return letter < 0x80 ? U'?' : letter;
}

// Typographic signs as typewriters write them: programs disagree on their place in the code page.
const char* typewritten(char32_t letter) {
  switch (letter) {
    case 0x2018:
    case 0x2019:
      return "'";
    case 0x201C:
    case 0x201D:
      return "\"";
    case 0x2013:
    case 0x2014:
      return "-";
    case 0x2026:
      return "...";
    default:
      return nullptr;
  }
}

}  // namespace

std::string dxf_text(const std::string& utf8) {
  std::string out;
  for (std::size_t at = 0; at < utf8.size();) {
    const char32_t letter = next_letter(utf8, at);
    if (letter < 0x20 || letter == 0x7F) {
      out += ' ';
    } else if (letter < 0x7F || (letter >= 0xA0 && letter <= 0xFF)) {
      out += static_cast<char>(static_cast<unsigned char>(letter));
    } else if (const char* plain = typewritten(letter)) {
      out += plain;
    } else if (letter > 0xFFFF) {
      out += '?';  // the format knows four digits only
    } else {
      std::array<char, 12> code{};
      std::snprintf(code.data(), code.size(), "\\U+%04X", static_cast<unsigned>(letter));
      out += code.data();
    }
  }
  return out;
}

std::string dxf_layer_name(const std::string& words) {
  std::string name;
  for (const char c : words) {
    const bool lower = c >= 'a' && c <= 'z';
    const bool plain = (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    name += lower ? static_cast<char>(c - 'a' + 'A') : plain ? c : '_';
  }
  return name;
}

bool DxfWriter::has_layer(const std::string& name) const {
  return std::any_of(layers_.begin(), layers_.end(),
                     [&](const DxfLayer& layer) { return layer.name == name; });
}

void DxfWriter::add_layer(DxfLayer layer) {
  if (!has_layer(layer.name)) layers_.push_back(std::move(layer));
}

void DxfWriter::grow(const Point& at, double by) {
  if (extents_.empty()) extents_ = {at.x, at.y, at.x, at.y};
  extents_.min_x = std::min(extents_.min_x, at.x - by);
  extents_.min_y = std::min(extents_.min_y, at.y - by);
  extents_.max_x = std::max(extents_.max_x, at.x + by);
  extents_.max_y = std::max(extents_.max_y, at.y + by);
}

void DxfWriter::begin(const char* kind, const std::string& layer_name, const char* subclass) {
  Groups out;
  // Layers take the first free handles, so entities start well after them.
  constexpr std::int64_t kFirstEntity = 0x10000;
  out.put(0, kind).handle(5, kFirstEntity + entity_count_++).handle(330, kModelSpace);
  out.put(100, "AcDbEntity").put(8, layer_name).put(100, subclass);
  entities_ += out.text();
}

void DxfWriter::point(const std::string& layer_name, const Point& at) {
  begin("POINT", layer_name, "AcDbPoint");
  entities_ += Groups().at(10, at).text();
  grow(at);
}

void DxfWriter::circle(const std::string& layer_name, const Point& centre, double radius) {
  begin("CIRCLE", layer_name, "AcDbCircle");
  entities_ += Groups().at(10, centre).put(40, radius).text();
  grow(centre, radius);
}

void DxfWriter::polyline(const std::string& layer_name, const Line& points, bool closed,
                         double width) {
  if (points.size() < 2) return;
  begin("LWPOLYLINE", layer_name, "AcDbPolyline");
  Groups out;
  out.put(90, static_cast<int>(points.size())).put(70, closed ? 1 : 0).put(43, width);
  for (const Point& at : points) {
    out.put(10, at.x).put(20, at.y);
    grow(at);
  }
  entities_ += out.text();
}

void DxfWriter::text(const std::string& layer_name, const Point& at, double height,
                     const std::string& words) {
  begin("TEXT", layer_name, "AcDbText");
  Groups out;
  out.at(10, at).put(40, height).put(1, dxf_text(words)).put(7, "STANDARD").put(100, "AcDbText");
  entities_ += out.text();
  grow(at);
}

std::string DxfWriter::file() const {
  Box box = extents_;
  if (box.empty()) box = {0, 0, 1, 1};
  std::int64_t next = kFirstFree;
  std::string types;
  for (const auto& [handle, name] : {std::pair{kByBlock, "BYBLOCK"}, std::pair{kByLayer, "BYLAYER"},
                                     std::pair{kContinuous, "CONTINUOUS"}}) {
    types += line_type(handle, {name, handle == kContinuous ? "Solid line" : "", {}});
  }
  for (const DxfLineType& type : line_types_) types += line_type(next++, type);
  std::string layers = layer(kLayer0, {"0", 7, "CONTINUOUS", 25});
  for (const DxfLayer& own : layers_) layers += layer(next++, own);
  const std::string app =
      entry("APPID", kAcadAppId, kAppIdTable, "AcDbRegAppTableRecord", "ACAD").put(70, 0).text();
  const std::string dimension = entry("DIMSTYLE", kStandardDimStyle, kDimStyleTable,
                                      "AcDbDimStyleTableRecord", "STANDARD", 105)
                                    .put(70, 0)
                                    .text();
  const std::string records = block_record(kModelSpace, "*MODEL_SPACE", kModelLayout) +
                              block_record(kPaperSpace, "*PAPER_SPACE", kPaperLayout);
  const std::string tables =
      table("VPORT", kViewportTable, 1, viewport(box)) +
      table("LTYPE", kLineTypeTable, static_cast<int>(line_types_.size()) + 3, types) +
      table("LAYER", kLayerTable, static_cast<int>(layers_.size()) + 1, layers) +
      table("STYLE", kStyleTable, 1, text_style()) + table("VIEW", kViewTable, 0, "") +
      table("UCS", kUcsTable, 0, "") + table("APPID", kAppIdTable, 1, app) +
      table("DIMSTYLE", kDimStyleTable, 1, dimension, true) +
      table("BLOCK_RECORD", kBlockRecordTable, 2, records);
  const std::string blocks =
      block("*MODEL_SPACE", kModelSpace, kModelBlock, kModelBlockEnd, false) +
      block("*PAPER_SPACE", kPaperSpace, kPaperBlock, kPaperBlockEnd, true);
  Groups comments;
  for (const std::string& line : comments_) comments.put(999, dxf_text(line));
  constexpr std::int64_t kBeyondAll = 0x10000000;
  return comments.text() + section("HEADER", header(unit_, box, kBeyondAll)) +
         section("CLASSES", "") + section("TABLES", tables) + section("BLOCKS", blocks) +
         section("ENTITIES", entities_) + section("OBJECTS", objects()) + "0\nEOF\n";
}

}  // namespace rootstead::io
