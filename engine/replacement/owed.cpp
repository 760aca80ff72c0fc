#include "engine/replacement/owed.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "engine/rules/zone.hpp"

namespace rootstead {
namespace {

using Kind = ReplacementTerm::Kind;
using Gives = ReplacementTerm::Gives;
using FeeKind = ReplacementFee::Kind;
using Due = ReplacementFee::Due;

constexpr double kHalfInch = 0.5 * 0.0254;  // m; a table of whole inches
constexpr double kExactly = 1e-6;           // m; the diameter is that of the row
constexpr double kHeightsDiffer = 0.1;      // m; between measuring heights, worth a note

double inches(Length length) {
  return in_unit(length, LengthUnit::inch);
}

std::string inch_text(Length length) {
  return fixed_number(inches(length), 1) + " in";
}

bool takes_diameter(const ReplacementTerm& term) {
  const bool class_of_d = term.kind == Kind::by_class || term.kind == Kind::by_sum;
  return class_of_d || term.gives == Gives::stem_diameter || term.at_least.has_value();
}

bool names(const Applies& applies, GrowthForm form) {
  return std::find(applies.forms.begin(), applies.forms.end(), form) != applies.forms.end();
}

// One tree under one rule.
class Owing {
 public:
  Owing(const ReplacementRule& rule, const Tree& tree, RemovedBecause why)
      : rule_(rule), tree_(tree) {
    owed_.tree = tree.id;
    owed_.why = why;
  }

  TreeOwed answer() {
    if (!find_terms() || !find_diameter()) return std::move(owed_);
    if (term_) apply_planting();
    if (leave_ && leave_->gives == Gives::trees && !small(*leave_))
      owed_.trees_without_leave = leave_->factor;
    if (!owed_.refused) apply_fees();
    return std::move(owed_);
  }

 private:
  void refuse(Code code, std::string message, std::string remedy) {
    owed_.refused = Error{code, "tree " + tree_.label(), std::move(message), std::move(remedy)};
  }

  // A rule of fees or allowance alone is for all trees but palms and other monocots.
  bool find_terms() {
    term_ = term_for(rule_.terms, tree_);
    leave_ = term_for(rule_.terms_without_leave, tree_);
    if (term_ || leave_) return true;
    const bool has_terms = !rule_.terms.empty() || !rule_.terms_without_leave.empty();
    if (tree_.is_monocot()) {
      refuse(Code::outside_rule_domain,
             "the rule " + rule_.id +
                 " has no clause for palms in our copy, and a palm is not put "
                 "through its stem diameter",
             "ask the authority what it wants for palms");
    } else if (has_terms) {
      refuse(Code::outside_rule_domain, "no clause of the rule " + rule_.id + " is for this tree",
             "read the rule for the tree's kind, condition and category");
    }
    return !owed_.refused;
  }

  bool palm_by_diameter() const {
    const auto by = [&](const ReplacementTerm* term) {
      return term && names(term->applies, tree_.form) && takes_diameter(*term);
    };
    return by(term_) || by(leave_);
  }

  bool find_diameter() {
    if (tree_.is_monocot() && !palm_by_diameter()) return check_clear_trunk();
    const auto diameter = combined_diameter(tree_, rule_.diameter);
    if (diameter) owed_.diameter = *diameter;
    if (!diameter && rootstead::takes_diameter(rule_)) {
      owed_.refused = diameter.error();
      return false;
    }
    note_measuring();
    return check_clear_trunk();
  }

  void note_measuring() {
    if (tree_.is_monocot())
      note(NoteCode::palm_by_stem_diameter,
           "The rule " + rule_.id + " counts palms by their stem diameter, as it is published.");
    const double wanted = rule_.measured_at.length().metres();
    for (const Stem& stem : tree_.stems) {
      if (wanted <= 0 || !stem.measured_at) continue;
      if (std::abs(stem.measured_at->length().metres() - wanted) <= kHeightsDiffer) continue;
      note(NoteCode::measured_otherwise, "The rule " + rule_.id + " takes the stem at " +
                                             to_text(rule_.measured_at) + "; it was measured at " +
                                             to_text(*stem.measured_at) + ".");
      return;
    }
  }

  bool check_clear_trunk() {
    if (!term_ || !term_->clear_trunk || tree_.clear_trunk) return true;
    refuse(Code::missing_measurement, "the clear trunk of the palm is missing",
           "enter the height from the ground to the lowest leaf base");
    return false;
  }

  void note(NoteCode code, std::string text) {
    owed_.notes.push_back({code, tree_.id, std::move(text)});
  }

  // Below the size from which the rule counts?
  bool small(const ReplacementTerm& term) const {
    if (term.at_least && owed_.diameter && *owed_.diameter < term.at_least->length()) return true;
    return term.clear_trunk && tree_.clear_trunk &&
           tree_.clear_trunk->length() < term.clear_trunk->length();
  }

  void apply_planting() {
    if (term_->kind == Kind::by_sum) return;
    const auto factor = small(*term_) ? std::optional<double>(0) : factor_of(*term_);
    if (!factor) return;
    const bool trees = term_->gives == Gives::trees;
    if (trees)
      owed_.trees_owed = *factor;
    else
      owed_.diameter_owed = *owed_.diameter * *factor;
    Figure figure;
    figure.name = "replacement." + rule_.id + (trees ? ".trees-owed" : ".diameter-owed");
    figure.value = trees ? *factor : owed_.diameter_owed->metres();
    figure.unit = trees ? "" : "m";
    figure.formula =
        trees ? "trees = " + shortest_number(*factor) : "owed = " + shortest_number(*factor) + " D";
    add(std::move(figure), term_->from);
  }

  std::optional<double> factor_of(const ReplacementTerm& term) {
    if (term.kind == Kind::by_category) return category_factor(term);
    if (term.kind != Kind::by_class) return term.factor;
    if (const auto* row = class_row_for(term, *owed_.diameter)) return row->value;
    refuse(Code::outside_rule_domain,
           "a stem of " + inch_text(*owed_.diameter) + " is above the last class of " + rule_.id,
           "ask the authority");
    return std::nullopt;
  }

  std::optional<double> category_factor(const ReplacementTerm& term) {
    std::vector<std::string> known;
    for (const ReplacementTerm::Row& row : term.rows) {
      if (lower_case(trimmed(tree_.category)) == lower_case(row.category)) return row.value;
      known.push_back("\"" + row.category + "\"");
    }
    refuse(Code::missing_measurement, "its category says no class of the rule " + rule_.id,
           "enter the class that the authority gives it as its category: " + joined(known, ", "));
    return std::nullopt;
  }

  void apply_fees() {
    for (const ReplacementFee& fee : rule_.fees) {
      const auto amount = fee_of(fee);
      if (!amount) continue;
      auto& sum = fee.due == Due::without_leave ? owed_.fee_without_leave : owed_.fee;
      if (!sum) sum = Money{0, fee.amount.currency};
      sum->amount += *amount;
    }
    if (owed_.fee) add_fee(*owed_.fee, ".fee", Due::instead_of_planting);
    if (owed_.fee_without_leave)
      add_fee(*owed_.fee_without_leave, ".fee-without-leave", Due::without_leave);
  }

  std::optional<double> fee_of(const ReplacementFee& fee) {
    switch (fee.kind) {
      case FeeKind::per_tree:
        return fee.amount.amount;
      case FeeKind::per_inch_removed:
        return fee.amount.amount * inches(*owed_.diameter);
      case FeeKind::per_inch_owed:
        if (!owed_.diameter_owed) return std::nullopt;
        return fee.amount.amount * inches(*owed_.diameter_owed);
      case FeeKind::table:
        return table_fee(fee);
    }
    return std::nullopt;
  }

  std::optional<double> table_fee(const ReplacementFee& fee) {
    const ReplacementFee::Row* row = fee_row_for(fee, *owed_.diameter);
    if (row == nullptr) {
      refuse(Code::outside_rule_domain,
             "our copy of the table of " + rule_.id + " has no row for a stem of " +
                 inch_text(*owed_.diameter),
             "read the row in the authority's table, or lay a fuller copy over ours");
      return std::nullopt;
    }
    if (std::abs((*owed_.diameter - row->diameter.length()).metres()) > kExactly) {
      rounded_ = true;
      note(NoteCode::class_choice_ours, "The row of " + to_text(row->diameter) +
                                            " is taken for a stem of " +
                                            inch_text(*owed_.diameter) + "; rounding is ours.");
    }
    owed_.diameter_owed = row->owed.length();
    return row->fee;
  }

  void add_fee(const Money& sum, const std::string& suffix, Due due) {
    Figure figure;
    figure.name = "replacement." + rule_.id + suffix;
    figure.value = sum.amount;
    figure.unit = sum.currency;
    Citation from;
    std::vector<std::string> parts;
    for (const ReplacementFee& fee : rule_.fees) {
      if (fee.due != due) continue;
      from = parts.empty()
                 ? fee.from
                 : Citation{from.source, from.place, weaker(from.status, fee.from.status)};
      parts.push_back(fee.kind == FeeKind::table ? "as printed in the table"
                                                 : shortest_number(fee.amount.amount) + " " +
                                                       std::string(to_text(fee.kind)));
    }
    figure.formula = "fee = " + joined(parts, " + ");
    add(std::move(figure), from);
  }

  void add(Figure figure, Citation from) {
    if (owed_.diameter) {
      const std::string entered =
          tree_.stems.size() == 1 && tree_.stems.front().read == Stem::Read::diameter
              ? to_text(tree_.stems.front().size)
              : inch_text(*owed_.diameter);
      figure.inputs.push_back({"D", "stem diameter", entered});
    }
    if (rounded_) from.status = weaker(from.status, Status::assumption);
    if (tree_.stems.size() > 1 && rule_.stems_status && owed_.diameter)
      from.status = weaker(from.status, *rule_.stems_status);
    figure.from = std::move(from);
    owed_.figures.push_back(std::move(figure));
  }

  const ReplacementRule& rule_;
  const Tree& tree_;
  const ReplacementTerm* term_ = nullptr;
  const ReplacementTerm* leave_ = nullptr;
  bool rounded_ = false;
  TreeOwed owed_;
};

// How much of each line the allowance covers: group after group of its order, and in a group the
// lines that would owe least for an inch first, so that what remains is the most it can be.
struct OwedLine {
  const TreeOwed* owed = nullptr;
  std::size_t group = 0;
  double weight = 0;     // owed for an inch removed
  double uncovered = 1;  // share
};

std::size_t group_of(const ReplacementAllowance& allowance, const Tree& tree) {
  std::size_t group = 0;
  while (group < allowance.order.size() && !applies_to(allowance.order[group].applies, tree))
    ++group;
  return group;
}

double weight_of(const TreeOwed& owed) {
  if (!owed.diameter || *owed.diameter <= Length{}) return 0;
  const double d = owed.diameter->metres();
  if (owed.diameter_owed) return owed.diameter_owed->metres() / d;
  if (owed.trees_owed) return *owed.trees_owed / d;
  return owed.fee ? owed.fee->amount / d : 0;
}

bool counts_for_allowance(const ReplacementRule& rule, const Tree& tree) {
  if (!rule.terms.empty()) return term_for(rule.terms, tree) != nullptr;
  return !tree.is_monocot();
}

bool is_clients(const Tree& tree) {
  const std::string owner = lower_case(trimmed(tree.ownership));
  return owner.empty() || owner == "client";
}

constexpr double kSlack = 1e-9;  // a sum of halves is not raised by its rounding

std::vector<OwedLine> lines_in_order(const ReplacementRule& rule,
                                     const std::vector<const TreeOwed*>& owed, const Site& site,
                                     std::vector<std::string>& left_out) {
  std::vector<OwedLine> lines;
  for (const TreeOwed* one : owed) {
    if (one->refused) {
      left_out.push_back(one->tree);
      continue;
    }
    const Tree* tree = site.tree(one->tree);
    const std::size_t group = rule.allowance && tree ? group_of(*rule.allowance, *tree) : 0;
    lines.push_back({one, group, weight_of(*one), 1});
  }
  std::sort(left_out.begin(), left_out.end());
  std::sort(lines.begin(), lines.end(), [](const OwedLine& a, const OwedLine& b) {
    return std::tie(a.group, a.weight, a.owed->tree) < std::tie(b.group, b.weight, b.owed->tree);
  });
  return lines;
}

void cover(std::vector<OwedLine>& lines, Length left, OwedTotal& total) {
  for (OwedLine& line : lines) {
    const Length d = line.owed->diameter.value_or(Length{});
    total.removed += d;
    if (d <= Length{}) continue;
    const Length free = std::min(left, d);
    left -= free;
    total.free += free;
    line.uncovered = 1 - free / d;
  }
}

void add(const OwedLine& line, OwedTotal& total) {
  const TreeOwed& one = *line.owed;
  if (one.diameter_owed)
    total.diameter_owed =
        total.diameter_owed.value_or(Length{}) + *one.diameter_owed * line.uncovered;
  if (one.trees_owed)
    total.trees_owed = total.trees_owed.value_or(0) + *one.trees_owed * line.uncovered;
  if (!one.fee) return;
  if (!total.fee) total.fee = Money{0, one.fee->currency};
  total.fee->amount += one.fee->amount * line.uncovered;
}

void add_by_sum(const ReplacementRule& rule, OwedTotal& total, std::vector<Note>& notes) {
  const Length counted = total.removed - total.free;
  for (const ReplacementTerm& term : rule.terms) {
    if (term.kind != Kind::by_sum || counted <= Length{}) continue;
    if (const auto* row = class_row_for(term, counted))
      total.trees_owed = row->value;
    else
      notes.push_back({NoteCode::outside_rule_domain, rule.id,
                       "The stems removed add up to " + inch_text(counted) +
                           ", above the last row of the table: the authority decides."});
  }
}

}  // namespace

bool takes_diameter(const ReplacementRule& rule) {
  const auto by_term = [](const ReplacementTerm& term) { return takes_diameter(term); };
  const auto by_fee = [](const ReplacementFee& fee) {
    return fee.kind == FeeKind::per_inch_removed || fee.kind == FeeKind::table;
  };
  return rule.allowance || std::any_of(rule.terms.begin(), rule.terms.end(), by_term) ||
         std::any_of(rule.terms_without_leave.begin(), rule.terms_without_leave.end(), by_term) ||
         std::any_of(rule.fees.begin(), rule.fees.end(), by_fee);
}

const ReplacementTerm* term_for(const std::vector<ReplacementTerm>& terms, const Tree& tree) {
  const auto is_for = [&](const ReplacementTerm& term) { return applies_to(term.applies, tree); };
  const auto found = std::find_if(terms.begin(), terms.end(), is_for);
  return found == terms.end() ? nullptr : &*found;
}

TreeOwed owed_for(const ReplacementRule& rule, const Tree& tree, RemovedBecause why) {
  return Owing(rule, tree, why).answer();
}

const ReplacementFee::Row* fee_row_for(const ReplacementFee& fee, Length diameter) {
  const ReplacementFee::Row* nearest = nullptr;
  double least = kHalfInch;
  for (const ReplacementFee::Row& row : fee.rows) {
    const double off = std::abs((row.diameter.length() - diameter).metres());
    if (off > least) continue;
    least = off;
    nearest = &row;
  }
  return nearest;
}

const ReplacementTerm::Row* class_row_for(const ReplacementTerm& term, Length diameter) {
  // A stem exactly at a bound belongs to the class below it, whatever unit it was entered in.
  const Length measured = diameter - Length::metres(kExactly);
  const auto found = std::find_if(term.rows.begin(), term.rows.end(),
                                  [&](const auto& row) { return measured <= row.up_to.length(); });
  return found == term.rows.end() ? nullptr : &*found;
}

std::optional<Length> allowance_of(const ReplacementRule& rule, const Site& site,
                                   std::vector<Note>& notes) {
  if (!rule.allowance) return std::nullopt;
  std::vector<double> diameters;
  std::size_t others = 0, unmeasured = 0;
  for (const Tree& tree : site.trees) {
    if (!counts_for_allowance(rule, tree) || !is_clients(tree)) {
      ++others;
    } else if (const auto diameter = combined_diameter(tree, rule.diameter)) {
      diameters.push_back(diameter->metres());
    } else {
      ++unmeasured;
    }
  }
  if (others + unmeasured > 0)
    notes.push_back({NoteCode::allowance_base_partial, rule.id,
                     "The free share is of the trees that are the client's and that the rule is "
                     "for: " +
                         std::to_string(others) + " trees are not, and " +
                         std::to_string(unmeasured) + " have no stem diameter."});
  std::sort(diameters.begin(), diameters.end());  // the same sum in any order
  double sum = 0;
  for (const double diameter : diameters) sum += diameter;
  return Length::metres(rule.allowance->share * sum);
}

OwedTotal total_of(const ReplacementRule& rule, const std::vector<const TreeOwed*>& owed,
                   const Site& site, std::optional<Length> allowed, std::vector<Note>& notes) {
  OwedTotal total;
  total.trees = owed.size();
  total.allowed = allowed;
  std::vector<OwedLine> lines = lines_in_order(rule, owed, site, total.left_out);
  cover(lines, allowed.value_or(Length{}), total);
  for (const OwedLine& line : lines) add(line, total);
  add_by_sum(rule, total, notes);
  if (total.trees_owed) total.trees_owed = std::ceil(*total.trees_owed - kSlack);
  const bool order_matters = rule.allowance && rule.allowance->order.empty() && !lines.empty() &&
                             lines.back().weight > lines.front().weight * (1 + kSlack) &&
                             total.free > Length{};
  if (order_matters)
    notes.push_back(
        {NoteCode::allowance_order_ours, rule.id,
         "Our copy does not say which trees use up the free share; those that owe least "
         "for an inch are taken first."});
  if (!total.complete())
    notes.push_back({NoteCode::total_is_a_least, rule.id,
                     "The sums are a least: " + joined(total.left_out, ", ") +
                         " got no answer from the rule."});
  return total;
}

Citation citation_of(const ReplacementRule& rule) {
  std::optional<Citation> weakest;
  const auto take = [&](const Citation& from) {
    if (!weakest) weakest = from;
    weakest->status = weaker(weakest->status, from.status);
  };
  for (const ReplacementTerm& term : rule.terms) take(term.from);
  if (rule.allowance) take(rule.allowance->from);
  for (const ReplacementFee& fee : rule.fees) take(fee.from);
  for (const ReplacementTerm& term : rule.terms_without_leave) take(term.from);
  if (!weakest && rule.guarantee) weakest = rule.guarantee->from;
  return weakest.value_or(Citation{});
}

}  // namespace rootstead
