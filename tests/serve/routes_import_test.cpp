// Files sent by the page: read as `add` reads them, nothing saved by a preview, doubts and
// questions told, all or nothing added.
#include "serve/routes_import.hpp"

#include <httplib.h>

#include <thread>

#include "serve/base64.hpp"
#include "serve/server.hpp"
#include "tests/serve/a_snapshot.hpp"
#include "tests/serve/open_desk.hpp"
#include "tests/serve/running_server.hpp"

namespace rootstead::test {
namespace {

using io::Json;

constexpr const char* kJson = "application/json";
constexpr const char* kPreview = "/api/imports/preview";
constexpr const char* kImports = "/api/imports";

Json file(const std::string& name, const std::string& bytes) {
  return {{"name", name}, {"base64", serve::base64_of(bytes)}};
}

std::string survey(const std::string& header, const std::string& rows) {
  return header + "\n" + rows;
}

const std::string kGood = survey("tag,easting,northing,species,dbh (cm),height (m)",
                                 "N1,500010,5400010,Quercus robur,45,14\n"
                                 "N2,500020,5400015,Tilia cordata,30,12\n"
                                 "N3,500030,5400020,Tilia cordata,28,11\n");

std::size_t folders_of_ours() {
  std::size_t count = 0;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::filesystem::temp_directory_path())) {
    const std::string name = entry.path().filename().string();
    if (name.starts_with("rootstead-") && name.size() == std::string("rootstead-XXXXXX").size())
      ++count;
  }
  return count;
}

bool says(const Json& list, const std::string& words) {
  for (const Json& one : list)
    if (one.get<std::string>().find(words) != std::string::npos) return true;
  return false;
}

class ImportRoutes : public RunningServer {
 protected:
  Json posted(const char* path, const Json& body, int status = 200) const {
    const auto answer = client().Post(path, {}, body.dump(), kJson);
    EXPECT_TRUE(answer) << path;
    if (!answer) return nullptr;
    EXPECT_EQ(answer->status, status) << path << answer->body.substr(0, 400);
    Json json = Json::parse(answer->body);
    if (status == 200) {
      EXPECT_EQ(faults(path, json, "post"), "");
    } else {
      EXPECT_TRUE(json["error"].get<std::string>().ends_with(".")) << answer->body;
    }
    return json;
  }
  Json preview(const std::string& name, const std::string& bytes, Json more = Json::object(),
               int status = 200) const {
    more["file"] = file(name, bytes);
    return posted(kPreview, more, status);
  }
  std::string version() const { return Json::parse(client().Get("/api/site")->body)["version"]; }
};

TEST_F(ImportRoutes, PreviewSavesNothingAndTellsWhatWasUnderstood) {
  const std::string before = version();
  const std::size_t folders = folders_of_ours();
  const Json told = preview("survey.csv", kGood);
  EXPECT_EQ(told["as"], "trees");
  EXPECT_EQ(told["rows"], 3);
  ASSERT_EQ(told["trees"].size(), 3U);
  EXPECT_EQ(told["trees"][0]["id"], "N1");
  EXPECT_NEAR(told["trees"][0]["stem_diameter_m"].get<double>(), 0.45, 1e-9);
  EXPECT_EQ(told["header"].size(), 6U);
  EXPECT_EQ(told["columns"]["stem_diameter"]["column"], "dbh (cm)");
  EXPECT_EQ(told["columns"]["stem_diameter"]["unit"], "cm");
  EXPECT_EQ(told["crs"], "EPSG:32632");
  EXPECT_EQ(told["doubts"], Json::array());
  EXPECT_TRUE(told["question"].is_null());
  EXPECT_EQ(version(), before);
  EXPECT_EQ(home_.project().read()->trees.size(), 3U);
  EXPECT_EQ(folders_of_ours(), folders);
  const Json again = {{"columns", told["columns"]}, {"crs", told["crs"]}, {"as", told["as"]}};
  EXPECT_EQ(preview("survey.csv", kGood, again)["trees"], told["trees"]);
}

TEST_F(ImportRoutes, AddsAllOfItAndOpensTheProjectAnew) {
  const std::string before = version();
  const Json added = posted(kImports, {{"version", before}, {"file", file("survey.csv", kGood)}});
  EXPECT_NE(added["version"], before);
  EXPECT_EQ(added["version"], version());
  EXPECT_TRUE(says(added["told"], "Read 3 rows of survey.csv: 3 trees."));
  EXPECT_EQ(home_.project().read()->trees.size(), 6U);
  EXPECT_EQ(home_.project().read()->trees[3].origin.file, "survey.csv");
  EXPECT_EQ(Json::parse(client().Get("/api/assessment")->body)["trees"].size(), 6U);
  EXPECT_TRUE(says(preview("survey.csv", kGood)["doubts"], "in the project already"));
  posted(kImports, {{"version", added["version"]}, {"file", file("survey.csv", kGood)}}, 400);
  EXPECT_EQ(home_.project().read()->trees.size(), 6U);
}

TEST_F(ImportRoutes, RefusesAVersionThatIsNoMore) {
  const Json old = {{"version", version()}, {"file", file("survey.csv", kGood)}};
  posted(kImports, old);
  posted(kImports, old, 409);
  io::Project other = home_.project();
  io::Import more;
  more.source = "more.csv";
  more.works = {trench("W9", 20, WorkState::proposed)};
  const std::string seen = version();
  ASSERT_TRUE(other.add(more, kNow).ok());
  const std::string rows = "tag,easting,northing,dbh (cm)\nX1,500010,5400010,30\n";
  posted(kImports, {{"version", seen}, {"file", file("x.csv", rows)}}, 409);
  EXPECT_EQ(home_.project().read()->trees.size(), 6U);
}

TEST_F(ImportRoutes, AsksWhatItCannotKnow) {
  const std::string no_unit = "tag,easting,northing,dbh\nN1,500010,5400010,45\n";
  const Json unit = preview("survey.csv", no_unit);
  ASSERT_TRUE(unit["question"].is_string());
  EXPECT_NE(unit["question"].get<std::string>().find("unit"), std::string::npos);
  EXPECT_EQ(unit["header"].size(), 4U);
  EXPECT_EQ(unit["columns"]["stem_diameter"]["column"], "dbh");
  const Json answered = preview("survey.csv", no_unit, {{"length_unit", "cm"}});
  EXPECT_TRUE(answered["question"].is_null());
  EXPECT_NEAR(answered["trees"][0]["stem_diameter_m"].get<double>(), 0.45, 1e-9);

  const std::string no_names = "tag,aa,bb,dbh (cm)\nN1,500010,5400010,45\n";
  EXPECT_TRUE(preview("survey.csv", no_names)["question"].is_string());
  const Json columns = {{"tag", {{"column", "tag"}}},
                        {"easting", {{"column", "aa"}}},
                        {"northing", {{"column", "bb"}}},
                        {"stem_diameter", {{"column", "dbh (cm)"}, {"unit", "cm"}}}};
  const Json mapped = preview("survey.csv", no_names, {{"columns", columns}, {"as", "trees"}});
  EXPECT_TRUE(mapped["question"].is_null());
  EXPECT_EQ(mapped["trees"][0]["at"], Json::array({500010.0, 5400010.0}));
  EXPECT_TRUE(preview("survey.csv", kGood, {{"crs", "EPSG:0"}})["question"].is_string());

  const std::string shapes =
      R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{"a":1},)"
      R"("geometry":{"type":"Point","coordinates":[9.0,48.75]}}]})";
  const Json what = preview("things.geojson", shapes);
  EXPECT_TRUE(what["question"].is_string());
  EXPECT_EQ(what["header"], Json::array({"a"}));
  EXPECT_EQ(what["crs"], "EPSG:4326");
}

TEST_F(ImportRoutes, DoubtsColumnsInTheWrongOrder) {
  const std::string exchanged = survey("tag,northing,easting,dbh (cm)",
                                       "N1,500010,5400010,45\nN2,500020,5400015,30\n"
                                       "N3,500030,5400020,30\n");
  EXPECT_TRUE(says(preview("survey.csv", exchanged)["doubts"], "exchanged"));
  // Inside the area of the system either way: only the site tells.
  const std::string degrees =
      survey("tag,latitude,longitude,dbh (cm)", "N1,9.0001,48.7513,45\nN2,9.0002,48.7514,30\n");
  EXPECT_TRUE(says(preview("survey.csv", degrees)["doubts"], "exchanged"));
  const std::string thick = survey("tag,easting,northing,dbh (m),height (m)",
                                   "N1,500010,5400010,14,0.45\nN2,500020,5400015,12,0.3\n"
                                   "N3,500030,5400020,11,0.28\n");
  EXPECT_TRUE(says(preview("survey.csv", thick)["doubts"], "stem diameter and height"));
}

TEST_F(ImportRoutes, DoubtsUnitsGirthsAndDistance) {
  const std::string metres = survey("tag,easting,northing,dbh (m)",
                                    "N1,500010,5400010,45\nN2,500020,5400015,30\n"
                                    "N3,500030,5400020,28\n");
  EXPECT_TRUE(says(preview("survey.csv", metres)["doubts"], "they fit better in cm"));
  const std::string millimetres = survey("tag,easting,northing,dbh (mm)",
                                         "N1,500010,5400010,45\nN2,500020,5400015,20\n"
                                         "N3,500030,5400020,28\n");
  EXPECT_TRUE(says(preview("survey.csv", millimetres)["doubts"], "below 0.0280 m"));
  const std::string girth =
      survey("tag,easting,northing,dbh (cm)", "N1,500010,5400010,141\nN2,500020,5400015,95\n");
  EXPECT_TRUE(says(preview("survey.csv", girth)["doubts"], "common as a girth"));
  const std::string far =
      survey("tag,easting,northing,dbh (cm)", "N1,500010,5400010,41\nN2,510020,5400015,35\n");
  EXPECT_TRUE(says(preview("survey.csv", far)["doubts"], "1 of 2 lie more than 5 km"));
  const std::string near =
      survey("tag,easting,northing,dbh (cm)", "N1,500010,5400010,41\nN2,504900,5400015,35\n");
  EXPECT_EQ(preview("survey.csv", near)["doubts"], Json::array());
}

TEST_F(ImportRoutes, RefusesWhatCannotBeRead) {
  const std::size_t folders = folders_of_ours();
  preview("plan.dwg", "AC1032", Json::object(), 400);
  preview("plan.dxf", "no drawing", Json::object(), 400);
  preview("empty.csv", "", Json::object(), 400);
  preview("list.csv", std::string("a\0b", 3), Json::object(), 400);
  preview("..", kGood, Json::object(), 400);
  preview("survey.csv", kGood, {{"length_unit", "ell"}}, 400);
  preview("survey.csv", kGood, {{"as", "chairs"}}, 400);
  preview("survey.csv", kGood, {{"columns", Json::array()}}, 400);
  preview("survey.csv", kGood, {{"columns", {{"tag", {{"more", 1}}}}}}, 400);
  posted(kPreview, {{"file", {{"name", "a.csv"}, {"base64", "a*=="}}}}, 400);
  posted(kPreview, {{"file", {{"name", "a.csv"}}}}, 400);
  posted(kPreview, Json::object(), 400);
  posted(kImports, {{"version", 1}, {"file", file("survey.csv", kGood)}}, 400);
  posted(kImports, {{"version", version()}, {"file", file("plan.dwg", "AC1032")}}, 400);
  EXPECT_EQ(folders_of_ours(), folders);
  EXPECT_EQ(home_.project().read()->trees.size(), 3U);
}

TEST_F(ImportRoutes, HasALimitOfItsOwn) {
  const std::string many(serve::kMostBytes, ' ');
  EXPECT_EQ(preview("survey.csv", kGood + many)["trees"].size(), 3U);
  preview("survey.csv", std::string(serve::kMostFileBytes + 1, ' '), Json::object(), 413);
  const std::string large(serve::kMostBytes + 1, ' ');
  const auto refused = client().Post("/api/edits", {}, large, kJson);
  EXPECT_TRUE(!refused || refused->status == 413) << "or the connection was closed on it";
}

TEST(SentFile, HasANameThatIsSafe) {
  EXPECT_EQ(serve::safe_file_name("survey.csv"), "survey.csv");
  EXPECT_EQ(serve::safe_file_name("../../etc/passwd"), "passwd");
  EXPECT_EQ(serve::safe_file_name("C:\\plans\\Lageplan Nord.dxf"), "Lageplan Nord.dxf");
  EXPECT_EQ(serve::safe_file_name("..hidden.csv"), "hidden.csv");
  EXPECT_EQ(serve::safe_file_name("a\n<b>|.csv"), "ab.csv");
  EXPECT_EQ(serve::safe_file_name(std::string("a\0b.csv", 7)), "ab.csv");
  EXPECT_EQ(serve::safe_file_name("a/"), "");
  EXPECT_EQ(serve::safe_file_name(". . ."), "");
  const std::string longest = serve::safe_file_name(std::string(300, 'x') + ".geojson");
  EXPECT_EQ(longest.size(), 100U);
  EXPECT_TRUE(longest.ends_with(".geojson"));
}

TEST(SentFile, IsGoneAfterwardsAndForItsUserAlone) {
  std::filesystem::path folder;
  {
    const auto kept = serve::SentFile::from(file("a.csv", "x"));
    ASSERT_TRUE(kept.ok());
    folder = kept->path().parent_path();
    EXPECT_TRUE(std::filesystem::exists(kept->path()));
    EXPECT_EQ(std::filesystem::status(folder).permissions(), std::filesystem::perms::owner_all);
  }
  EXPECT_FALSE(std::filesystem::exists(folder));
}

TEST(Base64, ReadsBackWhatItWrote) {
  EXPECT_EQ(serve::base64_of("foobar"), "Zm9vYmFy") << "RFC 4648, section 10";
  EXPECT_EQ(serve::base64_of("fooba"), "Zm9vYmE=");
  EXPECT_EQ(serve::base64_of("foob"), "Zm9vYg==");
  std::string bytes;
  for (int i = 0; i < 600; ++i) {
    EXPECT_EQ(serve::from_base64(serve::base64_of(bytes)), bytes);
    bytes += static_cast<char>(i * 7);
  }
  for (const char* bad : {"a", "ab==c", "=abc", "a===", "ab=c", "a\n==", "ab=="}) {
    const auto read = serve::from_base64(bad);
    EXPECT_EQ(read.has_value(), std::string(bad) == "ab==") << bad;
  }
}

}  // namespace
}  // namespace rootstead::test
