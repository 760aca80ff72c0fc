#include "engine/anchorage/anchorage.hpp"

#include <algorithm>
#include <cmath>

#include "engine/anchorage/cut_rose.hpp"
#include "engine/anchorage/inspection.hpp"
#include "engine/base/text.hpp"
#include "engine/roots/root_model.hpp"
#include "engine/site/diameter.hpp"

namespace rootstead {
namespace {

constexpr double kBears = 0.001;         // least loss for which a work is named
constexpr double kFeltByModel = 1e-6;    // least loss that is not rounding
constexpr double kShallowRooting = 0.6;  // m of rootable soil that makes any tree a plate

std::string_view word_of(RootArchitecture architecture) {
  switch (architecture) {
    case RootArchitecture::plate:
      return "plate";
    case RootArchitecture::tap:
      return "tap";
    case RootArchitecture::heart:
    case RootArchitecture::unknown:
      return "heart";
  }
  return "heart";
}

// The weakest direction, over kWindDirections winds.
struct Weakest {
  double kept = 1;
  int direction = 0;
  std::array<double, kWindDirections> all{};
};

Weakest weakest(const CutRose& rose, const AnchorageShares& shares) {
  Weakest result;
  result.all.fill(1);
  if (rose.uncut()) return result;
  const KeptByWind kept(rose, shares);
  for (int i = 0; i < kWindDirections; ++i) {
    const double k = kept(Angle::degrees(i * 360.0 / kWindDirections));
    result.all[static_cast<std::size_t>(i)] = k;
    if (k < result.kept) {
      result.kept = k;
      result.direction = i;
    }
  }
  return result;
}

// Everything known before the cuts are looked at.
struct Standing {
  const Tree& tree;
  const Tables& tables;
  Length diameter;
  bool diameter_known = true;
  bool palm = false;
  RootArchitecture architecture = RootArchitecture::unknown;
  bool architecture_known = false;
  bool shallow_soil = false;

  AnchorageShares shares() const { return shares_of(architecture); }
  AnchorageShares shares_of(RootArchitecture a) const { return anchorage_shares(a, palm, tables); }
};

Result<Standing> standing_of(const Tree& tree, const Tables& tables, const Soil& soil) {
  if (!tree.position)
    return Error{Code::missing_measurement, "tree " + tree.label(),
                 "it has no position, so no cut can be placed against it", "enter its position"};
  const Species* species = tables.species_of(tree.botanical_name);
  Standing standing{tree, tables, {}};
  standing.palm = roots_like_a_palm(tree, species);
  const auto diameter = combined_diameter(tree, {});
  if (!diameter && !standing.palm) return diameter.error();
  standing.diameter_known = diameter.ok();
  standing.diameter =
      diameter ? *diameter : Length::metres(tables.parameter("palms.trunk_diameter").best);
  if (species) standing.architecture = species->architecture;
  standing.architecture_known = standing.architecture != RootArchitecture::unknown;
  standing.shallow_soil =
      soil.rooting_depth && soil.rooting_depth->length().metres() < kShallowRooting;
  if (standing.shallow_soil) standing.architecture = RootArchitecture::plate;
  if (standing.architecture == RootArchitecture::unknown)
    standing.architecture = RootArchitecture::heart;
  return standing;
}

// Plate and tap roots bound what the true roots may be; palms have one class and a wider margin.
Range band(const CutRose& rose, const Standing& standing, double best) {
  const auto clipped = [](double k) { return std::clamp(k, 0.0, 1.0); };
  const double margin =
      standing.tables.parameter(standing.palm ? "anchorage.margin_palm" : "anchorage.margin").best;
  double low = best, high = best;
  if (!standing.palm) {
    low = std::min(low, weakest(rose, standing.shares_of(RootArchitecture::plate)).kept);
    high = std::max(high, weakest(rose, standing.shares_of(RootArchitecture::tap)).kept);
  }
  if (low > 1 - kFeltByModel) return {1, 1, 1};
  return {clipped(low - margin), best, clipped(high + margin)};
}

// Works whose cuts alone weaken the tree, the heaviest first.
std::vector<std::string> bearing_works(const std::vector<AnchorageCut>& cuts,
                                       const Standing& standing) {
  std::vector<std::pair<std::string, std::vector<AnchorageCut>>> works;
  for (const AnchorageCut& cut : cuts) {
    auto found = std::find_if(works.begin(), works.end(),
                              [&](const auto& w) { return w.first == cut.work; });
    if (found == works.end()) found = works.insert(works.end(), {cut.work, {}});
    found->second.push_back(cut);
  }
  const AnchorageShares shares = standing.shares();
  std::vector<std::pair<double, std::string>> bearing;
  for (const auto& [work, parts] : works) {
    const CutRose rose(standing.tree.position->at, trunk_of(standing.diameter, shares), parts);
    const double kept = weakest(rose, shares).kept;
    if (kept < 1 - kBears) bearing.emplace_back(kept, work);
  }
  std::stable_sort(bearing.begin(), bearing.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> names;
  for (auto& [kept, work] : bearing) names.push_back(std::move(work));
  return names;
}

std::string number(double value) {
  return shortest_number(value);
}

Figure figure_of(const AnchorageKept& kept, const Standing& standing, const CutFacts& facts) {
  const AnchorageShares shares = standing.shares();
  Figure figure;
  figure.name = "anchorage.kept";
  figure.value = kept.kept.best;
  figure.range = kept.kept;
  figure.inputs = {
      {"D", standing.palm ? "trunk diameter" : "stem diameter, all stems together",
       fixed_number(standing.diameter.millimetres(), 0) + " mm"},
      {"type", "root architecture",
       standing.palm ? "palm" : std::string(word_of(standing.architecture))},
      {"fT, fC, fP, fH",
       "shares of windward tension, roots under the bole, plate and soil, lee hinge",
       number(shares.tension) + ", " + number(shares.central) + ", " + number(shares.plate) + ", " +
           number(shares.hinge)},
      {"u0, u0H", "length at which a severed root still holds 63 %, windward and lee",
       number(shares.u0) + ", " + number(shares.u0_hinge) + (standing.palm ? " x 0.30 m" : " x D")},
      {"n", "nearest cut from the trunk face",
       facts.nearest ? fixed_number(*facts.nearest, 2) + " m" : "none"}};
  figure.formula =
      "k = fT KT + fC KC + fP KP + fH KH for each wind direction; a root cut at u holds "
      "1 - exp(-(u / u0)^1.5); the least k of 36 directions is shown";
  figure.from = {"smiley-2008", "calibrated on the published force losses", Status::assumption};
  return figure;
}

std::vector<Note> notes_of(const AnchorageKept& kept, const Standing& standing) {
  std::vector<Note> notes;
  const std::string& subject = standing.tree.label();
  if (standing.palm)
    notes.push_back({NoteCode::palm_model, subject,
                     "no pull test of a cut palm was found: distances count from the trunk, and "
                     "the band is wide"});
  if (!standing.diameter_known)
    notes.push_back({NoteCode::diameter_missing, subject,
                     "no trunk diameter is recorded: a trunk of " +
                         fixed_number(standing.diameter.metres(), 2) + " m is assumed"});
  if (!standing.palm && standing.shallow_soil)
    notes.push_back({NoteCode::architecture_assumed, subject,
                     "the rootable soil is less than 0.6 m deep: a shallow root plate is assumed"});
  else if (!standing.palm && !standing.architecture_known)
    notes.push_back({NoteCode::architecture_assumed, subject,
                     "the root architecture of this species is not in the tables: heart roots are "
                     "assumed, plate and tap roots bound the band"});
  if (kept.outside_tests)
    notes.push_back({NoteCode::diameter_outside_tests, subject,
                     standing.palm ? "a cut within 0.30 m of a palm is outside the model"
                                   : "no tree of this thickness was ever tested: the figure is "
                                     "an extrapolation"});
  if (!kept.reasons_to_inspect.empty())
    notes.push_back({NoteCode::anchorage_override, subject,
                     "a qualified person must look whatever the figure says"});
  return notes;
}

}  // namespace

AnchorageShares anchorage_shares(RootArchitecture architecture, bool palm, const Tables& tables) {
  const std::string prefix =
      "anchorage." + std::string(palm ? "palm" : word_of(architecture)) + "_";
  const auto best = [&](std::string_view name) { return tables.parameter(name).best; };
  const auto own = [&](std::string_view name) { return best(prefix + std::string(name)); };
  AnchorageShares shares;
  shares.tension = own("tension");
  shares.central = own("central");
  shares.plate = own("plate");
  shares.hinge = own("hinge");
  shares.u0 = own("u0");
  shares.u0_hinge = own("u0_hinge");
  shares.hinge_offset = best("anchorage.hinge_offset");
  shares.depth_scale = Length::metres(best("anchorage.depth_scale"));
  shares.plate_radius_per_unit = best("anchorage.plate_radius_per_diameter");
  if (palm) shares.unit = Length::metres(best("anchorage.palm_unit"));
  return shares;
}

double anchorage_kept(const Tree& tree, Length diameter, const AnchorageShares& shares,
                      const std::vector<AnchorageCut>& cuts, Angle wind_from) {
  const CutRose rose(tree.position->at, trunk_of(diameter, shares), cuts);
  return rose.uncut() ? 1 : KeptByWind(rose, shares)(wind_from);
}

Result<AnchorageKept> anchorage_of(const Tree& tree, const std::vector<AnchorageCut>& cuts,
                                   const Tables& tables, const Soil& soil) {
  ROOTSTEAD_TRY(const Standing standing, standing_of(tree, tables, soil));
  const AnchorageShares shares = standing.shares();
  const CutRose rose(tree.position->at, trunk_of(standing.diameter, shares), cuts);
  const Weakest best = weakest(rose, shares);
  const CutFacts facts = facts_of(rose, shares.depth_scale);
  const InspectionContext context{&tree, &soil, standing.palm, standing.architecture,
                                  standing.diameter};
  AnchorageKept kept;
  kept.kept = band(rose, standing, best.kept);
  kept.worst_from = Angle::degrees(best.direction * 360.0 / kWindDirections);
  kept.by_direction = best.all;
  kept.circumference_cut = facts.circumference_cut;
  kept.area_cut = facts.area_cut;
  if (facts.nearest) kept.nearest_cut = Length::metres(*facts.nearest);
  kept.outside_tests = outside_tests(facts, context);
  kept.reasons_to_inspect = reasons_to_inspect(facts, context);
  kept.works = bearing_works(cuts, standing);
  kept.figure = figure_of(kept, standing, facts);
  kept.notes = notes_of(kept, standing);
  return kept;
}

}  // namespace rootstead
