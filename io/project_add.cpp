// Writing to a project: one transaction for each thing a person does.
#include <algorithm>

#include "io/project_change.hpp"
#include "io/project_history.hpp"
#include "io/project_journal.hpp"
#include "io/project_mended.hpp"
#include "io/project_replace.hpp"
#include "io/project_rows.hpp"
#include "io/project_settings.hpp"

namespace rootstead::io {
namespace {

Outcome add_evidence(const Project::State& state, const std::vector<Evidence>& evidence) {
  Inserter<FoundRootRow> roots(state.database, "evidence_roots", state.frame);
  const auto with_roots = [&](const Evidence& opening) -> Outcome {
    std::int64_t number = 0;
    for (const FoundRoot& root : opening.roots)
      ROOTSTEAD_CHECK(roots({opening.id, ++number, root}));
    return Nothing{};
  };
  return add_records(state, "evidence_pits", "opening", evidence, with_roots);
}

Outcome replace_soil(Project::State& state, const Soil& soil) {
  ROOTSTEAD_CHECK(remember_tables(state, {"soils", "soil_layers"}));
  ROOTSTEAD_CHECK(state.database.run("DELETE FROM soils; DELETE FROM soil_layers"));
  Inserter<Soil> insert(state.database, "soils", state.frame);
  ROOTSTEAD_CHECK(insert(soil));
  Inserter<SoilLayerRow> layers(state.database, "soil_layers", state.frame);
  std::int64_t number = 0;
  for (const SoilLayer& layer : soil.layers) ROOTSTEAD_CHECK(layers({++number, layer}));
  return Nothing{};
}

Outcome replace_wind(Project::State& state, const Wind& wind) {
  ROOTSTEAD_CHECK(remember_tables(state, {"wind"}));
  ROOTSTEAD_CHECK(state.database.run("DELETE FROM wind"));
  Inserter<Wind> insert(state.database, "wind", state.frame);
  return insert(wind);
}

std::optional<double> value_at(const std::vector<double>& values, std::size_t i) {
  return i < values.size() ? std::optional(values[i]) : std::nullopt;
}

Outcome replace_climate(Project::State& state, const Climate& climate) {
  ROOTSTEAD_CHECK(remember_tables(state, {"climate", "climate_months"}));
  ROOTSTEAD_CHECK(state.database.run("DELETE FROM climate; DELETE FROM climate_months"));
  Inserter<Climate> insert(state.database, "climate", state.frame);
  ROOTSTEAD_CHECK(insert(climate));
  Inserter<ClimateMonthRow> months(state.database, "climate_months", state.frame);
  const std::size_t count = std::max(climate.evapotranspiration.size(), climate.rain.size());
  for (std::size_t i = 0; i < count; ++i) {
    ROOTSTEAD_CHECK(months({static_cast<std::int64_t>(i) + 1,
                            value_at(climate.evapotranspiration, i), value_at(climate.rain, i)}));
  }
  return Nothing{};
}

Outcome replace_boundary(Project::State& state, const MultiPolygon& boundary) {
  ROOTSTEAD_CHECK(remember_tables(state, {"boundary"}));
  ROOTSTEAD_CHECK(state.database.run("DELETE FROM boundary"));
  Inserter<BoundaryRow> insert(state.database, "boundary", state.frame);
  for (const Polygon& part : boundary) ROOTSTEAD_CHECK(insert({{part}}));
  return Nothing{};
}

Outcome add_gates(const Project::State& state, const Import& import) {
  Statement find(state.database, "SELECT 1 FROM gates WHERE id = ?");
  Inserter<Gate> insert(state.database, "gates", state.frame);
  for (const Gate& gate : import.gates) {
    if (gate.id.empty())
      return Error{Code::value_invalid, import.source, "a gate has no id",
                   "give it one; nothing was added"};
    find.put(std::string_view(gate.id));
    ROOTSTEAD_TRY(const bool taken, find.next());
    if (taken)
      return Error{Code::duplicate, import.source, "the project has a gate " + gate.id + " already",
                   "give one of them another id or leave it out; nothing was added"};
    ROOTSTEAD_CHECK(remember_new(state, "gates", gate.id));
    if (auto done = insert(gate); !done) {
      Error error = done.error();
      if (error.code == Code::value_invalid || error.code == Code::invalid_geometry)
        error.subject = import.source + ", gate " + gate.id;
      return error;
    }
  }
  return Nothing{};
}

// What is moved, and which one: its fields are the values of the command.
struct MovedWork {
  const Shape& shape;
  const std::string& id;
};

void describe(const MovedWork& moved, auto&& visit) {
  visit("geom", moved.shape);
  visit("id", moved.id);
}

Outcome replace_shape(const Project::State& state, const std::string& work, const Shape& shape) {
  ROOTSTEAD_CHECK(remember(state, "works", work));
  Statement move(state.database, "UPDATE works SET geom = ? WHERE id = ?");
  Putter putter(move, state.frame);
  describe(MovedWork{shape, work}, putter);
  ROOTSTEAD_CHECK(move.run());
  if (move.changed() == 1) return Nothing{};
  return Error{Code::unknown_name, "work " + work, "the project has no such work",
               "name one of its works; nothing was moved"};
}

// What the source says of the soil, over what the project knows of it.
Soil over(Soil known, const Soil& said) {
  if (said.texture != SoilTexture::unknown) known.texture = said.texture;
  if (said.drainage != Drainage::unknown) known.drainage = said.drainage;
  if (said.rooting_depth) known.rooting_depth = said.rooting_depth;
  if (said.water_table) known.water_table = said.water_table;
  if (said.compacted) known.compacted = true;
  if (!said.layers.empty()) known.layers = said.layers;
  if (!said.notes.empty()) known.notes = said.notes;
  return known;
}

std::int64_t count(const auto& list) {
  return static_cast<std::int64_t>(list.size());
}

std::string counted(std::int64_t number, const std::string& one, const std::string& many) {
  return std::to_string(number) + " " + (number == 1 ? one : many);
}

std::string summary(const Import& import) {
  std::vector<std::string> parts;
  const auto say = [&](std::int64_t number, const char* one, const char* many) {
    if (number > 0) parts.push_back(counted(number, one, many));
  };
  say(count(import.trees), "tree", "trees");
  say(count(import.works), "work", "works");
  say(count(import.barriers), "barrier", "barriers");
  say(count(import.surfaces), "surface", "surfaces");
  say(count(import.evidence), "opening", "openings");
  if (import.soil) parts.push_back("soil");
  say(import.soil ? count(import.soil->layers) : 0, "soil layer", "soil layers");
  say(count(import.boundary), "area of the boundary", "areas of the boundary");
  say(count(import.gates), "gate", "gates");
  say(count(import.problems), "problem", "problems");
  return import.source + ": " + (parts.empty() ? "nothing" : joined(parts, ", ")) + " from " +
         counted(static_cast<std::int64_t>(import.rows_read), "row", "rows");
}

Result<bool> has_import_of(const Database& database, const std::string& source) {
  Statement find(database, "SELECT 1 FROM imports WHERE source = ? LIMIT 1");
  find.put(std::string_view(source));
  return find.next();
}

}  // namespace

Outcome add_import_row(const Project::State& state, const Import& import, const std::string& when) {
  Inserter<ImportRow> insert(state.database, "imports", state.frame);
  ROOTSTEAD_CHECK(
      insert({when, import.source, import.kind, import.mapping,
              static_cast<std::int64_t>(import.rows_read), count(import.trees), count(import.works),
              count(import.barriers), count(import.surfaces), count(import.problems),
              count(import.evidence), import.soil ? count(import.soil->layers) : 0,
              count(import.boundary), count(import.gates)}));
  Statement last(state.database, "SELECT max(fid) FROM imports");
  ROOTSTEAD_TRY([[maybe_unused]] const bool any, last.next());
  const std::int64_t number = last.integer();
  Inserter<ProblemRow> problems(state.database, "problems", state.frame);
  for (const Problem& problem : import.problems) {
    ROOTSTEAD_CHECK(problems({number, problem.blocks, static_cast<std::int64_t>(problem.code),
                              problem.subject, problem.message, problem.remedy}));
  }
  return Nothing{};
}

namespace {

const std::vector<std::string> kTouchedByAdding = {
    "trees",         "stems",         "crowns",         "flares",   "taper_readings", "flare_signs",
    "flare_records", "works",         "bore_pits",      "vehicles", "ground_covers",  "barriers",
    "ground",        "evidence_pits", "evidence_roots", "soils",    "soil_layers",    "boundary",
    "gates",         "imports",       "problems",       "journal"};

Outcome add_all(Project::State& state, const Import& import, const std::string& when) {
  ROOTSTEAD_CHECK(add_trees(state, import.trees));
  ROOTSTEAD_CHECK(add_works(state, import.works));
  ROOTSTEAD_CHECK(add_barriers(state, import.barriers));
  ROOTSTEAD_CHECK(add_records(state, "ground", "surface", import.surfaces, kNothingElse));
  ROOTSTEAD_CHECK(add_evidence(state, import.evidence));
  ROOTSTEAD_CHECK(add_gates(state, import));
  if (!import.boundary.empty()) {
    ROOTSTEAD_CHECK(replace_boundary(state, import.boundary));
    ROOTSTEAD_CHECK(forget_problems_of_kind(state.database, "boundary"));
  }
  if (import.soil) {
    Soil known;
    ROOTSTEAD_CHECK(read_soil(state, known));
    ROOTSTEAD_CHECK(replace_soil(state, over(std::move(known), *import.soil)));
    if (!import.soil->layers.empty())
      ROOTSTEAD_CHECK(forget_problems_of_kind(state.database, "soil"));
  }
  return add_import_row(state, import, when);
}

}  // namespace

Outcome Project::add(const Import& import, const std::string& when) {
  return change(*state_, when, "add", summary(import), kTouchedByAdding,
                [&] { return add_all(*state_, import, when); });
}

Outcome Project::replace(const Import& import, const std::string& when) {
  State& state = *state_;
  return change(state, when, "replace", summary(import), kTouchedByAdding, [&]() -> Outcome {
    ROOTSTEAD_TRY(const bool known, has_import_of(state.database, import.source));
    if (!known)
      return Error{Code::unknown_name, import.source,
                   "the project has nothing from a file of this name",
                   "add it without --replace, or give the file its former name"};
    Replaced replaced;
    ROOTSTEAD_CHECK(replaced.take_out(state, import));
    ROOTSTEAD_CHECK(add_all(state, import, when));
    return replaced.restore_order(state.database);
  });
}

Outcome Project::save_settings(const ProjectSettings& settings, const std::string& when) {
  return change(*state_, when, "settings", "title block and choices", {"settings", "journal"},
                [&]() -> Outcome {
                  ROOTSTEAD_CHECK(remember_tables(*state_, {"settings"}));
                  return write_settings(state_->database, settings);
                });
}

Outcome Project::save_soil(const Soil& soil, const std::string& when) {
  return change(*state_, when, "soil", "soil of the site", {"soils", "soil_layers", "journal"},
                [&] { return replace_soil(*state_, soil); });
}

Outcome Project::save_choices(const Site& site, const std::string& detail,
                              const std::string& when) {
  return change(
      *state_, when, "set", detail,
      {"settings", "soils", "soil_layers", "wind", "climate", "climate_months", "journal"},
      [&]() -> Outcome {
        ROOTSTEAD_CHECK(check_unchanged(*state_, "meanwhile", "try again"));
        ROOTSTEAD_CHECK(remember_tables(*state_, {"settings"}));
        ROOTSTEAD_CHECK(write_settings(state_->database, site.settings));
        ROOTSTEAD_CHECK(replace_soil(*state_, site.soil));
        ROOTSTEAD_CHECK(replace_wind(*state_, site.wind));
        return replace_climate(*state_, site.climate);
      });
}

Outcome Project::save_shape(const std::string& work, const Shape& shape, const std::string& when) {
  return change(*state_, when, "move", "work " + work, {"works", "journal"}, [&]() -> Outcome {
    ROOTSTEAD_CHECK(check_unchanged(*state_, "meanwhile", "read it again; nothing was moved"));
    return replace_shape(*state_, work, shape);
  });
}

}  // namespace rootstead::io
