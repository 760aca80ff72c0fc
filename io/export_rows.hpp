// What an export says of each thing, flat: survey and results side by side. Numbers are metres,
// square metres and shares; texts "as entered" keep the unit a person wrote.
#pragma once

#include "io/flat_layer.hpp"
#include "io/result_rows.hpp"

namespace rootstead::io {

struct TreeOut {
  VerdictRow verdict;  // place, names, verdict, the two answers
  std::string tag, growth_form, condition, life_stage;
  std::string stems;  // "diameter 500 mm at 1.5 m; girth 30 in"
  std::int64_t stem_count = 0;
  std::string basal_diameter, height, crown_base;  // as entered
  std::optional<double> height_m, crown_north, crown_east, crown_south, crown_west;
  std::optional<double> lean, lean_towards;
  std::string flare, flare_buried_by, position_source, position_error;
  std::string ownership, protection, category, survey_notes, origin, caution;
};

struct WorkOut {
  Shape shape;
  std::string id, name, kind, state, method;
  std::optional<double> width, depth, working_room, bore_diameter, spacing;
  bool permeable = false;
  std::string notes, origin;
};

struct BarrierOut {
  Shape shape;
  std::string id, name, kind;
  std::optional<double> width, depth;
  std::string notes, origin;
};

struct GroundOut {
  MultiPolygon area;
  std::string id, name;
  bool permeable = false;
  std::string origin;
};

struct ZoneOut {
  ZoneRow zone;
  std::string label, verdict, vitality, stability, caution;
};

// A line of "about": what, and its value.
struct AboutOut {
  std::string topic, text;
};

// Everything a reader must know beside the data: title block, system, data version and seed,
// every source used with its status, every caution, and the mark of invented data.
std::vector<AboutOut> about_of(const Site& site, const Assessment& assessment,
                               const Tables& tables);
std::string about_text(const std::vector<AboutOut>& about);

// One sentence for a column of every row: invented data, and where the cautions are.
std::string short_caution(const Site& site);

std::vector<TreeOut> trees_out(const Site& site, const Assessment& assessment);
std::vector<ZoneOut> zones_out(const Site& site, const Assessment& assessment,
                               const Tables& tables);

// All layers, for formats that hold many: trees, works, bore_pits, barriers, ground, zones, losses,
// root_losses, limits, anchorage, about.
std::vector<FlatLayer> export_layers(const Site& site, const Assessment& assessment,
                                     const Tables& tables);

void describe(IsRow<TreeOut> auto& row, auto&& visit) {
  visit("geom", row.verdict.place);
  visit("id", row.verdict.tree);
  visit("tag", row.tag);
  visit("botanical_name", row.verdict.botanical_name);
  visit("common_name", row.verdict.common_name);
  visit("verdict", row.verdict.verdict);
  visit("vitality_concern", row.verdict.vitality);
  visit("stability_concern", row.verdict.stability);
  visit("reasons", row.verdict.reasons);
  visit("measures", row.verdict.measures);
  visit("missing", row.verdict.missing);
  visit("growth_form", row.growth_form);
  visit("condition", row.condition);
  visit("life_stage", row.life_stage);
  visit("stems", row.stems);
  visit("stem_count", row.stem_count);
  visit("basal_diameter", row.basal_diameter);
  visit("height", row.height);
  visit("height_m", row.height_m);
  visit("crown_north_m", row.crown_north);
  visit("crown_east_m", row.crown_east);
  visit("crown_south_m", row.crown_south);
  visit("crown_west_m", row.crown_west);
  visit("crown_base", row.crown_base);
  visit("lean_deg", row.lean);
  visit("lean_towards_deg", row.lean_towards);
  visit("flare", row.flare);
  visit("flare_buried_by", row.flare_buried_by);
  visit("root_loss_low", row.verdict.loss_low);
  visit("root_loss_best", row.verdict.loss_best);
  visit("root_loss_high", row.verdict.loss_high);
  visit("anchorage_kept_low", row.verdict.kept_low);
  visit("anchorage_kept_best", row.verdict.kept_best);
  visit("anchorage_kept_high", row.verdict.kept_high);
  visit("position_source", row.position_source);
  visit("position_error", row.position_error);
  visit("ownership", row.ownership);
  visit("protection", row.protection);
  visit("category", row.category);
  visit("survey_notes", row.survey_notes);
  visit("assessment_notes", row.verdict.notes);
  visit("origin", row.origin);
  visit("caution", row.caution);
}

void describe(IsRow<WorkOut> auto& row, auto&& visit) {
  visit("geom", row.shape);
  visit("id", row.id);
  visit("name", row.name);
  visit("work_kind", row.kind);
  visit("state", row.state);
  visit("method", row.method);
  visit("width_m", row.width);
  visit("depth_m", row.depth);
  visit("working_room_m", row.working_room);
  visit("bore_diameter_m", row.bore_diameter);
  visit("spacing_m", row.spacing);
  visit("permeable", row.permeable);
  visit("notes", row.notes);
  visit("origin", row.origin);
}

void describe(IsRow<BarrierOut> auto& row, auto&& visit) {
  visit("geom", row.shape);
  visit("id", row.id);
  visit("name", row.name);
  visit("barrier_kind", row.kind);
  visit("width_m", row.width);
  visit("depth_m", row.depth);
  visit("notes", row.notes);
  visit("origin", row.origin);
}

void describe(IsRow<GroundOut> auto& row, auto&& visit) {
  visit("geom", row.area);
  visit("id", row.id);
  visit("name", row.name);
  visit("permeable", row.permeable);
  visit("origin", row.origin);
}

void describe(IsRow<ZoneOut> auto& row, auto&& visit) {
  describe(row.zone, visit);
  visit("label", row.label);
  visit("verdict", row.verdict);
  visit("vitality_concern", row.vitality);
  visit("stability_concern", row.stability);
  visit("caution", row.caution);
}

void describe(IsRow<AboutOut> auto& row, auto&& visit) {
  visit("topic", row.topic);
  visit("text", row.text);
}

}  // namespace rootstead::io
