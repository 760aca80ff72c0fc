#include "io/result_rows.hpp"

#include <cmath>

#include "engine/base/text.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead::io {
namespace {

constexpr int kCorners = 256;  // of a circle drawn as a polygon: 0.1 per mille of the radius inside

std::optional<double> finite(double value) {
  return std::isfinite(value) ? std::optional(value) : std::nullopt;
}

std::string lines_of(const std::vector<std::string>& sentences) {
  return joined(sentences, "\n");
}

MultiPolygon outline_of(const Zone& zone, bool placed) {
  if (!placed) return {};
  if (zone.outline) return *zone.outline;
  return {polygon_of({zone.centre, zone.radius}, kCorners)};
}

template <class Row>
void cite(Row& row, const Figure& figure) {
  row.formula = figure.formula;
  row.source = figure.from.source;
  row.source_place = figure.from.place;
  row.status = std::string(to_text(figure.from.status));
}

std::string sentence_of(const LimitResult& limit) {
  return limit.limit + ": " + shortest_number(limit.value) + " against " +
         shortest_number(limit.threshold) + (limit.triggers.empty() ? "" : "; " + limit.triggers) +
         (limit.works.empty() ? "" : " (" + joined(limit.works, ", ") + ")");
}

ZoneRow zone_row(const std::string& tree, const ZoneAssessment& assessed, bool placed) {
  const Zone& zone = assessed.zone;
  ZoneRow row;
  row.outline = outline_of(zone, placed);
  row.tree = tree;
  row.rule = zone.rule;
  row.zone = zone.zone;
  row.name = zone.name;
  row.purpose = std::string(to_text(zone.purpose));
  row.radius = zone.radius.metres();
  row.area = zone.area.square_metres();
  row.affected_area = assessed.loss.affected.square_metres();
  row.affected_share = assessed.loss.share;
  std::vector<std::string> passed;
  for (const LimitResult& limit : assessed.limits) {
    if (limit.passed_over) passed.push_back(sentence_of(limit));
  }
  row.limits_passed = static_cast<std::int64_t>(passed.size());
  row.limits = lines_of(passed);
  row.capped = zone.capped;
  row.raised = zone.raised;
  row.redrawn = zone.redrawn;
  cite(row, zone.figure);
  return row;
}

std::string reasons_of(const Verdict& verdict) {
  std::vector<std::string> lines;
  for (const Reason& reason : verdict.reasons) {
    lines.push_back(std::string(to_text(reason.about)) + ": " + reason.text);
  }
  return lines_of(lines);
}

std::string notes_of(const TreeAssessment& tree) {
  std::vector<std::string> lines;
  for (const Note& note : tree.notes) lines.push_back(note.text);
  for (const Error& rule : tree.rules_not_applied) lines.push_back(rule.sentence());
  return lines_of(lines);
}

}  // namespace

std::vector<ZoneRow> zone_rows(const Tree* surveyed, const TreeAssessment& tree) {
  const bool placed = surveyed != nullptr && surveyed->position.has_value();
  std::vector<ZoneRow> rows;
  for (const ZoneAssessment& zone : tree.zones) rows.push_back(zone_row(tree.tree, zone, placed));
  return rows;
}

std::vector<LossRow> loss_rows(const TreeAssessment& tree) {
  std::vector<LossRow> rows;
  for (const ZoneAssessment& assessed : tree.zones) {
    const ZoneLoss& loss = assessed.loss;
    LossRow row{tree.tree, assessed.zone.rule, assessed.zone.zone, "", false, 0, 0, 0, {}};
    row.affected_area = loss.affected.square_metres();
    row.affected_share = loss.share;
    row.footprint_area = loss.footprint.square_metres();
    rows.push_back(row);
    for (const ZoneLoss::ByWork& work : loss.by_work) {
      row.work = work.work;
      row.existing = work.existing;
      row.affected_area = work.affected.square_metres();
      row.affected_share = work.share;
      row.footprint_area = work.footprint.square_metres();
      row.nearest = finite(work.nearest.metres());
      rows.push_back(row);
    }
  }
  return rows;
}

std::vector<RootLossRow> root_loss_rows(const TreeAssessment& tree) {
  if (!tree.roots) return {};
  const Range& all = tree.roots->all;
  std::vector<RootLossRow> rows{{tree.tree, "", all.low, all.best, all.high}};
  for (const RootLoss::ByWork& work : tree.roots->by_work) {
    rows.push_back({tree.tree, work.work, work.alone.low, work.alone.best, work.alone.high});
  }
  return rows;
}

std::vector<LimitRow> limit_rows(const TreeAssessment& tree) {
  std::vector<LimitRow> rows;
  for (const ZoneAssessment& zone : tree.zones) {
    for (const LimitResult& limit : zone.limits) {
      LimitRow row{tree.tree,
                   limit.rule,
                   limit.zone,
                   limit.limit,
                   limit.passed_over,
                   finite(limit.value),
                   limit.threshold,
                   std::string(to_text(limit.weight)),
                   limit.triggers,
                   joined(limit.works, ", "),
                   "",
                   "",
                   "",
                   ""};
      cite(row, limit.figure);
      rows.push_back(std::move(row));
    }
  }
  return rows;
}

std::optional<AnchorageRow> anchorage_row(const TreeAssessment& tree) {
  if (!tree.anchorage) return std::nullopt;
  const AnchorageKept& kept = *tree.anchorage;
  AnchorageRow row;
  row.tree = tree.tree;
  row.low = kept.kept.low;
  row.best = kept.kept.best;
  row.high = kept.kept.high;
  row.worst_from = kept.worst_from.degrees();
  for (const double share : kept.by_direction) {
    row.by_direction += (row.by_direction.empty() ? "" : " ") + shortest_number(share);
  }
  row.circumference_cut = kept.circumference_cut;
  row.area_cut = kept.area_cut;
  if (kept.nearest_cut) row.nearest_cut = finite(kept.nearest_cut->metres());
  row.outside_tests = kept.outside_tests;
  row.reasons_to_inspect = lines_of(kept.reasons_to_inspect);
  row.works = joined(kept.works, ", ");
  cite(row, kept.figure);
  return row;
}

VerdictRow verdict_row(const Tree* surveyed, const TreeAssessment& tree) {
  VerdictRow row;
  row.tree = tree.tree;
  if (surveyed != nullptr) {
    if (surveyed->position) row.place = surveyed->position->at;
    row.label = surveyed->label();
    row.botanical_name = surveyed->botanical_name;
    row.common_name = surveyed->common_name;
  }
  row.verdict = std::string(to_text(tree.verdict.action));
  row.vitality = std::string(to_text(tree.verdict.vitality));
  row.stability = std::string(to_text(tree.verdict.stability));
  if (tree.roots) {
    row.loss_low = tree.roots->all.low;
    row.loss_best = tree.roots->all.best;
    row.loss_high = tree.roots->all.high;
  }
  if (tree.anchorage) {
    row.kept_low = tree.anchorage->kept.low;
    row.kept_best = tree.anchorage->kept.best;
    row.kept_high = tree.anchorage->kept.high;
  }
  row.reasons = reasons_of(tree.verdict);
  row.measures = lines_of(tree.verdict.measures);
  row.missing = lines_of(tree.verdict.missing);
  row.notes = notes_of(tree);
  return row;
}

TreeFinder::TreeFinder(const Site& site) {
  for (const Tree& tree : site.trees) by_id_.emplace(tree.id, &tree);
}

const Tree* TreeFinder::operator()(const std::string& id) const {
  const auto found = by_id_.find(id);
  return found == by_id_.end() ? nullptr : found->second;
}

}  // namespace rootstead::io
