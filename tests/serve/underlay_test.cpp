// Images and drawings to lie under the plan: where they come to lie, and what they show there.
#include "serve/underlay.hpp"

#include <gdal_priv.h>
#include <httplib.h>

#include <cmath>
#include <cstdint>
#include <fstream>
#include <iterator>
#include <thread>

#include "serve/base64.hpp"
#include "serve/server.hpp"
#include "tests/serve/a_snapshot.hpp"
#include "tests/serve/open_desk.hpp"

namespace rootstead::test {
namespace {

using io::Json;

constexpr const char* kSystem = "EPSG:32632";

Json sent(const std::string& name, const std::string& bytes) {
  return {{"name", name}, {"base64", serve::base64_of(bytes)}};
}

Result<Json> underlay(const std::string& name, const std::string& bytes,
                      const std::string& system = kSystem, std::optional<LengthUnit> unit = {}) {
  const auto file = serve::SentFile::from(sent(name, bytes));
  EXPECT_TRUE(file.ok());
  return serve::underlay_json(*file, *io::reference_system(system), unit);
}

struct Pattern {
  int columns = 4, rows = 3, bands = 3;
  GDALDataType type = GDT_Byte;
  std::array<double, 6> frame{kEast, 2, 0, kNorth, 0, -2};
  std::string system = kSystem;
  bool placed = true, palette = false;
  double no_data = std::nan("");
};

double value_at(int column, int row, int band) {
  return 10 * band + 20 * row + column % 20;
}

std::string geotiff(const Pattern& pattern) {
  GDALAllRegister();
  const TempFolder folder;
  const auto file = folder / "a.tif";
  {
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GTiff");
    const GDALDatasetUniquePtr made(driver->Create(file.c_str(), pattern.columns, pattern.rows,
                                                   pattern.bands, pattern.type, nullptr));
    if (pattern.placed) {
      std::array<double, 6> frame = pattern.frame;
      made->SetGeoTransform(frame.data());
    }
    if (!pattern.system.empty()) {
      OGRSpatialReference system;
      system.SetFromUserInput(pattern.system.c_str());
      system.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
      made->SetSpatialRef(&system);
    }
    for (int band = 1; band <= pattern.bands; ++band) {
      GDALRasterBand* to = made->GetRasterBand(band);
      if (pattern.palette) {
        GDALColorTable colours;
        for (int i = 0; i < 256; ++i) {
          const auto tone = static_cast<short>(i);
          const GDALColorEntry entry{tone, static_cast<short>(255 - i), 7, 255};
          colours.SetColorEntry(i, &entry);
        }
        to->SetColorTable(&colours);
      }
      if (!std::isnan(pattern.no_data)) to->SetNoDataValue(pattern.no_data);
      for (int row = 0; row < pattern.rows; ++row)
        for (int column = 0; column < pattern.columns; ++column) {
          double value = value_at(column, row, band);
          const bool hole = !std::isnan(pattern.no_data) && row == 0 && column == 0;
          if (hole) value = pattern.no_data;
          EXPECT_EQ(
              to->RasterIO(GF_Write, column, row, 1, 1, &value, 1, 1, GDT_Float64, 0, 0, nullptr),
              CE_None);
        }
    }
  }
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// The image as the page would draw it.
struct Drawn {
  explicit Drawn(const Json& underlay) {
    const Json& image = underlay["image"];
    west = image["west"], south = image["south"], east = image["east"], north = image["north"];
    const TempFolder folder;
    const auto file = folder / "a.png";
    std::ofstream(file, std::ios::binary)
        << serve::from_base64(image["png_base64"].get<std::string>()).value_or("");
    const GDALDatasetUniquePtr data(GDALDataset::Open(file.c_str(), GDAL_OF_RASTER));
    EXPECT_TRUE(data);
    if (!data) return;
    columns = data->GetRasterXSize(), rows = data->GetRasterYSize();
    bands = data->GetRasterCount();
    pixels.resize(static_cast<std::size_t>(columns * rows * bands));
    EXPECT_EQ(data->RasterIO(GF_Read, 0, 0, columns, rows, pixels.data(), columns, rows, GDT_Byte,
                             bands, nullptr, bands, bands * columns, 1, nullptr),
              CE_None);
  }
  int at(int column, int row, int band) const {
    return pixels[static_cast<std::size_t>((row * columns + column) * bands + band - 1)];
  }
  int alpha(int column, int row) const { return at(column, row, bands); }

  double west = 0, south = 0, east = 0, north = 0;
  int columns = 0, rows = 0, bands = 0;
  std::vector<std::uint8_t> pixels;
};

TEST(Underlay, KeepsAnImageOnTheGridAsItIs) {
  for (const std::string system : {kSystem, ""}) {
    Pattern pattern;
    pattern.system = system;
    const auto json = underlay("a.tif", geotiff(pattern));
    ASSERT_TRUE(json.ok()) << json.error().sentence();
    EXPECT_EQ((*json)["name"], "a.tif");
    const Drawn drawn(*json);
    EXPECT_NEAR(drawn.west, kEast, 1e-6);
    EXPECT_NEAR(drawn.east, kEast + 8, 1e-6);
    EXPECT_NEAR(drawn.south, kNorth - 6, 1e-6);
    EXPECT_NEAR(drawn.north, kNorth, 1e-6);
    ASSERT_EQ(drawn.columns, 4);
    ASSERT_EQ(drawn.rows, 3);
    ASSERT_EQ(drawn.bands, 4);
    for (int row = 0; row < 3; ++row)
      for (int column = 0; column < 4; ++column) {
        EXPECT_EQ(drawn.alpha(column, row), 255);
        for (int band = 1; band <= 3; ++band)
          EXPECT_EQ(drawn.at(column, row, band), value_at(column, row, band));
      }
  }
}

TEST(Underlay, TurnsAnImageNorthUp) {
  Pattern pattern;
  pattern.columns = pattern.rows = 40;
  const double half = std::sqrt(0.5);  // by 45 degrees: the hull is a square on its corner
  pattern.frame = {kEast, half, half, kNorth, half, -half};
  const auto json = underlay("a.tiff", geotiff(pattern));
  ASSERT_TRUE(json.ok()) << json.error().sentence();
  const Drawn drawn(*json);
  const double side = 40 * std::sqrt(2.0);
  EXPECT_NEAR(drawn.east - drawn.west, side, 1.5);
  EXPECT_NEAR(drawn.north - drawn.south, side, 1.5);
  EXPECT_NEAR((drawn.north + drawn.south) / 2, kNorth, 1);
  EXPECT_EQ(drawn.alpha(0, 0), 0);
  EXPECT_EQ(drawn.alpha(drawn.columns - 1, drawn.rows - 1), 0);
  EXPECT_EQ(drawn.alpha(drawn.columns / 2, drawn.rows / 2), 255);
}

TEST(Underlay, BringsAnImageFromAnotherSystem) {
  Pattern pattern;
  pattern.columns = pattern.rows = 100;
  pattern.system = "EPSG:4326";
  pattern.frame = {9, 1e-5, 0, 48.75, 0, -1e-5};  // on the meridian of zone 32: easting 500000
  const auto json = underlay("a.tif", geotiff(pattern));
  ASSERT_TRUE(json.ok()) << json.error().sentence();
  const Drawn drawn(*json);
  EXPECT_NEAR(drawn.west, 500000, 1.5);
  // A thousandth of a degree: 111.2 m along the meridian, 73.5 m along the parallel.
  EXPECT_NEAR(drawn.north - drawn.south, 111.2, 2);
  EXPECT_NEAR(drawn.east - drawn.west, 73.5, 2);
}

TEST(Underlay, IsInMetresWhereTheProjectIsInFeet) {
  Pattern pattern;
  pattern.system = "EPSG:2236";
  pattern.frame = {900000, 1, 0, 500000, 0, -1};
  const auto json = underlay("a.tif", geotiff(pattern), "EPSG:2236");
  ASSERT_TRUE(json.ok()) << json.error().sentence();
  const Drawn drawn(*json);
  const double foot = 1200.0 / 3937.0;
  EXPECT_NEAR(drawn.west, 900000 * foot, 1e-6);
  EXPECT_NEAR(drawn.north, 500000 * foot, 1e-6);
  EXPECT_NEAR(drawn.east - drawn.west, 4 * foot, 1e-6);
}

TEST(Underlay, ReadsPalettesHeightsAndHoles) {
  Pattern pattern;
  pattern.bands = 1;
  pattern.palette = true;
  const auto palette = underlay("a.tif", geotiff(pattern));
  ASSERT_TRUE(palette.ok()) << palette.error().sentence();
  const Drawn coloured(*palette);
  ASSERT_EQ(coloured.bands, 4);
  EXPECT_EQ(coloured.at(2, 1, 1), value_at(2, 1, 1));
  EXPECT_EQ(coloured.at(2, 1, 2), 255 - value_at(2, 1, 1));

  pattern.palette = false;
  pattern.type = GDT_Float32;
  pattern.no_data = -9999;
  const auto heights = underlay("a.tif", geotiff(pattern));
  ASSERT_TRUE(heights.ok()) << heights.error().sentence();
  const Drawn grey(*heights);
  ASSERT_EQ(grey.bands, 2);
  EXPECT_EQ(grey.alpha(0, 0), 0);
  EXPECT_EQ(grey.alpha(1, 0), 255);
  EXPECT_EQ(grey.at(1, 0, 1), 0) << "the least";
  EXPECT_EQ(grey.at(3, 2, 1), 255) << "the greatest";
}

TEST(Underlay, IsNoLargerThanAPageCanDraw) {
  Pattern pattern;
  pattern.bands = 1;
  pattern.columns = 6000, pattern.rows = 30;
  const auto json = underlay("a.tif", geotiff(pattern));
  ASSERT_TRUE(json.ok()) << json.error().sentence();
  const Drawn drawn(*json);
  EXPECT_EQ(drawn.columns, 4096);
  EXPECT_EQ(drawn.rows, 20);
  EXPECT_NEAR(drawn.east - drawn.west, 12000, 1e-6);
}

TEST(Underlay, RefusesInOneSentence) {
  Pattern nowhere;
  nowhere.placed = false;
  const std::string whole = geotiff({});
  const auto refused = [](const std::string& name, const std::string& bytes) {
    const auto json = underlay(name, bytes);
    return !json && json.error().sentence().find('\n') == std::string::npos &&
           json.error().sentence().ends_with(".");
  };
  EXPECT_TRUE(refused("a.tif", geotiff(nowhere)));
  EXPECT_TRUE(refused("a.tif", "II*"));
  EXPECT_TRUE(refused("a.tif", whole.substr(0, 60)));
  EXPECT_TRUE(refused("a.png", whole));
  EXPECT_TRUE(refused("a.dxf", whole));
  EXPECT_TRUE(refused("a.tif", "<VRTDataset rasterXSize=\"1\" rasterYSize=\"1\"/>"));
}

// Group codes and values, one pair a line: "0 LINE|8 KERB".
std::string groups(std::string text) {
  for (char& letter : text)
    if (letter == '|' || letter == ' ') letter = '\n';
  return text + '\n';
}

std::string drawing(const std::string& unit) {
  return groups("0 SECTION|2 HEADER|9 $ACADVER|1 AC1015|9 $INSUNITS|70 " + unit +
                "|0 ENDSEC|0 SECTION|2 ENTITIES|"
                "0 LINE|8 TREES|10 500000000|20 5400000000|11 500002000|21 5400000000|"
                "0 LWPOLYLINE|8 BUILDING|90 3|70 1|10 500000000|20 5400000000|"
                "10 500001000|20 5400000000|10 500001000|20 5400001000|"
                "0 POINT|8 X|10 500000000|20 5400000000|0 ENDSEC|0 EOF");
}

TEST(Underlay, DrawsTheLinesOfEveryLayer) {
  const auto json = underlay("plan.dxf", drawing("4"));
  ASSERT_TRUE(json.ok()) << json.error().sentence();
  EXPECT_TRUE((*json)["image"].is_null());
  ASSERT_EQ((*json)["lines"].size(), 2U);
  EXPECT_EQ((*json)["lines"][0], Json::parse("[[500000.0,5400000.0],[500002.0,5400000.0]]"));
  EXPECT_EQ((*json)["lines"][1].size(), 4U) << "closed";
  EXPECT_EQ((*json)["lines"][1].front(), (*json)["lines"][1].back());
  const auto unitless = underlay("plan.dxf", drawing("0"));
  ASSERT_FALSE(unitless.ok());
  EXPECT_EQ(unitless.error().code, Code::unit_missing);
  EXPECT_TRUE(underlay("a.dxf", drawing("0"), kSystem, LengthUnit::millimetre).ok());
}

TEST(Underlay, DrawsAWholeSurveyPlan) {
  ROOTSTEAD_NEEDS_DATA(file, "site_cambridge/cambridge_site.dxf");
  std::ifstream in(file, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(in), {}};
  const auto json = underlay("cambridge_site.dxf", bytes, "EPSG:27700");
  ASSERT_TRUE(json.ok()) << json.error().sentence();
  EXPECT_GT((*json)["lines"].size(), 10U);
}

TEST(Underlay, IsAnsweredAsTheContractHasIt) {
  const OpenDesk home;
  serve::Server server(home.open());
  const int port = *server.take_port(0);
  std::thread running([&] { EXPECT_TRUE(server.run().ok()); });
  httplib::Client client("127.0.0.1", port);
  client.set_read_timeout(60);
  while (!client.Get("/api/site")) std::this_thread::yield();
  const auto ask = [&](const Json& body) {
    return client.Post("/api/underlays", {}, body.dump(), "application/json");
  };
  const auto image = ask(sent("a.tif", geotiff({}))), lines = ask(sent("a.dxf", drawing("4")));
  const auto refused = ask(sent("a.png", "x"));
  EXPECT_TRUE(image && lines && refused);
  if (image && lines && refused) {
    EXPECT_EQ(image->status, 200) << image->body;
    EXPECT_EQ(faults("/api/underlays", Json::parse(image->body), "post"), "");
    EXPECT_EQ(lines->status, 200) << lines->body;
    EXPECT_EQ(faults("/api/underlays", Json::parse(lines->body), "post"), "");
    EXPECT_EQ(refused->status, 400);
  }
  server.stop();
  running.join();
}

}  // namespace
}  // namespace rootstead::test
