// The records of a project file, each described once: column names and fields in file order
// (docs/formats/project.md). `Visit` gets (name, field); see io/stored.hpp.
#pragma once

#include <string>

#include "engine/site/site.hpp"
#include "io/project.hpp"

namespace rootstead::io {

// A part of a tree in a table of its own.
template <class Part>
struct PartOfTree {
  std::string tree;
  std::int64_t number = 1;  // stems: 1, 2, ... in the order they were read
  Part part;
};
using StemRow = PartOfTree<Stem>;
using CrownRow = PartOfTree<Crown>;
using FlareRow = PartOfTree<Flare>;
using TaperRow = PartOfTree<TaperReading>;
using FlareSignRow = PartOfTree<FlareSign>;
using FlareRecordRow = PartOfTree<FlareRecord>;

// A part of a work in a table of its own.
template <class Part>
struct PartOfWork {
  std::string work;
  Part part;
};
using VehicleRow = PartOfWork<Vehicle>;
using CoverRow = PartOfWork<GroundCover>;

struct BorePitRow {
  std::string work;
  MultiPolygon area;
};

// A root that was found, in the order in which it was written down.
struct FoundRootRow {
  std::string evidence;
  std::int64_t number = 1;
  FoundRoot root;
};

struct SoilLayerRow {
  std::int64_t number = 1;  // from the top down
  SoilLayer layer;
};

// One polygon of the ground the client may use.
struct BoundaryRow {
  MultiPolygon area;
};

// One month of the climate; the rest of it is in the record itself.
struct ClimateMonthRow {
  std::int64_t month = 1;                    // 1 January ... 12 December
  std::optional<double> evapotranspiration;  // mm a day
  std::optional<double> rain;                // mm a day
};

// "T may be const": one description serves reading and writing.
template <class T, class Record>
concept Is = std::same_as<std::remove_const_t<T>, Record>;

void describe(Is<Tree> auto& tree, auto&& visit) {
  visit("position", tree.position);
  visit("id", tree.id);
  visit("tag", tree.tag);
  visit("botanical_name", tree.botanical_name);
  visit("common_name", tree.common_name);
  visit("growth_form", tree.form);
  visit("basal_diameter", tree.basal_diameter);
  visit("height", tree.height);
  visit("condition", tree.condition);
  visit("life_stage", tree.stage);
  visit("history", tree.history);
  visit("intent", tree.intent);
  visit("clear_trunk", tree.clear_trunk);
  visit("lean", tree.lean);
  visit("ownership", tree.ownership);
  visit("protection", tree.protection);
  visit("category", tree.category);
  visit("notes", tree.notes);
  visit("origin", tree.origin);
}

void describe(Is<StemRow> auto& row, auto&& visit) {
  visit("tree_id", row.tree);
  visit("number", row.number);
  visit("measured", row.part.read);
  visit("size", row.part.size);
  visit("measured_at", row.part.measured_at);
}

void describe(Is<CrownRow> auto& row, auto&& visit) {
  visit("tree_id", row.tree);
  visit("north", row.part.radius[Crown::north]);
  visit("east", row.part.radius[Crown::east]);
  visit("south", row.part.radius[Crown::south]);
  visit("west", row.part.radius[Crown::west]);
  visit("base_height", row.part.base_height);
  visit("columnar", row.part.columnar);
}

void describe(Is<FlareRow> auto& row, auto&& visit) {
  visit("tree_id", row.tree);
  visit("state", row.part.state);
  visit("buried_by", row.part.buried_by);
}

void describe(Is<TaperRow> auto& row, auto&& visit) {
  visit("tree_id", row.tree);
  visit("number", row.number);
  visit("height", row.part.height);
  visit("diameter", row.part.diameter);
}

void describe(Is<FlareSignRow> auto& row, auto&& visit) {
  visit("tree_id", row.tree);
  visit("number", row.number);
  visit("sign", row.part);
}

void describe(Is<FlareRecordRow> auto& row, auto&& visit) {
  visit("tree_id", row.tree);
  visit("date", row.part.date);
  visit("seen_by", row.part.seen_by);
  visit("flare_depth", row.part.flare_depth);
  visit("first_main_root", row.part.first_main_root);
  visit("girdled_share", row.part.girdled_share);
  visit("excavation_radius", row.part.excavation_radius);
  visit("notes", row.part.notes);
}

void describe(Is<Work> auto& work, auto&& visit) {
  visit("geom", work.shape);
  visit("id", work.id);
  visit("name", work.name);
  visit("kind", work.kind);
  visit("state", work.state);
  visit("method", work.method);
  visit("width", work.width);
  visit("depth", work.depth);
  visit("working_room", work.working_room);
  visit("bore_diameter", work.bore_diameter);
  visit("spacing", work.spacing);
  visit("permeable", work.permeable);
  visit("fill_texture", work.fill_texture);
  visit("wet", work.wet);
  visit("date", work.date);
  visit("seen", work.seen);
  visit("notes", work.notes);
  visit("origin", work.origin);
}

void describe(Is<BorePitRow> auto& row, auto&& visit) {
  visit("geom", row.area);
  visit("work_id", row.work);
}

void describe(Is<VehicleRow> auto& row, auto&& visit) {
  visit("work_id", row.work);
  visit("name", row.part.name);
  visit("gross_mass", row.part.gross_mass);
  visit("wheel_load", row.part.wheel_load);
  visit("contact_pressure", row.part.contact_pressure);
  visit("contact_width", row.part.contact_width);
  visit("contact_length", row.part.contact_length);
  visit("passes", row.part.passes);
}

void describe(Is<CoverRow> auto& row, auto&& visit) {
  visit("work_id", row.work);
  visit("name", row.part.name);
  visit("chips", row.part.chips);
  visit("plate_width", row.part.plate_width);
  visit("plate_length", row.part.plate_length);
}

void describe(Is<Barrier> auto& barrier, auto&& visit) {
  visit("geom", barrier.shape);
  visit("id", barrier.id);
  visit("name", barrier.name);
  visit("kind", barrier.kind);
  visit("width", barrier.width);
  visit("depth", barrier.depth);
  visit("notes", barrier.notes);
  visit("origin", barrier.origin);
}

void describe(Is<Surface> auto& surface, auto&& visit) {
  visit("geom", surface.area);
  visit("id", surface.id);
  visit("name", surface.name);
  visit("permeable", surface.permeable);
  visit("origin", surface.origin);
}

void describe(Is<Soil> auto& soil, auto&& visit) {
  visit("texture", soil.texture);
  visit("drainage", soil.drainage);
  visit("rooting_depth", soil.rooting_depth);
  visit("water_table", soil.water_table);
  visit("compacted", soil.compacted);
  visit("notes", soil.notes);
}

void describe(Is<SoilLayerRow> auto& row, auto&& visit) {
  visit("number", row.number);
  visit("bottom", row.layer.bottom);
  visit("texture", row.layer.texture);
  visit("bulk_density", row.layer.bulk_density);
  visit("air_filled", row.layer.air_filled);
  visit("resistance", row.layer.resistance);
  visit("sand", row.layer.sand);
  visit("silt", row.layer.silt);
  visit("clay", row.layer.clay);
  visit("organic_matter", row.layer.organic_matter);
  visit("water", row.layer.water);
}

void describe(Is<Wind> auto& wind, auto&& visit) {
  visit("standard", wind.standard);
  visit("basic_speed", wind.basic_speed);
  visit("terrain", wind.terrain);
  visit("return_years", wind.return_years);
  visit("elevation", wind.elevation);
}

void describe(Is<BoundaryRow> auto& row, auto&& visit) {
  visit("geom", row.area);
}

void describe(Is<Gate> auto& gate, auto&& visit) {
  visit("geom", gate.at);
  visit("id", gate.id);
  visit("width", gate.width);
}

void describe(Is<Climate> auto& climate, auto&& visit) {
  visit("hardiness_zone", climate.hardiness_zone);
  visit("latitude", climate.latitude);
  visit("elevation", climate.elevation);
  visit("source", climate.source);
}

void describe(Is<ClimateMonthRow> auto& row, auto&& visit) {
  visit("month", row.month);
  visit("evapotranspiration", row.evapotranspiration);
  visit("rain", row.rain);
}

void describe(Is<Evidence> auto& evidence, auto&& visit) {
  visit("geom", evidence.shape);
  visit("id", evidence.id);
  visit("kind", evidence.kind);
  visit("tree_id", evidence.tree);
  visit("width", evidence.width);
  visit("depth", evidence.depth);
  visit("counted_from", evidence.counted_from);
  visit("date", evidence.date);
  visit("seen_by", evidence.seen_by);
  visit("notes", evidence.notes);
  visit("origin", evidence.origin);
}

void describe(Is<FoundRootRow> auto& row, auto&& visit) {
  visit("geom", row.root.at);
  visit("evidence_id", row.evidence);
  visit("number", row.number);
  visit("diameter", row.root.diameter);
  visit("depth", row.root.depth);
  visit("alive", row.root.alive);
}

struct ImportRow {
  std::string when, source, kind, mapping;
  std::int64_t rows_read = 0, trees = 0, works = 0, barriers = 0, surfaces = 0, problems = 0;
  std::int64_t openings = 0, soil_layers = 0, boundary_areas = 0, gates = 0;
};

void describe(Is<ImportRow> auto& row, auto&& visit) {
  visit("added_at", row.when);
  visit("source", row.source);
  visit("kind", row.kind);
  visit("mapping", row.mapping);
  visit("rows_read", row.rows_read);
  visit("trees", row.trees);
  visit("works", row.works);
  visit("barriers", row.barriers);
  visit("surfaces", row.surfaces);
  visit("problems", row.problems);
  visit("openings", row.openings);
  visit("soil_layers", row.soil_layers);
  visit("boundary_areas", row.boundary_areas);
  visit("gates", row.gates);
}

struct ProblemRow {
  std::int64_t import_number = 0;
  bool blocks = false;
  std::int64_t code = 0;
  std::string subject, message, remedy;
};

void describe(Is<ProblemRow> auto& row, auto&& visit) {
  visit("import_number", row.import_number);
  visit("blocks", row.blocks);
  visit("code", row.code);
  visit("subject", row.subject);
  visit("message", row.message);
  visit("remedy", row.remedy);
}

struct JournalRow {
  std::string when, action, detail, previous_hash, hash;
};

void describe(Is<JournalRow> auto& row, auto&& visit) {
  visit("written_at", row.when);
  visit("action", row.action);
  visit("detail", row.detail);
  visit("previous_hash", row.previous_hash);
  visit("hash", row.hash);
}

// A thing as it was before a change, as JSON of its rows.
struct HistoryRow {
  std::int64_t journal_number = 0;
  std::string sort;  // the table of the thing
  std::string thing;
  bool existed = false;
  std::string before;
};

void describe(Is<HistoryRow> auto& row, auto&& visit) {
  visit("journal_number", row.journal_number);
  visit("sort", row.sort);
  visit("thing_id", row.thing);
  visit("existed", row.existed);
  visit("before", row.before);
}

// By which a change that is sent twice is known again.
struct EditKeyRow {
  std::string key;
  std::int64_t journal_number = 0;
};

void describe(Is<EditKeyRow> auto& row, auto&& visit) {
  visit("key", row.key);
  visit("journal_number", row.journal_number);
}

struct SettingRow {
  std::string key, value;
};

void describe(Is<SettingRow> auto& row, auto&& visit) {
  visit("key", row.key);
  visit("value", row.value);
}

}  // namespace rootstead::io
