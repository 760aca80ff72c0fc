// From the tables of a project file to a Site.
#include <iterator>
#include <unordered_map>
#include <utility>

#include "engine/geom/measure.hpp"
#include "io/project_journal.hpp"
#include "io/project_levels.hpp"
#include "io/project_settings.hpp"
#include "io/project_state.hpp"
#include "io/records.hpp"
#include "io/stored_table.hpp"

namespace rootstead::io {
namespace {

using Index = std::unordered_map<std::string, std::size_t>;

template <class Record>
Index index_of(const std::vector<Record>& records) {
  Index index;
  for (std::size_t i = 0; i < records.size(); ++i) index[records[i].id] = i;
  return index;
}

// Hands each row of a part table to its tree.
template <class Row, class Give>
Outcome give_parts(const Project::State& state, const char* table, const Index& trees,
                   const Give& give) {
  ROOTSTEAD_TRY(auto rows, read_if_there<Row>(state.database, table, state.frame));
  for (Row& row : rows) {
    const auto owner = trees.find(row.tree);
    if (owner == trees.end()) {
      return state.database.broken("table " + std::string(table) + " speaks of the tree " +
                                   row.tree + ", which is not in table trees");
    }
    give(owner->second, std::move(row.part));
  }
  return Nothing{};
}

Outcome read_flares(const Project::State& state, const Index& index, std::vector<Tree>& trees) {
  ROOTSTEAD_CHECK(give_parts<FlareRow>(
      state, "flares", index, [&](std::size_t i, const Flare& flare) { trees[i].flare = flare; }));
  ROOTSTEAD_CHECK(give_parts<TaperRow>(state, "taper_readings", index,
                                       [&](std::size_t i, const TaperReading& reading) {
                                         trees[i].flare.taper.push_back(reading);
                                       }));
  ROOTSTEAD_CHECK(give_parts<FlareSignRow>(
      state, "flare_signs", index,
      [&](std::size_t i, FlareSign sign) { trees[i].flare.signs.push_back(sign); }));
  return give_parts<FlareRecordRow>(
      state, "flare_records", index,
      [&](std::size_t i, FlareRecord&& found) { trees[i].flare.found = std::move(found); });
}

Outcome read_trees(const Project::State& state, std::vector<Tree>& trees) {
  ROOTSTEAD_TRY(trees, read_if_there<Tree>(state.database, "trees", state.frame));
  const Index index = index_of(trees);
  ROOTSTEAD_CHECK(give_parts<StemRow>(state, "stems", index, [&](std::size_t i, const Stem& stem) {
    trees[i].stems.push_back(stem);
  }));
  ROOTSTEAD_CHECK(give_parts<CrownRow>(
      state, "crowns", index, [&](std::size_t i, const Crown& crown) { trees[i].crown = crown; }));
  return read_flares(state, index, trees);
}

// Hands each row of a part table to its work.
template <class Row, class Give>
Outcome give_to_works(const Project::State& state, const char* table, const Index& works,
                      const Give& give) {
  ROOTSTEAD_TRY(auto rows, read_if_there<Row>(state.database, table, state.frame));
  for (Row& row : rows) {
    const auto owner = works.find(row.work);
    if (owner == works.end()) {
      return state.database.broken("table " + std::string(table) + " speaks of the work " +
                                   row.work + ", which is not in table works");
    }
    give(owner->second, std::move(row));
  }
  return Nothing{};
}

Outcome read_works(const Project::State& state, std::vector<Work>& works) {
  ROOTSTEAD_TRY(works, read_if_there<Work>(state.database, "works", state.frame));
  const Index index = index_of(works);
  ROOTSTEAD_CHECK(
      give_to_works<BorePitRow>(state, "bore_pits", index, [&](std::size_t i, BorePitRow&& pit) {
        MultiPolygon& all = works[i].bore_pits;
        all.insert(all.end(), pit.area.begin(), pit.area.end());
      }));
  ROOTSTEAD_CHECK(give_to_works<VehicleRow>(
      state, "vehicles", index,
      [&](std::size_t i, VehicleRow&& row) { works[i].vehicle = std::move(row.part); }));
  return give_to_works<CoverRow>(state, "ground_covers", index, [&](std::size_t i, CoverRow&& row) {
    works[i].cover = std::move(row.part);
  });
}

Outcome read_wind(const Project::State& state, Wind& wind) {
  ROOTSTEAD_TRY(auto rows, read_if_there<Wind>(state.database, "wind", state.frame));
  if (!rows.empty()) wind = std::move(rows.front());
  return Nothing{};
}

Outcome read_climate(const Project::State& state, Climate& climate) {
  ROOTSTEAD_TRY(auto rows, read_if_there<Climate>(state.database, "climate", state.frame));
  if (!rows.empty()) climate = std::move(rows.front());
  ROOTSTEAD_TRY(const auto months,
                read_if_there<ClimateMonthRow>(state.database, "climate_months", state.frame));
  std::int64_t expected = 0;
  for (const ClimateMonthRow& row : months) {
    if (row.month != ++expected)
      return state.database.broken("table climate_months does not go from January on: its row " +
                                   std::to_string(expected) + " is of month " +
                                   std::to_string(row.month));
    if (row.evapotranspiration) climate.evapotranspiration.push_back(*row.evapotranspiration);
    if (row.rain) climate.rain.push_back(*row.rain);
  }
  return Nothing{};
}

Outcome read_boundary_and_gates(const Project::State& state, Site& site) {
  ROOTSTEAD_TRY(auto areas, read_if_there<BoundaryRow>(state.database, "boundary", state.frame));
  for (BoundaryRow& row : areas)
    std::move(row.area.begin(), row.area.end(), std::back_inserter(site.boundary));
  ROOTSTEAD_TRY(site.gates, read_if_there<Gate>(state.database, "gates", state.frame));
  return Nothing{};
}

Outcome read_evidence(const Project::State& state, std::vector<Evidence>& evidence) {
  ROOTSTEAD_TRY(evidence, read_if_there<Evidence>(state.database, "evidence_pits", state.frame));
  ROOTSTEAD_TRY(auto roots,
                read_if_there<FoundRootRow>(state.database, "evidence_roots", state.frame));
  const Index index = index_of(evidence);
  for (FoundRootRow& row : roots) {
    const auto owner = index.find(row.evidence);
    if (owner == index.end()) {
      return state.database.broken("table evidence_roots speaks of the opening " + row.evidence +
                                   ", which is not in table evidence_pits");
    }
    evidence[owner->second].roots.push_back(row.root);
  }
  return Nothing{};
}

// A person writes the tag on the label; the tree it is on may have another id.
void name_trees_by_id(Site& site) {
  for (Evidence& opening : site.evidence) {
    const Tree* tree = opening.tree.empty() ? nullptr : site.tree(opening.tree);
    if (tree != nullptr) opening.tree = tree->id;
  }
}

// The mean place of the trees, or of the works where no tree has one.
std::optional<Point> centre_of(const Site& site) {
  Line places;
  for (const Tree& tree : site.trees) {
    if (tree.position) places.push_back(tree.position->at);
  }
  if (places.empty()) {
    for (const Work& work : site.works) {
      for (const Line& line : work.shape.lines)
        places.insert(places.end(), line.begin(), line.end());
      for (const Polygon& area : work.shape.areas) {
        places.insert(places.end(), area.outer.begin(), area.outer.end());
      }
    }
  }
  if (places.empty()) return std::nullopt;
  Point sum;
  for (const Point& place : places) {
    sum.x += place.x;
    sum.y += place.y;
  }
  const auto count = static_cast<double>(places.size());
  return Point{sum.x / count, sum.y / count};
}

}  // namespace

Outcome read_soil(const Project::State& state, Soil& soil) {
  ROOTSTEAD_TRY(auto soils, read_if_there<Soil>(state.database, "soils", state.frame));
  if (!soils.empty()) soil = std::move(soils.front());
  ROOTSTEAD_TRY(const auto layers,
                read_if_there<SoilLayerRow>(state.database, "soil_layers", state.frame));
  for (const SoilLayerRow& row : layers) soil.layers.push_back(row.layer);
  return Nothing{};
}

Result<Site> Project::read() const {
  const Database& database = state_->database;
  ROOTSTEAD_TRY(const Transaction reading, Transaction::begin_reading(database));
  Site site;
  ROOTSTEAD_TRY(const SettingMap settings, read_settings(database));
  site.settings = settings_from(settings);
  site.system = state_->system;
  ROOTSTEAD_CHECK(read_trees(*state_, site.trees));
  ROOTSTEAD_CHECK(read_works(*state_, site.works));
  ROOTSTEAD_TRY(site.barriers, read_all<Barrier>(database, "barriers", state_->frame));
  ROOTSTEAD_TRY(site.surfaces, read_all<Surface>(database, "ground", state_->frame));
  ROOTSTEAD_CHECK(read_soil(*state_, site.soil));
  ROOTSTEAD_CHECK(read_wind(*state_, site.wind));
  ROOTSTEAD_CHECK(read_evidence(*state_, site.evidence));
  ROOTSTEAD_CHECK(read_levels_of(*state_, site));
  ROOTSTEAD_CHECK(read_boundary_and_gates(*state_, site));
  ROOTSTEAD_CHECK(read_climate(*state_, site.climate));
  name_trees_by_id(site);
  if (const auto centre = centre_of(site)) {
    site.system.convergence = convergence_at(site.system, *centre);
  }
  ROOTSTEAD_TRY(state_->seen, last_journal_number(database));
  state_->own.clear();
  return site;
}

}  // namespace rootstead::io
