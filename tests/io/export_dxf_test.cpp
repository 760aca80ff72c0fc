// Drawings through other eyes: read back with GDAL and compared with the site.
#include <map>
#include <set>

#include "tests/io/export_scene.hpp"

namespace rootstead::io {
namespace {

std::string header_value(const std::string& dxf, const std::string& name) {
  const auto at = dxf.find("\n" + name + "\n");
  if (at == std::string::npos) return "";
  std::istringstream rest(dxf.substr(at + 1));
  std::string line, code, value;
  std::getline(rest, line);
  std::getline(rest, code);
  std::getline(rest, value);
  return value;
}

TEST(ExportDxf, draws_every_thing_on_its_layer) {
  const TempFolder folder;
  const Scene it = scene();
  const ExportReport report = exported(it, folder / "site.dxf");
  const auto data = read_back(folder / "site.dxf");
  ASSERT_TRUE(data);
  std::map<std::string, std::size_t> on_layer;
  for (const auto& feature : *data->GetLayer(0)) ++on_layer[feature->GetFieldAsString("Layer")];
  std::size_t crowns = 0, surfaces = 0;
  for (const Tree& tree : it.site.trees) crowns += tree.position && tree.crown;
  for (const Surface& surface : it.site.surfaces) {
    for (const Polygon& area : surface.area) surfaces += 1 + area.holes.size();
  }
  EXPECT_EQ(on_layer["ROOT_TREE_STEM"], it.placed());
  EXPECT_EQ(on_layer["ROOT_TREE_LABEL"], it.placed());
  EXPECT_EQ(on_layer["ROOT_TREE_VERDICT"], it.placed());
  EXPECT_EQ(on_layer["ROOT_TREE_CROWN"], crowns);
  EXPECT_EQ(on_layer["ROOT_ZONE_INVENTED_RULE_0_ROOT_ZONE"], it.placed());
  EXPECT_EQ(on_layer["ROOT_ZONE_INVENTED_RULE_1_ROOT_ZONE"], it.placed());
  EXPECT_EQ(on_layer["ROOT_GROUND_SURFACED"], surfaces);
  EXPECT_GT(on_layer["ROOT_NOTES"], 5U);
  ASSERT_FALSE(report.warnings.empty());
  EXPECT_TRUE(holds(report.warnings[0],
                    "not in the drawing: " + std::to_string(14 - it.placed()) + " tree"));
}

TEST(ExportDxf, draws_zones_where_they_are_to_the_millimetre) {
  const TempFolder folder;
  for (const auto& [code, x, y, insunits] : {std::tuple{"EPSG:27700", 530000.0, 180000.0, "6"},
                                             std::tuple{"EPSG:2236", 280000.0, 160000.0, "21"},
                                             std::tuple{"EPSG:2913", 2300000.0, 200000.0, "2"}}) {
    const Scene it = scene(code, x, y);
    exported(it, folder / "site.dxf");
    EXPECT_EQ(header_value(text_of(folder / "site.dxf"), "$INSUNITS"), insunits);
    EXPECT_EQ(header_value(text_of(folder / "site.dxf"), "$ACADVER"), "AC1015");
    const auto data = read_back(folder / "site.dxf");
    std::vector<OGREnvelope> circles;
    for (const auto& feature : *data->GetLayer(0)) {
      if (std::string(feature->GetFieldAsString("Layer")) != "ROOT_ZONE_INVENTED_RULE_0_ROOT_ZONE")
        continue;
      feature->GetGeometryRef()->getEnvelope(&circles.emplace_back());
    }
    const double unit = metres_per(it.site.system.file_unit);
    std::size_t at = 0;
    for (const Tree& tree : it.site.trees) {
      if (!tree.position) continue;
      ASSERT_LT(at, circles.size());
      const OGREnvelope& box = circles[at++];
      EXPECT_NEAR((box.MinX + box.MaxX) / 2 * unit, tree.position->at.x, kMillimetre);
      EXPECT_NEAR((box.MinY + box.MaxY) / 2 * unit, tree.position->at.y, kMillimetre);
      EXPECT_NEAR((box.MaxX - box.MinX) / 2 * unit, 6, kMillimetre);
    }
    EXPECT_EQ(at, circles.size());
  }
}

TEST(ExportDxf, carries_cautions_in_the_drawing_and_at_its_head) {
  const TempFolder folder;
  const Scene it = scene();
  exported(it, folder / "site.dxf");
  const std::string text = text_of(folder / "site.dxf");
  EXPECT_TRUE(text.starts_with("999\n"));
  expect_about(text, it);
  const auto data = read_back(folder / "site.dxf");
  std::string notes;
  for (const auto& feature : *data->GetLayer(0)) notes += feature->GetFieldAsString("Text");
  for (const std::string& caution : it.assessment.cautions) EXPECT_TRUE(holds(notes, caution));
}

TEST(ExportDxf, writes_western_letters_as_they_are_and_others_as_escapes) {
  const TempFolder folder;
  Scene it = scene();
  it.site.trees[0].tag = "Straße – “7” élan\nnext Ł樹😀";
  it.site.trees[0].position = Position{{530000, 180000}, "", std::nullopt};
  exported(it, folder / "site.dxf");
  EXPECT_TRUE(holds(text_of(folder / "site.dxf"), "next \\U+0141\\U+6A39?"));
  const auto data = read_back(folder / "site.dxf");
  std::string texts;
  for (const auto& feature : *data->GetLayer(0)) texts += feature->GetFieldAsString("Text");
  EXPECT_TRUE(holds(texts, "Straße - \"7\" élan next ")) << texts;
}

TEST(ExportDxf, gives_every_object_a_handle_of_its_own) {
  const TempFolder folder;
  const Scene it = scene();
  exported(it, folder / "site.dxf");
  std::ifstream in(folder / "site.dxf");
  std::set<std::string> handles, named, layers;
  std::string code, value, kind, last_kind;
  bool comments = true;
  while (std::getline(in, code) && std::getline(in, value)) {
    if (code == "999") continue;
    comments = false;
    if (code == "0") kind = value;
    if (code == "2" && kind == "LAYER") layers.insert(value);
    if (code == "8" && kind != "SECTION") named.insert(value);
    const bool own = (code == "5" && kind != "SECTION") || (code == "105" && kind == "DIMSTYLE");
    if (own) {
      EXPECT_TRUE(handles.insert(value).second) << kind << " " << value;
    }
  }
  EXPECT_FALSE(comments);
  EXPECT_GT(handles.size(), 100U);
  for (const std::string& layer : named) EXPECT_TRUE(layers.contains(layer)) << layer;
}

}  // namespace
}  // namespace rootstead::io
