#include "io/export_rows.hpp"

#include <map>

#include "engine/base/text.hpp"

namespace rootstead::io {
namespace {

std::optional<double> metres(const std::optional<EnteredLength>& length) {
  return length ? std::optional(length->length().metres()) : std::nullopt;
}

std::string entered(const std::optional<EnteredLength>& length) {
  return length ? to_text(*length) : "";
}

std::string text_of_origin(const Origin& origin) {
  if (origin.file.empty() || origin.place.empty()) return origin.file + origin.place;
  return origin.file + " " + origin.place;
}

std::string stems_of(const Tree& tree) {
  std::vector<std::string> parts;
  for (const Stem& stem : tree.stems) {
    std::string part = std::string(word_of(stem.read)) + " " + to_text(stem.size);
    if (stem.measured_at) part += " at " + to_text(*stem.measured_at);
    parts.push_back(std::move(part));
  }
  return joined(parts, "; ");
}

void take_crown(TreeOut& out, const Crown& crown) {
  out.crown_north = crown.radius[Crown::north].length().metres();
  out.crown_east = crown.radius[Crown::east].length().metres();
  out.crown_south = crown.radius[Crown::south].length().metres();
  out.crown_west = crown.radius[Crown::west].length().metres();
  out.crown_base = entered(crown.base_height);
}

TreeOut tree_out(const Tree* surveyed, const TreeAssessment& assessed, const std::string& caution) {
  TreeOut out;
  out.verdict = verdict_row(surveyed, assessed);
  out.caution = caution;
  if (surveyed == nullptr) return out;
  const Tree& tree = *surveyed;
  out.tag = tree.tag;
  out.growth_form = std::string(to_text(tree.form));
  out.condition = std::string(to_text(tree.condition));
  out.life_stage = std::string(to_text(tree.stage));
  out.stems = stems_of(tree);
  out.stem_count = static_cast<std::int64_t>(tree.stems.size());
  out.basal_diameter = entered(tree.basal_diameter);
  out.height = entered(tree.height);
  out.height_m = metres(tree.height);
  if (tree.crown) take_crown(out, *tree.crown);
  if (tree.lean) {
    out.lean = tree.lean->from_vertical.degrees();
    out.lean_towards = tree.lean->towards.degrees();
  }
  out.flare = std::string(to_text(tree.flare.state));
  out.flare_buried_by = entered(tree.flare.buried_by);
  if (tree.position) {
    out.position_source = tree.position->source;
    out.position_error = entered(tree.position->error);
  }
  out.ownership = tree.ownership;
  out.protection = tree.protection;
  out.category = tree.category;
  out.survey_notes = tree.notes;
  out.origin = text_of_origin(tree.origin);
  return out;
}

std::vector<WorkOut> works_out(const Site& site) {
  std::vector<WorkOut> rows;
  for (const Work& work : site.works) {
    rows.push_back({work.shape, work.id, work.name, std::string(to_text(work.kind)),
                    std::string(to_text(work.state)), std::string(to_text(work.method)),
                    metres(work.width), metres(work.depth), metres(work.working_room),
                    metres(work.bore_diameter), metres(work.spacing), work.permeable, work.notes,
                    text_of_origin(work.origin)});
  }
  return rows;
}

std::vector<GroundOut> bore_pits_out(const Site& site) {
  std::vector<GroundOut> rows;
  for (const Work& work : site.works) {
    if (work.bore_pits.empty()) continue;
    rows.push_back({work.bore_pits, work.id, work.name, false, text_of_origin(work.origin)});
  }
  return rows;
}

std::vector<BarrierOut> barriers_out(const Site& site) {
  std::vector<BarrierOut> rows;
  for (const Barrier& barrier : site.barriers) {
    rows.push_back({barrier.shape, barrier.id, barrier.name, std::string(to_text(barrier.kind)),
                    metres(barrier.width), metres(barrier.depth), barrier.notes,
                    text_of_origin(barrier.origin)});
  }
  return rows;
}

std::vector<GroundOut> ground_out(const Site& site) {
  std::vector<GroundOut> rows;
  for (const Surface& surface : site.surfaces) {
    rows.push_back({surface.area, surface.id, surface.name, surface.permeable,
                    text_of_origin(surface.origin)});
  }
  return rows;
}

std::string title_of(const std::string& source, const Tables& tables) {
  const Source* known = tables.source(source);
  return known == nullptr ? source : known->title;
}

template <class Row>
void name_sources(std::vector<Row>& rows, const Tables& tables) {
  for (Row& row : rows) row.source = title_of(row.source, tables);
}

template <class Row, class Rows>
std::vector<Row> rows_of_all(const Assessment& assessment, const Rows& rows_of) {
  std::vector<Row> all;
  for (const TreeAssessment& tree : assessment.trees) {
    for (Row& row : rows_of(tree)) all.push_back(std::move(row));
  }
  return all;
}

std::vector<AnchorageRow> anchorage_rows(const TreeAssessment& tree) {
  const auto row = anchorage_row(tree);
  return row ? std::vector{*row} : std::vector<AnchorageRow>{};
}

// Every source an output rests on, with the weakest status in which it was used.
std::map<std::string, Status> sources_used(const Assessment& assessment) {
  std::map<std::string, Status> used;
  const auto use = [&](const Figure& figure) {
    if (figure.from.source.empty()) return;
    const auto [entry, fresh] = used.emplace(figure.from.source, figure.from.status);
    if (!fresh) entry->second = weaker(entry->second, figure.from.status);
  };
  for (const TreeAssessment& tree : assessment.trees) {
    for (const ZoneAssessment& zone : tree.zones) {
      use(zone.zone.figure);
      for (const LimitResult& limit : zone.limits) use(limit.figure);
    }
    if (tree.estimate) {
      for (const Figure& figure : tree.estimate->figures) use(figure);
    }
    if (tree.anchorage) use(tree.anchorage->figure);
  }
  return used;
}

}  // namespace

std::string short_caution(const Site& site) {
  const std::string caution =
      "Screening aid from published averages: read the cautions that come with this file.";
  return site.settings.demo ? "INVENTED DATA. " + caution : caution;
}

std::vector<AboutOut> about_of(const Site& site, const Assessment& assessment,
                               const Tables& tables) {
  std::vector<AboutOut> about;
  const auto say = [&](const char* topic, const std::string& text) {
    if (!text.empty()) about.push_back({topic, text});
  };
  const ProjectSettings& settings = site.settings;
  if (settings.demo) say("invented data", "INVENTED DATA: this site does not exist.");
  say("title", settings.title);
  say("address", settings.address);
  say("client", settings.client);
  say("author", settings.author);
  say("credentials", settings.credentials);
  say("date", settings.date);
  say("revision", settings.revision);
  say("status", settings.status);
  say("made by", "Rootstead");
  say("reference system", site.system.code + ", " + site.system.name);
  say("unit of coordinates", std::string(symbol(site.system.file_unit)));
  say("unit of lengths and areas", "m and m2; texts as entered keep their own unit");
  say("data version", assessment.data_version);
  say("simulation", "seed " + std::to_string(assessment.simulation.seed) + ", " +
                        std::to_string(assessment.simulation.draws) + " draws");
  say("ranges",
      "low, best and high are the values one case in ten, half and nine in ten stay below");
  for (const auto& [source, status] : sources_used(assessment)) {
    const Source* known = tables.source(source);
    say("source", source + ": " + (known == nullptr ? source : known->title) +
                      (known == nullptr || known->note.empty() ? "" : " (" + known->note + ")") +
                      "; weakest status in use: " + std::string(to_text(status)));
  }
  for (const std::string& caution : assessment.cautions) say("caution", caution);
  return about;
}

std::string about_text(const std::vector<AboutOut>& about) {
  std::string text;
  for (const AboutOut& line : about) text += line.topic + ": " + line.text + "\n";
  return text;
}

std::vector<TreeOut> trees_out(const Site& site, const Assessment& assessment) {
  const TreeFinder surveyed(site);
  std::vector<TreeOut> rows;
  for (const TreeAssessment& tree : assessment.trees) {
    rows.push_back(tree_out(surveyed(tree.tree), tree, short_caution(site)));
  }
  return rows;
}

std::vector<ZoneOut> zones_out(const Site& site, const Assessment& assessment,
                               const Tables& tables) {
  const TreeFinder surveyed(site);
  const std::string caution = short_caution(site);
  std::vector<ZoneOut> rows;
  for (const TreeAssessment& tree : assessment.trees) {
    const VerdictRow verdict = verdict_row(surveyed(tree.tree), tree);
    for (ZoneRow& zone : zone_rows(surveyed(tree.tree), tree)) {
      zone.source = title_of(zone.source, tables);
      rows.push_back({std::move(zone), verdict.label, verdict.verdict, verdict.vitality,
                      verdict.stability, caution});
    }
  }
  return rows;
}

std::vector<FlatLayer> export_layers(const Site& site, const Assessment& assessment,
                                     const Tables& tables) {
  auto limits = rows_of_all<LimitRow>(assessment, limit_rows);
  auto anchorage = rows_of_all<AnchorageRow>(assessment, anchorage_rows);
  name_sources(limits, tables);
  name_sources(anchorage, tables);
  std::vector<FlatLayer> layers;
  layers.push_back(
      flat_layer("trees", "Trees with survey and verdict", trees_out(site, assessment)));
  layers.push_back(flat_layer("works", "Proposed and existing works", works_out(site)));
  layers.push_back(
      flat_layer("bore_pits", "Pits of bores, by id of the work", bore_pits_out(site)));
  layers.push_back(
      flat_layer("barriers", "Things in the ground that roots meet", barriers_out(site)));
  layers.push_back(flat_layer("ground", "Ground that is surfaced today", ground_out(site)));
  layers.push_back(flat_layer("zones", "Zones by rule, and what works take of them",
                              zones_out(site, assessment, tables)));
  layers.push_back(flat_layer("losses", "What each work takes of each zone",
                              rows_of_all<LossRow>(assessment, loss_rows)));
  layers.push_back(flat_layer("root_losses", "Likely share of absorbing roots lost, by work",
                              rows_of_all<RootLossRow>(assessment, root_loss_rows)));
  layers.push_back(flat_layer("limits", "Limits of the rules, passed or not", limits));
  layers.push_back(flat_layer("anchorage", "Anchorage kept after the works", anchorage));
  layers.push_back(flat_layer("about", "Read this first: what the data are, sources, cautions",
                              about_of(site, assessment, tables)));
  return layers;
}

}  // namespace rootstead::io
