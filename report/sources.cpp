#include <algorithm>
#include <map>
#include <set>

#include "engine/base/text.hpp"
#include "report/book.hpp"

namespace rootstead {

using layout::Flow;
using layout::Row;

namespace {

struct Use {
  std::set<std::string> places, what;
  std::set<Status> statuses;
};

class Uses {
 public:
  void add(const Citation& from, const std::string& what) {
    if (from.source.empty()) return;
    Use& use = uses_[from.source];
    if (!from.place.empty()) use.places.insert(from.place);
    use.what.insert(what);
    use.statuses.insert(from.status);
  }
  const std::map<std::string, Use>& all() const { return uses_; }

 private:
  std::map<std::string, Use> uses_;
};

// What the chapters of advice cite beside their figures.
void add_advice_uses(const Advice& advice, Uses& uses) {
  for (const Prescription& one : advice.prescriptions()) uses.add(one.from, "method statement");
  for (const LayerState& layer : advice.soil.layers)
    for (const DensityReading& reading : layer.readings) uses.add(reading.row.from, "soil");
  for (const FillAdvice& fill : advice.fills)
    for (const FillRuleReading& reading : fill.rules) uses.add(reading.rule.from, "fill");
  for (const TrafficAdvice& traffic : advice.traffic)
    if (traffic.least != nullptr) uses.add(traffic.least->from, "ground protection");
  for (const TreeAdvice& tree : advice.trees) {
    if (tree.move) {
      for (const MovingReason& reason : tree.move->reasons) uses.add(reason.from, "moving");
      for (const Figure& figure : tree.move->figures) uses.add(figure.from, "moving");
    }
    if (tree.damage) {
      for (const OutlookAnswer* answer : {&tree.damage->vitality, &tree.damage->stability})
        for (const OutlookStatement& said : answer->statements)
          uses.add(said.from, "earlier damage");
    }
    for (const BoreAdvice& bore : tree.bores)
      for (const BoreDepth& depth : bore.depths) uses.add(depth.figure.from, "bores");
  }
  if (advice.monitoring)
    for (const Visit& visit : advice.monitoring->visits) uses.add(visit.from, "monitoring");
  for (const RuleReplacement& rule : advice.replacement.rules)
    if (rule.guarantee) uses.add(rule.guarantee->from, "guarantees");
}

Uses uses_of(const Book& book) {
  Uses uses;
  for (const std::string& id : book.site().settings.rules) {
    const ZoneRule* rule = book.plan.tables->rule(id);
    if (rule == nullptr) continue;
    for (const ZoneDefinition& zone : rule->zones) uses.add(zone.from, "zones");
    for (const LimitDefinition& limit : rule->limits) uses.add(limit.from, "limits");
  }
  for (const TreeAssessment& tree : book.assessment().trees) {
    for (const Figure& figure : figures_of(tree)) {
      const std::size_t dot = figure.name.find('.');
      uses.add(figure.from, figure.name.substr(0, dot));
    }
  }
  if (book.plan.advice != nullptr && book.plan.advice->protection) {
    const ProtectionPlan& protection = *book.plan.advice->protection;
    for (const Step& step : protection.steps) uses.add(step.from, "order of the work");
    for (const Inspection& visit : protection.inspections) uses.add(visit.from, "visits");
    for (const BillItem& item : protection.bill) uses.add(item.from, "quantities");
  }
  for (const Parameter& parameter : book.plan.tables->parameters)
    uses.add(parameter.from, "parameters of the models");
  if (book.plan.advice != nullptr) add_advice_uses(*book.plan.advice, uses);
  return uses;
}

// A work that much was taken from is not told clause by clause.
constexpr std::size_t kMostPlaces = 8;
std::string places_of(const Use& use) {
  std::vector<std::string> places(use.places.begin(), use.places.end());
  const std::size_t more = places.size() > kMostPlaces ? places.size() - kMostPlaces : 0;
  if (more > 0) places.resize(kMostPlaces);
  return joined(places, "; ") +
         (more > 0 ? "; and " + std::to_string(more) + " more places" : std::string());
}

template <class Set>
std::string listed(const Set& set, std::string_view separator) {
  return joined(std::vector<std::string>(set.begin(), set.end()), separator);
}

std::string statuses_of(const Use& use) {
  std::string text;
  for (const Status status : use.statuses)
    text += (text.empty() ? "" : "\n") + mark(status) + " " + std::string(to_text(status));
  return text;
}

}  // namespace

void add_sources(Book& book) {
  Flow flow = book.portrait();
  book.open_chapter(flow, "Sources and how far they were read", "sources");
  flow.paragraph(
      "Every work that a figure of this report cites. A status belongs to what was taken from the "
      "work, not to the work itself: the same text may have been read in one clause and be quoted "
      "from memory in another. Whoever relies on a figure marked ᵐ checks it against the text "
      "first.");
  std::vector<Row> rows;
  const Uses uses = uses_of(book);
  for (const auto& [id, use] : uses.all()) {
    const Source* source = book.plan.tables->source(id);
    rows.push_back({{{id, layout::kTableBold},
                     {source == nullptr ? "not in the table of sources" : source->title},
                     {places_of(use)},
                     {listed(use.what, ", ")},
                     {statuses_of(use)},
                     {source == nullptr ? "" : source->note}}});
  }
  table(flow,
        {{"Source", 2.2},
         {"Work", 3.3},
         {"Places", 2.7},
         {"Used for", 1.85},
         {"Status", 1.35},
         {"How it was read", 2.1}},
        rows);
  flow.heading(2, "To make this report again");
  const Assessment& a = book.assessment();
  flow.paragraph("Data version " + a.data_version + "; seed " + std::to_string(a.simulation.seed) +
                 "; " + with_thousands(a.simulation.draws) +
                 " draws. The same project, data version and seed give the same figures and the "
                 "same file, byte for byte.");
}

}  // namespace rootstead
