#include "engine/anchorage/anchorage.hpp"

#include <algorithm>
#include <cmath>

#include "engine/anchorage/cut_rose.hpp"
#include "engine/anchorage/inspection.hpp"
#include "engine/anchorage/measured_roots.hpp"
#include "engine/anchorage/restrictions.hpp"
#include "engine/anchorage/standing.hpp"
#include "engine/base/text.hpp"

namespace rootstead {
namespace {

constexpr double kBears = 0.001;       // least loss for which a work is named
constexpr double kFeltByModel = 1e-6;  // least loss that is not rounding
constexpr double kNothing = 1e-9;      // a tree that grew up holding less has no share to keep

using ByWind = std::array<double, kWindDirections>;

Angle wind_from(std::size_t direction) {
  return Angle::degrees(static_cast<double>(direction) * 360.0 / kWindDirections);
}

ByWind kept_by_wind(const CutRose& rose, const AnchorageShares& shares,
                    const std::vector<MeasuredRoot>& measured) {
  ByWind kept;
  kept.fill(1);
  if (rose.uncut()) return kept;
  const KeptByWind in_wind(rose, shares, measured);
  for (std::size_t i = 0; i < kept.size(); ++i) kept[i] = in_wind(wind_from(i));
  return kept;
}

// How much of `whole` is left, direction by direction.
ByWind share_of(const ByWind& left, const ByWind& whole) {
  ByWind share;
  for (std::size_t i = 0; i < share.size(); ++i)
    share[i] = whole[i] > kNothing ? std::min(1.0, left[i] / whole[i]) : 1;
  return share;
}

std::size_t weakest(const ByWind& kept) {
  return static_cast<std::size_t>(std::min_element(kept.begin(), kept.end()) - kept.begin());
}

// The tree's own class between the classes that bound what its roots may be. Palms have one class
// and a wider margin.
struct Spread {
  ByWind low, best, high;  // plate roots, the class of the species, tap roots
  double margin = 0;

  Range of(double plate, double own, double tap) const {
    const double low_end = std::min(plate, own), high_end = std::max(tap, own);
    if (low_end > 1 - kFeltByModel) return {1, 1, 1};
    return {std::clamp(low_end - margin, 0.0, 1.0), own, std::clamp(high_end + margin, 0.0, 1.0)};
  }
  Range at(std::size_t i) const { return of(low[i], best[i], high[i]); }
  // Each class in its own weakest direction.
  Range weakest_of_all() const {
    const auto least = [](const ByWind& kept) { return kept[weakest(kept)]; };
    return of(least(low), least(best), least(high));
  }
  std::array<Range, kWindDirections> all() const {
    std::array<Range, kWindDirections> ranges;
    for (std::size_t i = 0; i < ranges.size(); ++i) ranges[i] = at(i);
    return ranges;
  }
};

// One tree among its cuts and what restricts it.
class Hold {
 public:
  Hold(const Standing& standing, const std::vector<AnchorageCut>& cuts,
       const AnchorageContext& context)
      : standing_(standing), trunk_(trunk_of(standing.diameter, standing.shares())) {
    margin_ =
        standing.tables.parameter(standing.palm ? "anchorage.margin_palm" : "anchorage.margin")
            .best;
    if (!cuts.empty()) {
      restrictions_ = restrictions_near(standing.tree, search_reach(trunk_), context.barriers);
      seen_ = roots_seen(standing.tree, trunk_, context.evidence);
    }
    if (!standing.palm && why_not_used(seen_, standing.tables).empty()) measured_ = seen_.roots;
  }

  CutRose rose(const std::vector<AnchorageCut>& cuts) const {
    return {standing_.tree.position->at, trunk_, cuts};
  }
  CutRose rose_with_restrictions(const std::vector<AnchorageCut>& cuts) const {
    std::vector<AnchorageCut> all = restrictions_;
    all.insert(all.end(), cuts.begin(), cuts.end());
    return rose(all);
  }

  // Over a tree that nothing restricts.
  Spread standing_with(const std::vector<AnchorageCut>& cuts) const {
    const CutRose cut = rose_with_restrictions(cuts);
    const auto kept = [&](RootArchitecture a) {
      return kept_by_wind(cut, standing_.shares_of(a), measured_);
    };
    Spread spread;
    spread.margin = margin_;
    spread.best = kept(standing_.architecture);
    spread.low = standing_.palm ? spread.best : kept(RootArchitecture::plate);
    spread.high = standing_.palm ? spread.best : kept(RootArchitecture::tap);
    return spread;
  }

  // Over the tree as it grew up, between its walls.
  Spread kept_of_grown(const Spread& standing) const {
    if (restrictions_.empty()) return standing;
    const Spread grown = standing_with({});
    return {share_of(standing.low, grown.low), share_of(standing.best, grown.best),
            share_of(standing.high, grown.high), margin_};
  }

  // Works whose cuts alone weaken the tree, the heaviest first.
  std::vector<std::string> bearing_works(const std::vector<AnchorageCut>& cuts) const;

  KeptParts parts(const std::vector<AnchorageCut>& cuts, Angle wind) const {
    if (cuts.empty()) return {};
    return KeptByWind(rose_with_restrictions(cuts), standing_.shares(), measured_).parts(wind);
  }

  const RootsSeen& seen() const { return seen_; }
  bool restricted() const { return !restrictions_.empty(); }
  int measured_roots() const { return static_cast<int>(measured_.size()); }

 private:
  const Standing& standing_;
  Trunk trunk_;
  double margin_ = 0;
  std::vector<AnchorageCut> restrictions_;
  RootsSeen seen_;
  std::vector<MeasuredRoot> measured_;
};

std::vector<std::string> Hold::bearing_works(const std::vector<AnchorageCut>& cuts) const {
  std::vector<std::pair<std::string, std::vector<AnchorageCut>>> works;
  for (const AnchorageCut& cut : cuts) {
    auto found = std::find_if(works.begin(), works.end(),
                              [&](const auto& w) { return w.first == cut.work; });
    if (found == works.end()) found = works.insert(works.end(), {cut.work, {}});
    found->second.push_back(cut);
  }
  const AnchorageShares shares = standing_.shares();
  const ByWind grown = kept_by_wind(rose(restrictions_), shares, measured_);
  std::vector<std::pair<double, std::string>> bearing;
  for (const auto& [work, parts] : works) {
    const ByWind left = kept_by_wind(rose_with_restrictions(parts), shares, measured_);
    const ByWind kept = share_of(left, grown);
    if (kept[weakest(kept)] < 1 - kBears) bearing.emplace_back(kept[weakest(kept)], work);
  }
  std::stable_sort(bearing.begin(), bearing.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> names;
  for (auto& [kept, work] : bearing) names.push_back(std::move(work));
  return names;
}

std::vector<AnchorageCut> existing_of(const std::vector<AnchorageCut>& cuts) {
  std::vector<AnchorageCut> existing;
  std::copy_if(cuts.begin(), cuts.end(), std::back_inserter(existing),
               [](const AnchorageCut& cut) { return cut.existing; });
  return existing;
}

void add_shares(AnchorageKept& kept, const Hold& hold, const std::vector<AnchorageCut>& cuts,
                const Spread& before, const Spread& after) {
  const Spread spread = hold.kept_of_grown(after);
  const std::size_t worst = weakest(spread.best);
  kept.kept = spread.weakest_of_all();
  kept.worst_from = wind_from(worst);
  kept.by_direction = spread.best;
  kept.band = spread.all();
  kept.parts = hold.parts(cuts, kept.worst_from);
  kept.before = before.weakest_of_all();
  kept.after = after.weakest_of_all();
}

void add_facts(AnchorageKept& kept, const CutFacts& facts, const InspectionContext& context) {
  kept.circumference_cut = facts.circumference_cut;
  kept.area_cut = facts.area_cut;
  if (facts.nearest) kept.nearest_cut = Length::metres(*facts.nearest);
  kept.outside_tests = outside_tests(facts, context);
  kept.reasons_to_inspect = reasons_to_inspect(facts, context);
}

void add_safety(AnchorageKept& kept, const Standing& standing, const AnchorageContext& context,
                const Spread& before, const Spread& after) {
  SafetyInputs inputs{&standing.tree, standing.form, standing.palm, standing.diameter,
                      &context.soil,  &context.wind, before.all(),  after.all()};
  auto safety = safety_of(inputs, standing.tables);
  if (safety)
    kept.safety = std::move(safety).value();
  else
    kept.no_safety = safety.error();
}

void add_root_notes(AnchorageKept& kept, const Standing& standing, const Hold& hold) {
  const std::string& subject = standing.tree.label();
  if (kept.measured_roots > 0)
    kept.notes.push_back({NoteCode::roots_measured, subject,
                          std::to_string(kept.measured_roots) +
                              " roots found near the stem stand for the even roots that are "
                              "assumed elsewhere"});
  else if (hold.seen().any() && !standing.palm)
    kept.notes.push_back({NoteCode::roots_measured, subject,
                          "roots found near the stem are not used for the anchorage: " +
                              why_not_used(hold.seen(), standing.tables)});
  if (hold.restricted())
    kept.notes.push_back({NoteCode::anchorage_restricted, subject,
                          "walls, kerbs or foundations near the stem count as the ground it grew "
                          "up in: with earlier cuts they left " +
                              percent(kept.before.best, 0) +
                              " of an unrestricted tree's anchorage"});
}

}  // namespace

double anchorage_kept(const Tree& tree, Length diameter, const AnchorageShares& shares,
                      const std::vector<AnchorageCut>& cuts, Angle wind_from) {
  const CutRose rose(tree.position->at, trunk_of(diameter, shares), cuts);
  return rose.uncut() ? 1 : KeptByWind(rose, shares)(wind_from);
}

Result<AnchorageKept> anchorage_of(const Tree& tree, const std::vector<AnchorageCut>& cuts,
                                   const Tables& tables, const AnchorageContext& context) {
  ROOTSTEAD_TRY(const Standing standing, standing_of(tree, tables, context.soil));
  const Hold hold(standing, cuts, context);
  const CutFacts facts = facts_of(hold.rose(cuts), standing.shares());
  const Spread before = hold.standing_with(existing_of(cuts));
  const Spread after = hold.standing_with(cuts);
  AnchorageKept kept;
  kept.shares = standing.shares();
  kept.measured_roots = hold.measured_roots();
  add_shares(kept, hold, cuts, before, after);
  add_facts(
      kept, facts,
      {&tree, &context.soil, standing.palm, standing.architecture, standing.diameter, &tables});
  kept.works = hold.bearing_works(cuts);
  if (context.wind.standard != Wind::Standard::none && !cuts.empty())
    add_safety(kept, standing, context, before, after);
  kept.figure = kept_figure(kept, standing, facts);
  kept.notes = notes_of(kept, standing);
  add_root_notes(kept, standing, hold);
  return kept;
}

Result<AnchorageKept> anchorage_of(const Tree& tree, const std::vector<AnchorageCut>& cuts,
                                   const Tables& tables, const Soil& soil) {
  return anchorage_of(tree, cuts, tables, AnchorageContext{soil, {}, {}, {}});
}

}  // namespace rootstead
