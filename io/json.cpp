#include "io/json.hpp"

#include <algorithm>

#include "engine/base/amount_text.hpp"

namespace rootstead::io {
namespace {

// The heaviest limit of this zone that is passed, or null.
const LimitResult* heaviest_passed(const ZoneAssessment& zone) {
  const LimitResult* heaviest = nullptr;
  for (const LimitResult& limit : zone.limits) {
    if (!limit.passed_over) continue;
    if (heaviest == nullptr || limit.weight > heaviest->weight) heaviest = &limit;
  }
  return heaviest;
}

std::string zone_verdict(const ZoneAssessment& zone) {
  if (const LimitResult* passed = heaviest_passed(zone)) return passed->triggers;
  return zone.limits.empty() ? "the rule sets no limit here" : "within the limits";
}

Json limit_json(const LimitResult& limit) {
  return {{"limit", limit.limit},
          {"passed", limit.passed_over},
          {"value", limit.value},
          {"threshold", limit.threshold},
          {"weight", to_text(limit.weight)},
          {"triggers", limit.triggers},
          {"works", limit.works}};
}

Json zone_json(const ZoneAssessment& zone) {
  Json limits = Json::array();
  for (const LimitResult& limit : zone.limits) limits.push_back(limit_json(limit));
  return {{"rule", zone.zone.rule},
          {"zone", zone.zone.zone},
          {"radius_m", zone.zone.radius.metres()},
          {"area_m2", zone.zone.area.square_metres()},
          {"affected_m2", zone.loss.affected.square_metres()},
          {"affected_share", zone.loss.share},
          {"verdict", zone_verdict(zone)},
          {"limits", std::move(limits)}};
}

Json anchorage_json(const AnchorageKept& anchorage) {
  Json json = to_json(anchorage.kept);
  json["worst_from_deg"] = anchorage.worst_from.degrees();
  return json;
}

Json threshold_json(const Threshold& threshold) {
  return {{"share", threshold.share}, {"from", cited(threshold.from)}};
}

Json reason_json(const Reason& reason) {
  return {{"about", to_text(reason.about)},
          {"text", reason.text},
          {"rule", reason.rule},
          {"limit", reason.limit},
          {"work", reason.work}};
}

Json note_json(const Note& note) {
  return {{"code", static_cast<int>(note.code)}, {"subject", note.subject}, {"text", note.text}};
}

// What a work takes from the first zone it reaches: the main rule's, in the settings' order.
ZoneLoss::ByWork zone_loss_by(const TreeAssessment& tree, const std::string& work) {
  for (const ZoneAssessment& zone : tree.zones) {
    for (const ZoneLoss::ByWork& by_work : zone.loss.by_work) {
      if (by_work.work == work) return by_work;
    }
  }
  return {};
}

// Every work that reaches a zone or the roots, in the order first met.
std::vector<std::string> works_bearing_on(const TreeAssessment& tree) {
  std::vector<std::string> works;
  const auto remember = [&works](const std::string& work) {
    if (std::find(works.begin(), works.end(), work) == works.end()) works.push_back(work);
  };
  for (const ZoneAssessment& zone : tree.zones) {
    for (const ZoneLoss::ByWork& by_work : zone.loss.by_work) remember(by_work.work);
  }
  if (tree.roots) {
    for (const RootLoss::ByWork& by_work : tree.roots->by_work) remember(by_work.work);
  }
  return works;
}

Json root_loss_by(const TreeAssessment& tree, const std::string& work) {
  if (!tree.roots) return nullptr;
  for (const RootLoss::ByWork& by_work : tree.roots->by_work) {
    if (by_work.work == work) return to_json(by_work.alone);
  }
  return to_json(Range{});
}

Json by_work_json(const TreeAssessment& tree) {
  Json works = Json::array();
  for (const std::string& work : works_bearing_on(tree)) {
    const ZoneLoss::ByWork zone = zone_loss_by(tree, work);
    works.push_back({{"work", work},
                     {"affected_m2", zone.affected.square_metres()},
                     {"existing", zone.existing},
                     {"absorbing_loss", root_loss_by(tree, work)}});
  }
  return works;
}

template <class Items, class Function>
Json list_of(const Items& items, Function to) {
  Json list = Json::array();
  for (const auto& item : items) list.push_back(to(item));
  return list;
}

Json zone_definition_json(const ZoneDefinition& zone, const Tables& tables) {
  return {{"id", zone.id},
          {"name", zone.name},
          {"purpose", to_text(zone.purpose)},
          {"source", source_text(zone.from, tables)},
          {"status", to_text(zone.from.status)}};
}

Json limit_definition_json(const LimitDefinition& limit, const Tables& tables) {
  return {{"id", limit.id},
          {"zone", limit.zone},
          {"measure", to_text(limit.measure)},
          {"threshold", limit.threshold},
          {"weight", to_text(limit.weight)},
          {"triggers", limit.triggers},
          {"source", source_text(limit.from, tables)},
          {"status", to_text(limit.from.status)}};
}

}  // namespace

Json to_json(const Figure& figure, const Tables& tables) {
  Json json = {{"figure", figure.name}, {"value", figure.value}, {"unit", figure.unit}};
  if (figure.range) {
    json["low"] = figure.range->low;
    json["high"] = figure.range->high;
  }
  if (!figure.word.empty()) json["word"] = figure.word;
  json["inputs"] = Json::object();
  for (const FigureInput& input : figure.inputs) json["inputs"][input.symbol] = input.value;
  json["formula"] = figure.formula;
  json["source"] = source_text(figure.from, tables);
  json["status"] = to_text(figure.from.status);
  return json;
}

Json to_json(const ToldFigure& told, const Tables& tables) {
  Json json = to_json(told.figure, tables);
  if (!told.work.empty()) json["work"] = told.work;
  if (!told.rule.empty()) json["rule"] = told.rule;
  return json;
}

Json to_json(const Range& range) {
  return {{"low", range.low}, {"best", range.best}, {"high", range.high}};
}

Json to_json(const TreeAssessment& tree, const Site& site) {
  const Tree* surveyed = site.tree(tree.tree);
  return {{"id", tree.tree},
          {"label", surveyed == nullptr ? tree.tree : surveyed->label()},
          {"zones", list_of(tree.zones, zone_json)},
          {"rules_not_applied",
           list_of(tree.rules_not_applied, [](const Error& e) { return Json(e.sentence()); })},
          {"absorbing_loss", tree.roots ? to_json(tree.roots->all) : Json(nullptr)},
          {"large_loss", tree.roots ? threshold_json(tree.verdict.large_loss) : Json(nullptr)},
          {"anchorage_kept", tree.anchorage ? anchorage_json(*tree.anchorage) : Json(nullptr)},
          {"large_reduction",
           tree.anchorage ? threshold_json(tree.verdict.large_reduction) : Json(nullptr)},
          {"verdict", to_text(tree.verdict.action)},
          {"vitality", to_text(tree.verdict.vitality)},
          {"stability", to_text(tree.verdict.stability)},
          {"reasons", list_of(tree.verdict.reasons, reason_json)},
          {"missing", tree.verdict.missing},
          {"measures", tree.verdict.measures},
          {"notes", list_of(tree.notes, note_json)},
          {"by_work", by_work_json(tree)}};
}

Json to_json(const Assessment& assessment, const Site& site) {
  const auto tree = [&site](const TreeAssessment& t) { return to_json(t, site); };
  return {{"trees", list_of(assessment.trees, tree)}, {"cautions", assessment.cautions},
          {"data_version", assessment.data_version},  {"seed", assessment.simulation.seed},
          {"draws", assessment.simulation.draws},     {"demo", site.settings.demo}};
}

Json to_json(const Problem& problem) {
  return {{"blocks", problem.blocks},
          {"code", static_cast<int>(problem.code)},
          {"subject", problem.subject},
          {"message", problem.message},
          {"remedy", problem.remedy}};
}

Json to_json(const ZoneRule& rule, const Tables& tables) {
  const auto zone = [&](const ZoneDefinition& z) { return zone_definition_json(z, tables); };
  const auto limit = [&](const LimitDefinition& l) { return limit_definition_json(l, tables); };
  return {{"id", rule.id},
          {"title", rule.title},
          {"jurisdiction", rule.jurisdiction},
          {"edition", rule.edition},
          {"checked", rule.checked},
          {"off_by_default", rule.off_by_default},
          {"measured_at", to_text(rule.measured_at)},
          {"stems", to_text(rule.diameter.stems)},
          {"zones", list_of(rule.zones, zone)},
          {"limits", list_of(rule.limits, limit)},
          {"notes", rule.notes}};
}

std::string written(const Json& json) {
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

}  // namespace rootstead::io
