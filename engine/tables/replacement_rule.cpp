#include "engine/tables/replacement_rule.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/nearest.hpp"
#include "engine/base/text.hpp"
#include "engine/base/words.hpp"

namespace rootstead {
namespace {

// Printed amounts are rounded to whole units of money; more than this is no rounding. Our choice.
constexpr double kRoundingShare = 0.01;
constexpr double kMostTreesForOne = 1000;  // beyond this a slip of the pen is likelier

constexpr Words<ReplacementTerm::Kind, 5> kTermKinds{{
    {ReplacementTerm::Kind::diameter_share, "share of diameter"},
    {ReplacementTerm::Kind::number, "number"},
    {ReplacementTerm::Kind::by_class, "by class of diameter"},
    {ReplacementTerm::Kind::by_category, "by category"},
    {ReplacementTerm::Kind::by_sum, "by sum of diameters"},
}};
constexpr Words<ReplacementTerm::Gives, 2> kGives{{
    {ReplacementTerm::Gives::stem_diameter, "diameter"},
    {ReplacementTerm::Gives::trees, "trees"},
}};
constexpr Words<ReplacementFee::Kind, 4> kFeeKinds{{
    {ReplacementFee::Kind::per_inch_removed, "per inch removed"},
    {ReplacementFee::Kind::per_inch_owed, "per inch owed"},
    {ReplacementFee::Kind::per_tree, "per tree"},
    {ReplacementFee::Kind::table, "table"},
}};
constexpr Words<ReplacementFee::Due, 2> kDues{{
    {ReplacementFee::Due::instead_of_planting, "instead of planting"},
    {ReplacementFee::Due::without_leave, "without leave"},
}};
constexpr Words<Guarantee::Basis, 3> kBases{{
    {Guarantee::Basis::planting_cost, "planting cost"},
    {Guarantee::Basis::tree_value, "tree value"},
    {Guarantee::Basis::stated_elsewhere, "stated elsewhere"},
}};

double owed_inches(const ReplacementFee::Row& row) {
  return in_unit(row.owed.length(), LengthUnit::inch);
}

// The fee per inch in the middle of the rows; nothing where fewer than three could tell.
std::optional<double> middle_per_inch(const ReplacementFee& fee) {
  std::vector<double> each;
  for (const ReplacementFee::Row& row : fee.rows)
    if (owed_inches(row) > 0) each.push_back(row.fee / owed_inches(row));
  constexpr std::size_t kFewest = 3;
  if (each.size() < kFewest) return std::nullopt;
  std::sort(each.begin(), each.end());
  return each[each.size() / 2];
}

void add_odd_fees(const ReplacementRule& rule, const ReplacementFee& fee,
                  std::vector<TableAnomaly>& found) {
  const auto per_inch = fee.pattern_per_inch ? fee.pattern_per_inch : middle_per_inch(fee);
  if (!per_inch) return;
  for (const ReplacementFee::Row& row : fee.rows) {
    const double pattern = *per_inch * owed_inches(row);
    if (std::abs(row.fee - pattern) <= kRoundingShare * pattern) continue;
    found.push_back({rule.id, to_text(row.diameter) + ", " + to_text(row.owed) + " owed", row.fee,
                     pattern, fee.amount.currency});
  }
}

void add_odd_classes(const ReplacementRule& rule, const ReplacementTerm& term,
                     std::vector<TableAnomaly>& found) {
  using Kind = ReplacementTerm::Kind;
  if (term.kind != Kind::by_class && term.kind != Kind::by_sum) return;
  double most = 0;
  for (const ReplacementTerm::Row& row : term.rows) {
    if (row.value < most)
      found.push_back({rule.id, "up to " + to_text(row.up_to), row.value, most,
                       term.gives == ReplacementTerm::Gives::trees ? "trees" : "times D"});
    most = std::max(most, row.value);
  }
}

class RuleCheck {
 public:
  RuleCheck(const ReplacementRule& rule, const std::vector<Source>& sources)
      : rule_(rule), sources_(sources) {}

  std::vector<Error> run() {
    if (rule_.id.empty()) error("", "the id is missing", "add it, e.g. id = \"my-town\"");
    if (rule_.title.empty()) error("", "the title is missing", "say in words what the rule is");
    const bool owed = !rule_.terms.empty() || !rule_.terms_without_leave.empty();
    if (!owed && !rule_.allowance && rule_.fees.empty() && !rule_.guarantee)
      error("", "nothing is asked for", "add [[planting]], [allowance], [[fee]] or [guarantee]");
    for (const ReplacementTerm& term : rule_.terms) check(term);
    for (const ReplacementTerm& term : rule_.terms_without_leave) check(term);
    if (rule_.allowance) check(*rule_.allowance);
    for (const ReplacementFee& fee : rule_.fees) check(fee);
    if (rule_.guarantee) check(*rule_.guarantee);
    return std::move(errors_);
  }

 private:
  void error(const std::string& part, std::string message, std::string remedy) {
    errors_.push_back({Code::table_incoherent,
                       "replacement rule " + (rule_.id.empty() ? rule_.file : rule_.id) +
                           (part.empty() ? "" : ", " + part),
                       std::move(message), std::move(remedy)});
  }

  void check(const Citation& from, const std::string& part) {
    const auto same = [&](const Source& source) { return source.id == from.source; };
    if (std::any_of(sources_.begin(), sources_.end(), same)) return;
    std::vector<std::string> ids;
    for (const Source& source : sources_) ids.push_back(source.id);
    error(part, "the source \"" + from.source + "\" is not in sources.csv",
          from.source.empty() ? "name the source" : suggestion(from.source, ids));
  }

  void check(const ReplacementTerm& term) {
    using Kind = ReplacementTerm::Kind;
    const std::string part = "planting " + std::string(to_text(term.kind));
    check(term.from, part);
    const bool rows =
        term.kind == Kind::by_class || term.kind == Kind::by_category || term.kind == Kind::by_sum;
    if (rows && term.rows.empty()) error(part, "there are no rows", "add rows = [{ ... }]");
    if (!rows && !(term.factor > 0 && term.factor <= kMostTreesForOne))
      error(part, shortest_number(term.factor) + " for a tree is unlikely", "check the factor");
    if (term.kind == Kind::by_sum && term.gives != ReplacementTerm::Gives::trees)
      error(part, "a sum of diameters gives trees", "write gives = \"trees\"");
    for (const ReplacementTerm::Row& row : term.rows) check(row, term, part);
  }

  void check(const ReplacementTerm::Row& row, const ReplacementTerm& term,
             const std::string& part) {
    if (row.value < 0 || row.value > kMostTreesForOne)
      error(part, shortest_number(row.value) + " for a tree is unlikely", "check the value");
    const bool named = term.kind == ReplacementTerm::Kind::by_category;
    if (named && row.category.empty())
      error(part, "a row names no category", "add category = \"...\"");
    if (named) return;
    if (row.up_to.length() <= Length{})
      error(part, "a row has no upper bound above zero", "add up_to = \"10 in\"");
    else if (&row != &term.rows.front() && row.up_to.length() <= (&row - 1)->up_to.length())
      error(part, "the rows do not rise", "order them by up_to");
  }

  void check(const ReplacementAllowance& allowance) {
    check(allowance.from, "allowance");
    if (!(allowance.share > 0 && allowance.share < 1))
      error("allowance", "the share is not between 0 and 1", "write e.g. share = \"30 %\"");
    for (const ReplacementAllowance::Group& group : allowance.order)
      if (group.name.empty()) error("allowance", "a group has no name", "add name = \"...\"");
  }

  void check(const ReplacementFee& fee) {
    const std::string part = "fee " + std::string(to_text(fee.kind));
    check(fee.from, part);
    if (fee.amount.currency.empty())
      error(part, "the currency is missing", "add e.g. currency = \"USD\"");
    if (fee.pattern_per_inch && *fee.pattern_per_inch <= 0)
      error(part, "the pattern is not above zero", "check pattern_per_inch");
    if (fee.kind != ReplacementFee::Kind::table) {
      if (fee.amount.amount <= 0) error(part, "the amount is not above zero", "check it");
      return;
    }
    if (fee.rows.empty()) error(part, "the table has no rows", "add rows = [{ ... }]");
    for (const ReplacementFee::Row& row : fee.rows) {
      if (row.diameter.length() <= Length{} || row.owed.length() <= Length{} || row.fee <= 0)
        error(part, "a row is not above zero", "check diameter, owed and fee");
      if (&row != &fee.rows.front() && row.diameter.length() <= (&row - 1)->diameter.length())
        error(part, "the rows do not rise", "order them by diameter");
    }
  }

  void check(const Guarantee& guarantee) {
    check(guarantee.from, "guarantee");
    const bool one_sided = guarantee.least_share.has_value() != guarantee.most_share.has_value();
    const double least = guarantee.least_share.value_or(1), most = guarantee.most_share.value_or(1);
    if (one_sided || !(least > 0 && least <= most))
      error("guarantee", "least and most do not rise from above zero", "give both, in order");
    if (guarantee.at_most &&
        (guarantee.at_most->amount <= 0 || guarantee.at_most->currency.empty()))
      error("guarantee", "at_most is no sum of money", "give at_most and currency");
    check_stages(guarantee);
  }

  void check_stages(const Guarantee& guarantee) {
    double released = 0, months = 0;
    for (const Guarantee::Stage& stage : guarantee.stages) {
      released += stage.share.value_or(0);
      if (stage.share && !(*stage.share > 0 && *stage.share <= 1))
        error("guarantee", "a stage's share is not between 0 and 1", "write e.g. \"50 %\"");
      if (stage.condition.empty())
        error("guarantee", "a stage has no condition", "say when it is released");
      if (stage.months.value_or(months) < months)
        error("guarantee", "the stages do not follow each other", "order them by months");
      months = stage.months.value_or(months);
    }
    constexpr double kSlack = 1e-9;
    if (released > 1 + kSlack)
      error("guarantee", "the stages release more than the whole", "check their shares");
  }

  const ReplacementRule& rule_;
  const std::vector<Source>& sources_;
  std::vector<Error> errors_;
};

}  // namespace

std::string TableAnomaly::sentence() const {
  return "In the table of " + rule + " the row " + row + " prints " + shortest_number(printed) +
         " " + unit + " where the pattern of its table gives " + fixed_number(pattern, 0) + " " +
         unit + "; the printed figure is used.";
}

std::vector<TableAnomaly> anomalies_of(const ReplacementRule& rule) {
  std::vector<TableAnomaly> found;
  for (const ReplacementFee& fee : rule.fees)
    if (fee.kind == ReplacementFee::Kind::table) add_odd_fees(rule, fee, found);
  for (const ReplacementTerm& term : rule.terms) add_odd_classes(rule, term, found);
  for (const ReplacementTerm& term : rule.terms_without_leave) add_odd_classes(rule, term, found);
  return found;
}

std::vector<Error> coherence(const ReplacementRule& rule, const std::vector<Source>& sources) {
  return RuleCheck(rule, sources).run();
}

std::string_view to_text(ReplacementTerm::Kind kind) {
  return word_for(kTermKinds, kind);
}
std::string_view to_text(ReplacementTerm::Gives gives) {
  return word_for(kGives, gives);
}
std::string_view to_text(ReplacementFee::Kind kind) {
  return word_for(kFeeKinds, kind);
}
std::string_view to_text(ReplacementFee::Due due) {
  return word_for(kDues, due);
}
std::string_view to_text(Guarantee::Basis basis) {
  return word_for(kBases, basis);
}
std::optional<ReplacementTerm::Kind> replacement_kind_from(std::string_view text) {
  return value_for(kTermKinds, text);
}
std::optional<ReplacementTerm::Gives> replacement_gives_from(std::string_view text) {
  return value_for(kGives, text);
}
std::optional<ReplacementFee::Kind> fee_kind_from(std::string_view text) {
  return value_for(kFeeKinds, text);
}
std::optional<ReplacementFee::Due> fee_due_from(std::string_view text) {
  return value_for(kDues, text);
}
std::optional<Guarantee::Basis> guarantee_basis_from(std::string_view text) {
  return value_for(kBases, text);
}

}  // namespace rootstead
