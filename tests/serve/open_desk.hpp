// A small project on a desk: three trees, one of them a palm, a trench that may be moved, and one
// that stands already.
#pragma once

#include <gtest/gtest.h>

#include "serve/desk.hpp"
#include "tests/support/loaded_tables.hpp"
#include "tests/support/site_builder.hpp"
#include "tests/support/temp_folder.hpp"

namespace rootstead::test {

inline constexpr const char* kNow = "2026-05-01T09:00:00Z";
inline constexpr double kEast = 500000, kNorth = 5400000;

inline RootSimulation few_draws() {
  RootSimulation simulation;
  simulation.draws = 100;
  return simulation;
}

inline Shape trench_at(double x) {
  Shape shape;
  shape.lines = {{{kEast + x, kNorth - 30}, {kEast + x, kNorth + 30}}};
  return shape;
}

inline Work trench(std::string id, double x, WorkState state) {
  Work work;
  work.id = std::move(id);
  work.shape = trench_at(x);
  work.state = state;
  work.width = metres(0.6);
  work.depth = metres(0.9);
  return work;
}

inline io::Import small_survey() {
  Site site = SiteBuilder()
                  .tree("T1", {kEast, kNorth}, 0.5)
                  .tree("T2", {kEast + 60, kNorth}, 0.4)
                  .palm("P1", {kEast + 12, kNorth + 8});
  io::Import survey;
  survey.source = "survey.csv";
  survey.trees = site.trees;
  survey.works = {trench("W1", 5, WorkState::proposed), trench("W0", 40, WorkState::existing)};
  return survey;
}

class OpenDesk {
 public:
  OpenDesk() {
    auto project = io::Project::create(file(), *io::reference_system("EPSG:32632"), settings());
    EXPECT_TRUE(project.ok());
    EXPECT_TRUE(project->add(small_survey(), kNow).ok());
  }
  std::filesystem::path file() const { return folder_ / "small.gpkg"; }

  io::Project project() const { return std::move(io::Project::open(file())).value(); }
  serve::Desk open() const {
    io::Project opened = project();
    Site site = std::move(opened.read()).value();
    auto desk = serve::Desk::open(std::move(opened), site, loaded_tables(), few_draws());
    EXPECT_TRUE(desk.ok());
    return std::move(desk).value();
  }

 private:
  static ProjectSettings settings() {
    ProjectSettings settings;
    settings.title = "Small";
    settings.rules = {"bs5837-2012"};
    return settings;
  }
  TempFolder folder_;
};

}  // namespace rootstead::test
