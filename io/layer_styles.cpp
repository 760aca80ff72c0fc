#include "io/layer_styles.hpp"

#include <string>
#include <vector>

#include "engine/base/text.hpp"

namespace rootstead::io {
namespace {

// How one kind of thing is drawn. Marks are told apart by shape, areas by line and hatching; colour
// only helps.
struct Symbol {
  std::string value;  // of the attribute; also the label
  std::string shape;  // of a mark; empty for areas
  std::string fill;   // "#rrggbb", or empty for none
  std::string line = "#303030";
  double width = 0.3;                 // of the line, millimetres
  std::vector<double> dashes;         // millimetres; empty for a solid line
  std::optional<double> hatch_angle;  // degrees, areas only
};

struct Style {
  std::string table;
  std::string attribute;  // that chooses the symbol; empty: one for all
  std::vector<Symbol> symbols;
  std::string meaning;
};

const std::vector<Symbol>& verdict_symbols() {
  static const std::vector<Symbol> symbols{
      {"keep", "circle", "#ffffff", "#303030", 0.4, {}, {}},
      {"keep with measures", "circle", "#8fb08c", "#303030", 0.4, {}, {}},
      {"assess further", "diamond", "#e8d48a", "#303030", 0.4, {}, {}},
      {"transplant", "square", "#a9bfd6", "#303030", 0.4, {}, {}},
      {"remove", "cross2", "#303030", "#303030", 0.8, {}, {}},
      {"undecided", "triangle", "#ffffff", "#303030", 0.4, {}, {}}};
  return symbols;
}

std::vector<Style> styles() {
  return {{"trees", "", {{"", "circle", "#ffffff", "#303030", 0.4, {}, {}}}, "Trees as surveyed"},
          {"verdicts", "verdict", verdict_symbols(), "Verdict by the shape of the mark"},
          {"zones",
           "purpose",
           {{"vitality", "", "", "#6b4f2a", 0.4, {3, 1.5}, {}},
            {"stability", "", "", "#303030", 0.6, {3, 1, 0.6, 1}, {}},
            {"crown", "", "", "#5d7f5a", 0.3, {1.2, 1}, {}},
            {"precaution", "", "", "#6b4f2a", 0.3, {0.4, 1}, {}}},
           "Purpose of the zone by its line"},
          {"ground", "", {{"", "", "", "#808080", 0.2, {}, 45.0}}, "Surfaced ground, hatched"},
          {"bore_pits", "", {{"", "", "", "#a03020", 0.6, {}, 135.0}}, "Pits of bores, hatched"}};
}

std::string attribute(const std::string& name, const std::string& value) {
  return " " + name + "=\"" + value + "\"";
}

std::string property(const std::string& name, const std::string& value) {
  return "<prop" + attribute("k", name) + attribute("v", value) + "/>";
}

// "#rrggbb" as "r,g,b,a".
std::string colour(const std::string& hex) {
  if (hex.empty()) return "0,0,0,0";
  std::string text;
  for (const std::size_t at : {1U, 3U, 5U})
    text += std::to_string(std::stoi(hex.substr(at, 2), nullptr, 16)) + ",";
  return text + "255";
}

std::string dash_list(const std::vector<double>& dashes, const char* separator) {
  std::vector<std::string> parts;
  for (const double dash : dashes) parts.push_back(shortest_number(dash));
  return joined(parts, separator);
}

std::string symbol_layer(const char* kind, const std::string& properties,
                         const std::string& inner = "") {
  return "<layer" + attribute("class", kind) + " enabled=\"1\" locked=\"0\" pass=\"0\">" +
         properties + inner + "</layer>";
}

std::string outline_qml(const Symbol& symbol) {
  return symbol_layer("SimpleLine",
                      property("line_color", colour(symbol.line)) +
                          property("line_width", shortest_number(symbol.width)) +
                          property("line_width_unit", "MM") +
                          property("use_custom_dash", symbol.dashes.empty() ? "0" : "1") +
                          property("customdash", dash_list(symbol.dashes, ";")) +
                          property("customdash_unit", "MM"));
}

std::string hatch_qml(const Symbol& symbol, const std::string& name) {
  const std::string line = "<symbol type=\"line\"" + attribute("name", "@" + name + "@0") + ">" +
                           symbol_layer("SimpleLine", property("line_color", colour(symbol.line)) +
                                                          property("line_width", "0.15")) +
                           "</symbol>";
  return symbol_layer("LinePatternFill",
                      property("angle", shortest_number(*symbol.hatch_angle)) +
                          property("distance", "2") + property("distance_unit", "MM"),
                      line);
}

std::string mark_qml(const Symbol& symbol) {
  return symbol_layer("SimpleMarker", property("name", symbol.shape) +
                                          property("color", colour(symbol.fill)) +
                                          property("outline_color", colour(symbol.line)) +
                                          property("outline_width", shortest_number(symbol.width)) +
                                          property("size", "3") + property("size_unit", "MM"));
}

std::string symbol_qml(const Symbol& symbol, std::size_t number) {
  const std::string name = std::to_string(number);
  const bool mark = !symbol.shape.empty();
  std::string layers = mark ? mark_qml(symbol) : outline_qml(symbol);
  if (symbol.hatch_angle) layers = hatch_qml(symbol, name) + layers;
  return "<symbol" + attribute("type", mark ? "marker" : "fill") + attribute("name", name) +
         " alpha=\"1\">" + layers + "</symbol>";
}

std::string qml_of(const Style& style) {
  std::string categories, symbols;
  for (std::size_t i = 0; i < style.symbols.size(); ++i) {
    const Symbol& symbol = style.symbols[i];
    categories += "<category render=\"true\"" + attribute("value", symbol.value) +
                  attribute("label", symbol.value) + attribute("symbol", std::to_string(i)) + "/>";
    symbols += symbol_qml(symbol, i);
  }
  const bool single = style.attribute.empty();
  return "<!DOCTYPE qgis PUBLIC 'http://mrcc.com/qgis.dtd' 'SYSTEM'>\n"
         "<qgis version=\"3.22\" styleCategories=\"Symbology\"><renderer-v2" +
         attribute("type", single ? "singleSymbol" : "categorizedSymbol") +
         (single ? "" : attribute("attr", style.attribute)) + ">" +
         (single ? "" : "<categories>" + categories + "</categories>") + "<symbols>" + symbols +
         "</symbols></renderer-v2></qgis>";
}

std::string css(const char* name, const std::string& value) {
  return std::string("<CssParameter name=\"") + name + "\">" + value + "</CssParameter>";
}

std::string stroke_sld(const Symbol& symbol) {
  constexpr double kPixelsPerMillimetre = 1 / 0.28;  // of the standard: pixels of 0.28 mm
  std::vector<double> pixels;
  for (const double dash : symbol.dashes) pixels.push_back(dash * kPixelsPerMillimetre);
  std::string text = "<Stroke>" + css("stroke", symbol.line) +
                     css("stroke-width", fixed_number(symbol.width * kPixelsPerMillimetre, 2));
  if (!pixels.empty()) text += css("stroke-dasharray", dash_list(pixels, " "));
  return text + "</Stroke>";
}

std::string symbol_sld(const Symbol& symbol) {
  if (symbol.shape.empty())
    return "<PolygonSymbolizer>" + stroke_sld(symbol) + "</PolygonSymbolizer>";
  const bool cross = symbol.shape == "cross2";
  const bool diamond = symbol.shape == "diamond";
  const std::string name = cross ? "x" : diamond ? "square" : symbol.shape;
  return "<PointSymbolizer><Graphic><Mark><WellKnownName>" + name + "</WellKnownName><Fill>" +
         css("fill", symbol.fill) + "</Fill>" + stroke_sld(symbol) + "</Mark><Size>11</Size>" +
         (diamond ? "<Rotation>45</Rotation>" : "") + "</Graphic></PointSymbolizer>";
}

std::string sld_of(const Style& style) {
  std::string rules;
  for (const Symbol& symbol : style.symbols) {
    rules += "<Rule>";
    if (!style.attribute.empty()) {
      rules += "<Name>" + symbol.value + "</Name><ogc:Filter><ogc:PropertyIsEqualTo>" +
               "<ogc:PropertyName>" + style.attribute + "</ogc:PropertyName><ogc:Literal>" +
               symbol.value + "</ogc:Literal></ogc:PropertyIsEqualTo></ogc:Filter>";
    }
    rules += symbol_sld(symbol) + "</Rule>";
  }
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
         "<StyledLayerDescriptor version=\"1.0.0\" xmlns=\"http://www.opengis.net/sld\" "
         "xmlns:ogc=\"http://www.opengis.net/ogc\"><NamedLayer><Name>" +
         style.table + "</Name><UserStyle><FeatureTypeStyle>" + rules +
         "</FeatureTypeStyle></UserStyle></NamedLayer></StyledLayerDescriptor>";
}

constexpr const char* kStyleTable = R"(
CREATE TABLE layer_styles (
  id INTEGER PRIMARY KEY AUTOINCREMENT, f_table_catalog TEXT(256), f_table_schema TEXT(256),
  f_table_name TEXT(256), f_geometry_column TEXT(256), styleName TEXT(30), styleQML TEXT,
  styleSLD TEXT, useAsDefault BOOLEAN, description TEXT, owner TEXT(30), ui TEXT(30),
  update_time DATETIME DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')));
INSERT INTO gpkg_contents (table_name, data_type, identifier, description)
  VALUES ('layer_styles', 'attributes', 'layer_styles', 'How layers are drawn');
)";

Result<bool> has_layer(const Database& database, const std::string& table) {
  Statement find(database, "SELECT 1 FROM gpkg_geometry_columns WHERE table_name = ?");
  find.put(std::string_view(table));
  return find.next();
}

// In an export the trees carry their verdict themselves.
Result<bool> has_verdict(const Database& database, const std::string& table) {
  Statement find(database, "SELECT 1 FROM pragma_table_info(?) WHERE name = 'verdict'");
  find.put(std::string_view(table));
  return find.next();
}

}  // namespace

Outcome add_layer_styles(Database& database) {
  ROOTSTEAD_CHECK(database.run(kStyleTable));
  Statement insert(database,
                   "INSERT INTO layer_styles (f_table_catalog, f_table_schema, f_table_name, "
                   "f_geometry_column, styleName, styleQML, styleSLD, useAsDefault, description, "
                   "owner) VALUES ('', '', ?, 'geom', ?, ?, ?, 1, ?, '')");
  for (Style& style : styles()) {
    ROOTSTEAD_TRY(const bool here, has_layer(database, style.table));
    if (!here) continue;
    ROOTSTEAD_TRY(const bool with_verdict, has_verdict(database, style.table));
    if (style.table == "trees" && with_verdict) {
      style.attribute = "verdict";
      style.symbols = verdict_symbols();
    }
    insert.put(std::string_view(style.table));
    insert.put(std::string_view(style.table));
    insert.put(std::string_view(qml_of(style)));
    insert.put(std::string_view(sld_of(style)));
    insert.put(std::string_view(style.meaning));
    ROOTSTEAD_CHECK(insert.run());
  }
  return Nothing{};
}

}  // namespace rootstead::io
