#include "tests/cli/command_line.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "cli/app.hpp"
#include "tests/support/shared_data.hpp"

namespace rootstead::test {

nlohmann::json Ran::json() const {
  return nlohmann::json::parse(out, nullptr, false);
}

Ran run(const std::vector<std::string>& arguments) {
  std::ostringstream out, err;
  const int exit = cli::run(arguments, out, err);
  return {exit, out.str(), err.str()};
}

pid_t start_program(const std::vector<std::string>& arguments) {
  const pid_t child = fork();
  if (child != 0) return child;
  std::vector<std::string> words{ROOTSTEAD_PROGRAM};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  if (std::freopen("/dev/null", "w", stdout) == nullptr) _exit(126);
  if (std::freopen("/dev/null", "w", stderr) == nullptr) _exit(126);
  execv(pointers.front(), pointers.data());
  _exit(127);
}

OwnFolder::OwnFolder() {
  std::string name = (std::filesystem::temp_directory_path() / "rootstead-cli-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) ADD_FAILURE() << "no temporary folder";
  path_ = name;
}

OwnFolder::~OwnFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

std::string OwnFolder::operator/(std::string_view name) const {
  return (path_ / name).string();
}

std::string OwnFolder::write(std::string_view name, std::string_view text) const {
  std::ofstream(path_ / name, std::ios::binary) << text;
  return *this / name;
}

std::string example(std::string_view name) {
  return (source_dir() / "examples" / "salt-walk" / name).string();
}

std::string small_project(const OwnFolder& folder) {
  const std::string project = folder / "small.gpkg";
  const std::string trees = folder.write(
      "trees.csv",
      "Tag,Species,Type,DBH (cm),Height (m),Crown radius (m),Condition,Easting,Northing\n"
      "T1,Quercus robur,broadleaf,50,14,5,good,480010,4880010\n"
      "T2,Tilia cordata,broadleaf,40,12,4,good,480030,4880010\n"
      "T3,Phoenix canariensis,palm,60,9,3,good,480050,4880010\n");
  const std::string works = folder.write("works.geojson",
                                         R"({"type":"FeatureCollection",
          "crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::32632"}},
          "features":[{"type":"Feature",
            "properties":{"id":"W1","kind":"trench","name":"Drain","width":"0.6 m","depth":"1.2 m"},
            "geometry":{"type":"LineString",
              "coordinates":[[480000,4880013],[480060,4880013]]}}]})");
  EXPECT_EQ(run({"new", project, "--crs", "EPSG:32632", "--rules", "bs5837-2012,as4970-2009"}).exit,
            0);
  EXPECT_EQ(run({"add", project, trees, "--as", "trees"}).exit, 0);
  EXPECT_EQ(run({"add", project, works, "--as", "works"}).exit, 0);
  return project;
}

}  // namespace rootstead::test
