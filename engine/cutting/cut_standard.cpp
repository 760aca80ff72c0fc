#include "engine/cutting/cut_standard.hpp"

#include <algorithm>
#include <cassert>

#include "engine/base/nearest.hpp"
#include "engine/base/words.hpp"

namespace rootstead {
namespace {

constexpr std::string_view kStart = "cutting.standard.";
constexpr auto kRules = std::to_array<Word<CutRule>>({
    {CutRule::free_below, "free-below"},
    {CutRule::hand_saw_from, "hand-saw-from"},
    {CutRule::ask_from, "ask-from"},
    {CutRule::approval_from, "approval-from"},
    {CutRule::approval_within, "approval-within"},
    {CutRule::keep_from, "keep-from"},
    {CutRule::clean_from, "clean-from"},
    {CutRule::treat_from, "treat-from"},
    {CutRule::nothing_within, "nothing-within"},
    {CutRule::by_hand_girths, "by-hand-girths"},
    {CutRule::depth, "depth"},
    {CutRule::notice_days, "notice-days"},
    {CutRule::licence, "licence"},
    {CutRule::arborist_present, "arborist-present"},
});

// The id of the standard and the word of the rule in "cutting.standard.<id>.<word>".
struct RowName {
  std::string standard, rule;
};
std::optional<RowName> row_name(const std::string& id) {
  const auto last = id.rfind('.');
  if (!id.starts_with(kStart) || last <= kStart.size()) return std::nullopt;
  return RowName{id.substr(kStart.size(), last - kStart.size()), id.substr(last + 1)};
}

CutRow row_of(const Parameter& parameter, CutRule rule) {
  CutRow row;
  row.rule = rule;
  const auto unit = length_unit_from(parameter.unit);
  row.value = unit ? parameter.best * metres_per(*unit) : parameter.best;
  row.meaning = parameter.meaning;
  row.figure.name = parameter.id;
  row.figure.value = parameter.best;
  row.figure.unit = parameter.unit;
  row.figure.formula = parameter.meaning;
  row.figure.from = parameter.from;
  return row;
}

// How much a rule asks where it applies; 0 where it is not about the thickness of a root.
int strictness(CutRule rule) {
  switch (rule) {
    case CutRule::keep_from:
      return 6;
    case CutRule::approval_from:
      return 5;
    case CutRule::ask_from:
      return 4;
    case CutRule::hand_saw_from:
      return 3;
    case CutRule::clean_from:
    case CutRule::treat_from:
      return 2;
    case CutRule::free_below:
      return 1;
    default:
      return 0;
  }
}

std::string title_of(const Tables& tables, const std::string& source) {
  const Source* known = tables.source(source);
  return known ? known->title : source;
}

}  // namespace

const CutRow* CutStandard::row(CutRule rule) const {
  const auto found =
      std::find_if(rows.begin(), rows.end(), [&](const CutRow& row) { return row.rule == rule; });
  return found == rows.end() ? nullptr : &*found;
}

std::vector<const CutRow*> CutStandard::about(double thickness) const {
  std::vector<const CutRow*> about;
  for (const CutRow& row : rows) {
    if (strictness(row.rule) == 0) continue;
    const bool below = row.rule == CutRule::free_below;
    if (below ? thickness < row.value : thickness >= row.value) about.push_back(&row);
  }
  std::stable_sort(about.begin(), about.end(), [](const CutRow* a, const CutRow* b) {
    return strictness(a->rule) > strictness(b->rule);
  });
  return about;
}

std::vector<CutStandard> cut_standards(const Tables& tables) {
  std::vector<CutStandard> standards;
  for (const Parameter& parameter : tables.parameters) {
    const auto name = row_name(parameter.id);
    const auto rule = name ? cut_rule_from(name->rule) : std::nullopt;
    if (!rule) continue;
    auto standard = std::find_if(standards.begin(), standards.end(),
                                 [&](const CutStandard& one) { return one.id == name->standard; });
    if (standard == standards.end()) {
      standards.push_back({name->standard, title_of(tables, parameter.from.source), {}});
      standard = standards.end() - 1;
    }
    standard->rows.push_back(row_of(parameter, *rule));
  }
  return standards;
}

Result<CutStandard> cut_standard(const Tables& tables, std::string_view id) {
  std::vector<std::string> known;
  for (CutStandard& standard : cut_standards(tables)) {
    if (standard.id == id) return std::move(standard);
    known.push_back(standard.id);
  }
  return Error{Code::unknown_name, "cutting",
               "there is no standard of root cutting \"" + std::string(id) + "\"",
               suggestion(id, known)};
}

CutStandard default_cut_standard(const Tables& tables, UnitSystem units) {
  auto standard = cut_standard(tables, units == UnitSystem::metric ? "bs5837-2012" : "us-practice");
  assert(standard);
  return std::move(*standard);
}

std::string_view to_text(CutRule rule) {
  return word_for(kRules, rule);
}

std::optional<CutRule> cut_rule_from(std::string_view text) {
  return value_for(kRules, text);
}

}  // namespace rootstead
