#include "tests/report/advised_plan.hpp"

#include <gtest/gtest.h>

#include "tests/support/loaded_tables.hpp"

namespace rootstead::test {
namespace {

constexpr double kEast = 430000, kNorth = 300000;
constexpr int kDraws = 60;  // looks are tested here, not figures

EnteredLength metres(double v) {
  return {v, LengthUnit::metre};
}

// A flat sheet of ground over the site, its north half raised by `raised` and a strip in the south
// lowered by `lowered`.
LevelSurface ground(std::string name, double raised, double lowered) {
  TriangleMesh mesh;
  const auto strip = [&](double y0, double y1, double height) {
    const auto first = static_cast<std::uint32_t>(mesh.points.size());
    for (const auto& [x, y] : {std::pair{-40.0, y0}, {140.0, y0}, {140.0, y1}, {-40.0, y1}})
      mesh.points.push_back({{kEast + x, kNorth + y}, height});
    mesh.triangles.push_back({first, first + 1, first + 2});
    mesh.triangles.push_back({first, first + 2, first + 3});
  };
  strip(-40, 12, 20 - lowered);
  strip(12, 40, 20);
  strip(40, 90, 20 + raised);
  return {std::move(name), "ODN", "2026-10-01", std::move(mesh)};
}

void add_ground(Site& site) {
  site.existing_levels = ground("survey", 0, 0);
  site.proposed_levels = ground("grading plan", 0.45, 0.3);
  site.soil.layers = {{metres(0.3), SoilTexture::loam, 1.38, {}, {}, 0.42, 0.38, 0.2, 0.03, 0.2},
                      {metres(0.9), SoilTexture::clay, 1.58, {}, {}, 0.25, 0.3, 0.45, 0.01, 0.3}};
  site.climate.hardiness_zone = 9;
  site.climate.latitude = 50.3;
  site.climate.source = "invented for tests";
}

void add_wishes(Site& site) {
  const auto tree = [&](std::string_view id) -> Tree& {
    for (Tree& one : site.trees)
      if (one.id == id) return one;
    return site.trees.front();
  };
  tree("T5").intent = Intent::move;
  tree("T5").clear_trunk = metres(6);
  tree("T9").intent = Intent::remove;
  tree("T10").intent = Intent::remove;
  tree("T11").intent = Intent::move;
  tree("T11").history = GrowthHistory::planted_from_nursery;
  for (Stem& stem : tree("T11").stems) stem.size = {70, LengthUnit::millimetre};
  tree("T11").stems.resize(1);
  tree("T12").flare.state = Flare::State::unknown;
  tree("T12").flare.signs = {FlareSign::no_flare_all_round, FlareSign::soil_or_mulch_heaped};
}

void add_works(Site& site) {
  for (Work& work : site.works) {
    if (work.id == "W5") {
      work.vehicle = Vehicle{};
      work.vehicle->name = "20 t excavator";
      work.vehicle->passes = 40;
    }
    if (work.id == "W4") work.fill_texture = SoilTexture::clay;
  }
  Work old;
  old.id = "E1", old.name = "Old cable trench", old.kind = WorkKind::trench;
  old.state = WorkState::existing;
  old.shape.lines = {{{kEast + 60, kNorth + 28.8}, {kEast + 82, kNorth + 28.8}}};
  old.width = metres(0.5), old.depth = metres(0.9);
  old.date = "2023-05";
  old.seen = "thin crown on the south side";
  site.works.push_back(old);
}

Advised advised_from(Sample sample) {
  Advised made;
  made.sample = std::move(sample);
  Site& site = made.sample.site;
  auto with_works = with_level_works(site, made.sample.tables);
  EXPECT_TRUE(with_works.ok()) << (with_works ? "" : with_works.error().sentence());
  if (with_works) site = std::move(with_works).value();
  AssessOptions how;
  how.simulation.draws = kDraws;
  auto assessment = assess(site, made.sample.tables, how);
  EXPECT_TRUE(assessment.ok()) << (assessment ? "" : assessment.error().sentence());
  if (assessment) made.sample.assessment = std::move(assessment).value();
  auto advice = advise(site, made.sample.tables, made.sample.assessment, {how.simulation, {}});
  EXPECT_TRUE(advice.ok()) << (advice ? "" : advice.error().sentence());
  if (advice) made.advice = std::move(advice).value();
  return made;
}

Advised advised_in(UnitSystem units) {
  Sample s = sample(units);
  s.tables = loaded_tables();
  s.site.settings.rules = {"bs5837-2012", "dripline-1m"};
  s.site.settings.other["replacement rules"] = "lake-elmo-mn, miami-fl, palos-heights-il";
  s.site.settings.other["works begin"] = "2027-03-01";
  s.site.settings.other["works end"] = "2027-08-31";
  add_ground(s.site);
  add_wishes(s.site);
  add_works(s.site);
  return advised_from(std::move(s));
}

}  // namespace

const Advised& advised(UnitSystem units) {
  static const Advised metric = advised_in(UnitSystem::metric);
  static const Advised us = advised_in(UnitSystem::us_customary);
  return units == UnitSystem::metric ? metric : us;
}

const Advised& advised_of_little() {
  static const Advised little = [] {
    Sample s = sample();
    s.tables = loaded_tables();
    s.site.settings.rules = {"bs5837-2012"};
    s.site.settings.date.clear();
    s.site.trees.resize(1);
    s.site.trees.front().flare.state = Flare::State::visible;
    s.site.works.clear();
    return advised_from(std::move(s));
  }();
  return little;
}

}  // namespace rootstead::test
