#include "report/crew_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/text.hpp"
#include "engine/base/units.hpp"
#include "engine/geom/measure.hpp"
#include "report/one_page.hpp"
#include "report/wording.hpp"

namespace rootstead {
namespace {

// Rows that forbid, or make people ask; then those that say how.
constexpr std::array kAsking = {CutRule::keep_from, CutRule::approval_from, CutRule::ask_from};
constexpr std::array kHandling = {CutRule::hand_saw_from, CutRule::clean_from, CutRule::treat_from,
                                  CutRule::free_below};

template <class Rules>
const CutRow* strictest(const CutStandard& standard, const Rules& rules) {
  const CutRow* found = nullptr;
  for (const CutRule rule : rules) {
    const CutRow* row = standard.row(rule);
    if (row != nullptr && (found == nullptr || row->value < found->value)) found = row;
  }
  return found;
}

// The strictest about thick roots; null where the standard names none.
const CutRow* thick_row(const CutStandard& standard) {
  const CutRow* row = strictest(standard, kAsking);
  return row != nullptr ? row : strictest(standard, kHandling);
}

// "F1", "F1 and F2", "F1 to F4".
template <class Parts>
std::string ids_of(const Parts& parts) {
  if (parts.empty()) return {};
  if (parts.size() == 1) return parts.front().id;
  return parts.front().id + (parts.size() == 2 ? " and " : " to ") + parts.back().id;
}

// Rounded up, so that nobody comes nearer for a rounding: whole centimetres or inches.
std::string distance_up(Length distance, UnitSystem units) {
  if (units == UnitSystem::us_customary)
    return fixed_number(std::ceil(in_unit(distance, LengthUnit::inch) - 1e-6), 0) + "\u00A0in";
  return fixed_number(std::ceil(distance.centimetres() - 1e-6) * 10, 0) + "\u00A0mm";
}

std::string method_of(DigMethod method) {
  switch (method) {
    case DigMethod::air:
      return "with compressed air";
    case DigMethod::hand:
      return "by hand";
    case DigMethod::machine:
      return "as the arborist shows";
  }
  return "by hand";
}

}  // namespace

std::string thickness_in_words(Length thickness, UnitSystem units) {
  const bool metric = units == UnitSystem::metric;
  const double value = metric ? thickness.millimetres() : in_unit(thickness, LengthUnit::inch);
  const bool whole = std::abs(value - std::round(value)) < 0.05;
  return fixed_number(value, whole ? 0 : 1) + "\u00A0" + (metric ? "mm" : "in");
}

CrewWords::CrewWords(const Plan& plan, CutStandard standard)
    : plan_(&plan), standard_(std::move(standard)) {}

Result<CrewWords> CrewWords::of(const Plan& plan) {
  const ProjectSettings& s = plan.site->settings;
  const auto chosen = s.other.find(std::string(kCutStandardKey));
  CutStandard standard = default_cut_standard(*plan.tables, s.units);
  if (chosen != s.other.end() && !chosen->second.empty()) {
    ROOTSTEAD_TRY(standard, cut_standard(*plan.tables, chosen->second));
  }
  return CrewWords(plan, std::move(standard));
}

std::string CrewWords::thickness() const {
  const CutRow* row = thick_row(standard_);
  if (row == nullptr) return {};
  return thickness_in_words(Length::metres(row->value), plan_->site->settings.units) +
         mark(row->figure.from.status);
}

std::string CrewWords::length(Length length) const {
  return Wording(plan_->site->settings.units).length(length);
}

std::vector<CrewRule> CrewWords::rules() const {
  return {fence_rule(), dig_rule(), cut_rule()};
}

CrewRule CrewWords::fence_rule() const {
  const auto& protection = plan_->advice->protection;
  if (!protection || protection->fences.empty())
    return {"Machines stay off the ground round the trees.",
            "No wheels, spoil, fuel, washing out or storage there. No fence is drawn on this site: "
            "ask the arborist where the line is."};
  CrewRule rule{"Machines stay outside the fences.",
                "Fences " + ids_of(protection->fences) +
                    " stand before the first machine comes and stay to the end. Nothing is "
                    "parked, stored, tipped or washed out inside."};
  if (protection->fences.size() == 1)
    rule.detail =
        "Fence " + ids_of(protection->fences) + rule.detail.substr(rule.detail.find(" stand"));
  if (!protection->covers.empty())
    rule.detail += " Wheels only on the laid ground " + ids_of(protection->covers) + ".";
  return rule;
}

CrewRule CrewWords::dig_rule() const {
  CrewRule rule;
  const std::string thick = thickness();
  rule.rule = thick.empty() ? "Dig by hand near trees. Leave the roots whole."
                            : "Dig by hand. Leave every root of " + thick + " or more whole.";
  const auto& protection = plan_->advice->protection;
  if (protection && !protection->digs.empty())
    rule.detail = "In " + ids_of(protection->digs) +
                  " (list and plan below): hand tools or compressed air, no bucket. Pass pipes and "
                  "cables under the roots.";
  else
    rule.detail =
        "Where you open ground near a tree: hand tools or compressed air, no bucket. "
        "Work under and round the roots.";
  const std::string palm = palms();
  if (!palm.empty()) rule.detail += " " + palm;
  return rule;
}

std::string CrewWords::palms() const {
  std::vector<std::string> ids;
  Length least;
  Status status = Status::published;
  for (const TreeAdvice& tree : plan_->advice->trees) {
    for (const CutAdvice& cut : tree.cuts) {
      if (!cut.distance.palm || !cut.distance.least) continue;
      if (ids.empty() || ids.back() != tree.tree) ids.push_back(tree.tree);
      least = std::max(least, *cut.distance.least);
      status = weaker(status, weakest(cut.distance.figures, Status::assumption));
    }
  }
  if (ids.empty()) return {};
  return std::string(ids.size() == 1 ? "Palm " : "Palms ") + trees_named(*plan_, ids, 3) +
         ": no thickness counts; cut none within " +
         distance_up(least, plan_->site->settings.units) + mark(status) + " of the trunk.";
}

CrewRule CrewWords::cut_rule() const {
  const CutRow* row = thick_row(standard_);
  const std::string call = arborist_named(*plan_);
  if (row == nullptr)
    return {"A root is in the way: wet it, cover it, call.",
            "Nothing is cut before " + call + " has seen it."};
  const std::string thick = thickness() + " or more";
  switch (row->rule) {
    case CutRule::keep_from:
      return {"Roots of " + thick + " are not cut: wet, cover, call.",
              "Keep them damp under wet cloth or soil, out of sun and frost, until " + call +
                  " has been."};
    case CutRule::approval_from:
      return {"Before cutting " + thick + ": wet, cover, call.",
              "Cut only when " + call +
                  " has agreed in writing. Until then keep the root damp under wet cloth or soil."};
    default:
      return {"Before cutting " + thick + ": wet, cover, call.",
              "Cut only when " + call +
                  " has said so. Until then keep the root damp under wet cloth or soil. Thinner "
                  "roots: cut clean with a sharp hand tool, never torn."};
  }
}

std::vector<CrewStretch> CrewWords::stretches() const {
  std::vector<CrewStretch> all;
  const auto& protection = plan_->advice->protection;
  if (!protection) return all;
  const auto between = [&](Length from, Length to) { return length(from) + " to " + length(to); };
  for (const DigStretch& dig : protection->digs)
    all.push_back(
        {dig.id, dig.work, "dig " + method_of(dig.method), between(dig.from, dig.to), dig.trees});
  for (const RootCutLine& cut : protection->root_cuts)
    all.push_back({cut.id, cut.work, "cut roots by hand first",
                   length(rootstead::length_of(cut.line)) + " of its edge", cut.trees});
  for (const NoDigArea& area : protection->no_dig)
    all.push_back({area.work, area.work, "build on top, dig nothing", "", area.trees});
  for (const BorePassage& bore : protection->bores)
    all.push_back({bore.work, bore.work, "bore beneath, no open cut", between(bore.from, bore.to),
                   bore.trees});
  return all;
}

std::string CrewWords::where(const CrewStretch& stretch) const {
  return work(stretch.work) + (stretch.span.empty() ? "" : ", " + stretch.span);
}

std::string CrewWords::work(const std::string& id) const {
  const std::string name = work_named(*plan_, id);
  const auto& works = plan_->site->works;
  const auto namesakes =
      std::count_if(works.begin(), works.end(), [&](const Work& one) { return one.name == name; });
  return namesakes > 1 ? name + " (" + id + ")" : name;
}

std::vector<std::string> CrewWords::stop_signs() const {
  const std::string thick = thickness();
  return {"A tree, or the ground at its base, moves, cracks or lifts.",
          thick.empty() ? "A root is in the way that cannot be left."
                        : "A root of " + thick + " or more is in the way, or one was torn.",
          "A cable, pipe or drain is found.", "A fence is down or has been moved."};
}

std::string CrewWords::basis() const {
  const CutRow* row = thick_row(standard_);
  if (row == nullptr) return "No thickness is named by the standard chosen: every root counts.";
  return thickness() + ": " + standard_.name +
         (row->figure.from.place.empty() ? "" : ", " + row->figure.from.place) + " (" +
         std::string(to_text(row->figure.from.status)) + "). " +
         "Lengths are measured on the plan.";
}

}  // namespace rootstead
