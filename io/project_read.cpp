// From the tables of a project file to a Site.
#include <unordered_map>

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
  ROOTSTEAD_TRY(auto rows, read_all<Row>(state.database, table, state.frame));
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

Outcome read_trees(const Project::State& state, std::vector<Tree>& trees) {
  ROOTSTEAD_TRY(trees, read_all<Tree>(state.database, "trees", state.frame));
  const Index index = index_of(trees);
  ROOTSTEAD_CHECK(give_parts<StemRow>(state, "stems", index, [&](std::size_t i, const Stem& stem) {
    trees[i].stems.push_back(stem);
  }));
  ROOTSTEAD_CHECK(give_parts<CrownRow>(
      state, "crowns", index, [&](std::size_t i, const Crown& crown) { trees[i].crown = crown; }));
  return give_parts<FlareRow>(state, "flares", index,
                              [&](std::size_t i, const Flare& flare) { trees[i].flare = flare; });
}

Outcome read_works(const Project::State& state, std::vector<Work>& works) {
  ROOTSTEAD_TRY(works, read_all<Work>(state.database, "works", state.frame));
  ROOTSTEAD_TRY(auto pits, read_all<BorePitRow>(state.database, "bore_pits", state.frame));
  const Index index = index_of(works);
  for (BorePitRow& pit : pits) {
    const auto owner = index.find(pit.work);
    if (owner == index.end()) {
      return state.database.broken("table bore_pits speaks of the work " + pit.work +
                                   ", which is not in table works");
    }
    MultiPolygon& all = works[owner->second].bore_pits;
    all.insert(all.end(), pit.area.begin(), pit.area.end());
  }
  return Nothing{};
}

Outcome read_wind(const Project::State& state, Wind& wind) {
  ROOTSTEAD_TRY(auto rows, read_if_there<Wind>(state.database, "wind", state.frame));
  if (!rows.empty()) wind = std::move(rows.front());
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
  name_trees_by_id(site);
  if (const auto centre = centre_of(site)) {
    site.system.convergence = convergence_at(site.system, *centre);
  }
  ROOTSTEAD_TRY(state_->seen, last_journal_number(database));
  return site;
}

}  // namespace rootstead::io
