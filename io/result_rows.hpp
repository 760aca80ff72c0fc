// An Assessment laid out as flat rows: the result tables of a project file and the layers of an
// export are these. Lengths are metres, areas square metres, shares 0 to 1; outlines are in the
// coordinates of the Site.
#pragma once

#include <concepts>
#include <cstdint>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "engine/rootstead.hpp"

namespace rootstead::io {

struct ZoneRow {
  MultiPolygon outline;  // a circle as a polygon of 256 corners on it; empty without a position
  std::string tree, rule, zone, name, purpose;
  double radius = 0, area = 0, affected_area = 0, affected_share = 0;
  std::int64_t limits_passed = 0;
  std::string limits;  // one sentence per limit that is passed
  bool capped = false, raised = false, redrawn = false;
  std::string formula, source, source_place, status;
};

struct LossRow {
  std::string tree, rule, zone;
  std::string work;       // empty: all works together, without double count
  bool existing = false;  // stands already: not part of what the works together take
  double affected_area = 0, affected_share = 0;
  double footprint_area = 0;  // the part of the affected area without working room
  std::optional<double> nearest;
};

struct RootLossRow {
  std::string tree;
  std::string work;  // empty: all works together
  double low = 0, best = 0, high = 0;
};

struct LimitRow {
  std::string tree, rule, zone, limit;
  bool passed = false;
  std::optional<double> value;
  double threshold = 0;
  std::string weight, triggers, works, formula, source, source_place, status;
};

struct AnchorageRow {
  std::string tree;
  double low = 0, best = 0, high = 0;
  double worst_from = 0;     // azimuth, degrees
  std::string by_direction;  // 36 shares, wind from 0, 10, ... 350 degrees, blanks between
  double circumference_cut = 0, area_cut = 0;
  std::optional<double> nearest_cut;
  bool outside_tests = false;
  std::string reasons_to_inspect, works, formula, source, source_place, status;
};

struct VerdictRow {
  std::optional<Point> place;
  std::string tree, label, botanical_name, common_name, verdict, vitality, stability;
  std::optional<double> loss_low, loss_best, loss_high;  // absorbing roots
  std::optional<double> kept_low, kept_best, kept_high;  // anchorage
  std::string reasons, measures, missing, notes;         // one sentence a line
};

struct CautionRow {
  std::string text;
};

struct AssessmentRow {
  std::string when, data_version;
  std::int64_t seed = 0, draws = 0, trees = 0;
  bool demo = false;
};

// The tree of an id in constant time; null where the site has none. The Site must outlive it.
class TreeFinder {
 public:
  explicit TreeFinder(const Site& site);
  const Tree* operator()(const std::string& id) const;

 private:
  std::unordered_map<std::string, const Tree*> by_id_;
};

// `surveyed` is the tree of the Site, null where it is unknown.
std::vector<ZoneRow> zone_rows(const Tree* surveyed, const TreeAssessment& tree);
std::vector<LossRow> loss_rows(const TreeAssessment& tree);
std::vector<RootLossRow> root_loss_rows(const TreeAssessment& tree);
std::vector<LimitRow> limit_rows(const TreeAssessment& tree);
std::optional<AnchorageRow> anchorage_row(const TreeAssessment& tree);
VerdictRow verdict_row(const Tree* surveyed, const TreeAssessment& tree);

template <class T, class Record>
concept IsRow = std::same_as<std::remove_const_t<T>, Record>;

void describe(IsRow<ZoneRow> auto& row, auto&& visit) {
  visit("geom", row.outline);
  visit("tree_id", row.tree);
  visit("rule", row.rule);
  visit("zone", row.zone);
  visit("name", row.name);
  visit("purpose", row.purpose);
  visit("radius_m", row.radius);
  visit("area_m2", row.area);
  visit("affected_m2", row.affected_area);
  visit("affected_share", row.affected_share);
  visit("limits_passed", row.limits_passed);
  visit("limits", row.limits);
  visit("capped", row.capped);
  visit("raised", row.raised);
  visit("redrawn", row.redrawn);
  visit("formula", row.formula);
  visit("source", row.source);
  visit("source_place", row.source_place);
  visit("status", row.status);
}

void describe(IsRow<LossRow> auto& row, auto&& visit) {
  visit("tree_id", row.tree);
  visit("rule", row.rule);
  visit("zone", row.zone);
  visit("work_id", row.work);
  visit("existing", row.existing);
  visit("affected_m2", row.affected_area);
  visit("affected_share", row.affected_share);
  visit("footprint_m2", row.footprint_area);
  visit("nearest_m", row.nearest);
}

void describe(IsRow<RootLossRow> auto& row, auto&& visit) {
  visit("tree_id", row.tree);
  visit("work_id", row.work);
  visit("loss_low", row.low);
  visit("loss_best", row.best);
  visit("loss_high", row.high);
}

void describe(IsRow<LimitRow> auto& row, auto&& visit) {
  visit("tree_id", row.tree);
  visit("rule", row.rule);
  visit("zone", row.zone);
  visit("limit_id", row.limit);
  visit("passed", row.passed);
  visit("value", row.value);
  visit("threshold", row.threshold);
  visit("weight", row.weight);
  visit("triggers", row.triggers);
  visit("works", row.works);
  visit("formula", row.formula);
  visit("source", row.source);
  visit("source_place", row.source_place);
  visit("status", row.status);
}

void describe(IsRow<AnchorageRow> auto& row, auto&& visit) {
  visit("tree_id", row.tree);
  visit("kept_low", row.low);
  visit("kept_best", row.best);
  visit("kept_high", row.high);
  visit("worst_from_deg", row.worst_from);
  visit("by_direction", row.by_direction);
  visit("circumference_cut", row.circumference_cut);
  visit("area_cut", row.area_cut);
  visit("nearest_cut_m", row.nearest_cut);
  visit("outside_tests", row.outside_tests);
  visit("reasons_to_inspect", row.reasons_to_inspect);
  visit("works", row.works);
  visit("formula", row.formula);
  visit("source", row.source);
  visit("source_place", row.source_place);
  visit("status", row.status);
}

void describe(IsRow<VerdictRow> auto& row, auto&& visit) {
  visit("geom", row.place);
  visit("tree_id", row.tree);
  visit("label", row.label);
  visit("botanical_name", row.botanical_name);
  visit("common_name", row.common_name);
  visit("verdict", row.verdict);
  visit("vitality_concern", row.vitality);
  visit("stability_concern", row.stability);
  visit("root_loss_low", row.loss_low);
  visit("root_loss_best", row.loss_best);
  visit("root_loss_high", row.loss_high);
  visit("anchorage_kept_low", row.kept_low);
  visit("anchorage_kept_best", row.kept_best);
  visit("anchorage_kept_high", row.kept_high);
  visit("reasons", row.reasons);
  visit("measures", row.measures);
  visit("missing", row.missing);
  visit("notes", row.notes);
}

void describe(IsRow<CautionRow> auto& row, auto&& visit) {
  visit("caution", row.text);
}

void describe(IsRow<AssessmentRow> auto& row, auto&& visit) {
  visit("assessed_at", row.when);
  visit("data_version", row.data_version);
  visit("seed", row.seed);
  visit("draws", row.draws);
  visit("trees", row.trees);
  visit("invented_data", row.demo);
}

}  // namespace rootstead::io
