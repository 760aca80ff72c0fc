#include "engine/anchorage/safety.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <optional>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

constexpr double kNinetyPerCent = 1.645;  // standard deviations to P5 and P95
constexpr double kShortReturn = 10;       // years, shown beside the project's own
constexpr Length kThinnestTested = Length::metres(0.08), kThickestTested = Length::metres(1.0);
constexpr double kPa = 1000;

Error refused(const SafetyInputs& in, Code code, std::string message, std::string remedy) {
  return {code, "tree " + in.tree->label(), std::move(message), std::move(remedy)};
}

// Nothing where a safety can be worked out.
std::optional<Error> refusal(const SafetyInputs& in) {
  if (in.palm)
    return refused(in, Code::outside_rule_domain,
                   "no pulling test of a palm is known, so no safety against wind is given",
                   "have it inspected");
  if (in.diameter < kThinnestTested || in.diameter > kThickestTested)
    return refused(in, Code::outside_rule_domain,
                   "no pulling test of a stem thinner than 0.08 m or thicker than 1.0 m is known, "
                   "so no safety against wind is given",
                   "have it inspected or pull-tested");
  if (!in.tree->height)
    return refused(in, Code::missing_measurement, "its height is not recorded",
                   "measure it: without it no wind load is given");
  if (!in.tree->crown)
    return refused(in, Code::missing_measurement, "its crown is not recorded",
                   "measure the spread: without it no wind load is given");
  if (!in.tree->crown->base_height)
    return refused(in, Code::missing_measurement, "the height of its crown base is not recorded",
                   "measure it: without it no wind load is given");
  const Length base = in.tree->crown->base_height->length(), top = in.tree->height->length();
  if (base < Length() || base >= top || in.tree->crown->mean_radius() <= Length())
    return refused(in, Code::value_invalid, "its crown has no height or no width",
                   "check height, crown base and spread");
  return std::nullopt;
}

WindTarget target_of(const SafetyInputs& in, double drag, const Tables& tables) {
  const Crown& crown = *in.tree->crown;
  WindTarget target;
  target.crown = {CrownShape::ellipse, crown.base_height->length(), in.tree->height->length(),
                  crown.mean_radius() * 2};
  target.crown_drag = drag;
  target.stem = in.diameter;
  target.stem_drag = tables.parameter("wind.stem_drag").best;
  return target;
}

// Four radii that are not all alike were measured; one spread written four times was not.
bool measured_round(const Crown& crown) {
  return std::any_of(crown.radius.begin(), crown.radius.end(), [&](const EnteredLength& radius) {
    return radius.length() != crown.radius.front().length();
  });
}

struct ReturnPeriod {
  std::string name;
  double years = 50;
};

std::vector<ReturnPeriod> periods_of(const Wind& wind) {
  if (wind.standard != Wind::Standard::en1991) return {{"map-speed", wind.return_years}};
  std::vector<ReturnPeriod> periods = {
      {shortest_number(wind.return_years) + "-years", wind.return_years}};
  if (wind.return_years != kShortReturn)
    periods.push_back({shortest_number(kShortReturn) + "-years", kShortReturn});
  return periods;
}

std::string kilonewton_metres(double newton_metres) {
  return fixed_number(newton_metres / kPa, 1) + " kNm";
}

class SafetyMaker {
 public:
  SafetyMaker(const SafetyInputs& in, const Tables& tables)
      : in_(in),
        tables_(tables),
        drag_(crown_drag_of(in.tree->botanical_name, in.form, tables)),
        resistance_(anchorage_resistance_of(in.tree->botanical_name, tables)),
        hold_(ground_hold(*in.soil, tables)) {
    species_known_ = resistance_.botanical_name != "all";
    sigma_ = safety_sigma(species_known_, measured_round(*in.tree->crown), tables);
    strength_ = hold_.factor *
                anchorage_strength(resistance_.middle(), in.diameter, in.tree->height->length());
  }

  Outcome add(const ReturnPeriod& period) {
    ROOTSTEAD_TRY(const WindField wind, WindField::of(*in_.wind, period.years, tables_));
    if (safety_.notes.empty()) safety_.notes = wind.notes();
    const double moment = add_wind(period, wind);
    for (const bool saturated : {false, true}) add_band(period, wind, moment, saturated);
    return Nothing{};
  }

  AnchorageSafety finished() {
    safety_.figures.push_back(strength_figure());
    add_notes();
    return std::move(safety_);
  }

 private:
  double moment_by(const WindField& wind, double drag) const {
    return wind_load(target_of(in_, drag, tables_), wind).moment() *
           tables_.parameter("wind.dynamic_factor").best;
  }

  // Pressure at the middle of the crown, and the moment about the foot of the stem.
  double add_wind(const ReturnPeriod& period, const WindField& wind) {
    const CrownOutline crown = target_of(in_, drag_.in_leaf.best, tables_).crown;
    safety_.figures.push_back(wind.figure("wind.pressure." + period.name, crown.centre_height()));
    const double moment = moment_by(wind, drag_.in_leaf.best);
    Figure figure;
    figure.name = "wind.moment." + period.name;
    figure.value = moment / kPa;
    figure.unit = "kNm";
    figure.range = Range{moment_by(wind, drag_.in_leaf.low) / kPa, moment / kPa,
                         moment_by(wind, drag_.in_leaf.high) / kPa};
    figure.formula =
        "M_w = c_s c_d sum over strips of q(z) (C_d w(z) + C_stem D) z dz; low and high by the "
        "range of C_d";
    figure.inputs = {
        {"C_d", "drag of the crown in leaf, row " + drag_.taxon,
         shortest_number(drag_.in_leaf.best) + " (" + shortest_number(drag_.in_leaf.low) + " to " +
             shortest_number(drag_.in_leaf.high) + ")"},
        {"w(z)", "crown outline, an ellipse of width and height",
         fixed_number(crown.width.metres(), 1) + " m x " +
             fixed_number(crown.height().metres(), 1) + " m"},
        {"A", "its area", fixed_number(crown.area().square_metres(), 1) + " m2"},
        {"H", "height of the tree", to_text(*in_.tree->height)},
        {"c_s", "size factor",
         fixed_number(wind.size_factor(crown.top, crown.width, crown.height()), 3)}};
    figure.from = {drag_.from.source, drag_.from.place, Status::assumption};
    safety_.figures.push_back(std::move(figure));
    return moment;
  }

  // The weight of a leaning tree pulls it over where it leans to; the other way it is no help.
  double lean_towards(double direction_of_fall) const {
    if (!in_.tree->lean) return 0;
    const Lean& lean = *in_.tree->lean;
    return std::max(
        0.0, lean_moment(in_.diameter, in_.tree->height->length(), lean.from_vertical, tables_) *
                 std::cos(direction_of_fall - lean.towards.radians()));
  }

  void add_band(const ReturnPeriod& period, const WindField& wind, double moment, bool saturated) {
    const double strength = strength_ * (saturated ? hold_.saturated : 1);
    const double spread = std::exp(kNinetyPerCent * sigma_);
    double weakest = 0;
    std::size_t at = 0;
    for (std::size_t i = 0; i < kWindDirections; ++i) {
      const double safety = in_.after[i].best * strength / load(i, moment);
      if (i == 0 || safety < weakest) weakest = safety, at = i;
    }
    const double uncut = strength / load(at, moment);
    const auto band = [&](const Range& kept) {
      return Range{kept.low * uncut / spread, kept.best * uncut, kept.high * uncut * spread};
    };
    SafetyBand result{period.name, saturated, band(in_.before[at]), band(in_.after[at]),
                      Angle::degrees(static_cast<double>(at) * 360 / kWindDirections)};
    add_figures(result, wind, uncut, spread, moment);
    safety_.bands.push_back(std::move(result));
  }

  double load(std::size_t direction, double moment) const {
    const double wind_from = Angle::degrees(static_cast<double>(direction) * 10).radians();
    return moment + lean_towards(wind_from + Angle::degrees(180).radians());
  }

  void add_figures(const SafetyBand& band, const WindField& wind, double uncut, double spread,
                   double moment) {
    Figure figure;
    figure.formula =
        "SF = k S M_a / (M_w + M_self) in the direction weakest after the works; P5 to P95: times "
        "and over exp(1.645 sigma), and the band of k; " +
        std::string(kSafetyCaution);
    figure.inputs = {
        {"M_a", "strength of the uncut tree, half of those tested held less",
         kilonewton_metres(strength_)},
        {"S", band.saturated ? "ground nearly saturated" : "ground as recorded",
         shortest_number(band.saturated ? hold_.saturated : 1)},
        {"M_w", "moment of the wind", kilonewton_metres(moment)},
        {"M_self", "moment of its own weight, leaning",
         in_.tree->lean ? "in its lean" : "none recorded"},
        {"sigma", "spread of the logarithm, as a factor", "x/" + fixed_number(spread, 1)},
        {"wind from", "direction", fixed_number(band.wind_from.degrees(), 0) + " deg"}};
    figure.from = {"rootstead", "docs/methods/anchorage.md",
                   weaker(wind.status(), Status::assumption)};
    const std::string tail = "." + band.wind + (band.saturated ? ".saturated" : "");
    for (const auto& [name, range, k] :
         {std::tuple{"anchorage.safety-before", band.before, band.before.best / uncut},
          std::tuple{"anchorage.safety-after", band.after, band.after.best / uncut}}) {
      Figure one = figure;
      one.name = name + tail;
      one.value = range.best;
      one.range = range;
      one.inputs.insert(one.inputs.begin(),
                        {"k", "share of the anchorage that stands, best", fixed_number(k, 3)});
      safety_.figures.push_back(std::move(one));
    }
  }

  Figure strength_figure() const {
    Figure figure;
    figure.name = "anchorage.strength";
    figure.value = strength_ / kPa;
    figure.unit = "kNm";
    const double spread = std::exp(kNinetyPerCent * strength_sigma());
    figure.range = Range{figure.value / spread, figure.value, figure.value * spread};
    figure.formula = "M_a = S_soil c D^2 H; P5 to P95 of the trees pulled";
    figure.inputs = {
        {"c",
         "row " + resistance_.botanical_name + ", " + std::to_string(resistance_.trees) + " trees",
         shortest_number(resistance_.middle()) + " kNm/m3"},
        {"D", "stem diameter", fixed_number(in_.diameter.metres(), 3) + " m"},
        {"H", "height of the tree", to_text(*in_.tree->height)},
        {"S_soil", "drainage and depth", shortest_number(hold_.factor)}};
    figure.from = resistance_.from;
    if (hold_.factor != 1) figure.from.status = weaker(figure.from.status, Status::assumption);
    return figure;
  }

  double strength_sigma() const {
    return tables_
        .parameter(species_known_ ? "anchorage.sigma_strength_known"
                                  : "anchorage.sigma_strength_unknown")
        .best;
  }

  void add_notes() {
    const std::string& subject = in_.tree->label();
    safety_.notes.push_back({NoteCode::safety_is_a_band, subject, std::string(kSafetyCaution)});
    constexpr Length kThin = Length::metres(0.2), kThick = Length::metres(0.4);
    if (in_.diameter < kThin || in_.diameter > kThick)
      safety_.notes.push_back({NoteCode::diameter_outside_tests, subject,
                               "cut trees were tested with stems of 0.2 to 0.4 m only; this one "
                               "has " +
                                   fixed_number(in_.diameter.metres(), 2) + " m"});
    if (!species_known_)
      safety_.notes.push_back({NoteCode::species_missing, subject,
                               "no pulling test of this species is in the tables: the strength of "
                               "all trees pulled is taken, and its wide spread"});
    if (hold_.wet)
      safety_.notes.push_back({NoteCode::safety_is_a_band, subject,
                               "the ground is recorded as wet: read the safety of saturated "
                               "ground"});
  }

  const SafetyInputs& in_;
  const Tables& tables_;
  const CrownDrag& drag_;
  const AnchorageResistance& resistance_;
  GroundHold hold_;
  bool species_known_ = false;
  double sigma_ = 0, strength_ = 0;
  AnchorageSafety safety_;
};

}  // namespace

double safety_sigma(bool species_known, bool crown_measured_round, const Tables& tables) {
  const auto squared = [&](std::string_view id) {
    const double sigma = tables.parameter("anchorage.sigma_" + std::string(id)).best;
    return sigma * sigma;
  };
  return std::sqrt(squared(species_known ? "strength_known" : "strength_unknown") +
                   squared("drag") + (crown_measured_round ? 0 : squared("crown_area")) +
                   squared("dynamics") + squared("soil"));
}

Result<AnchorageSafety> safety_of(const SafetyInputs& inputs, const Tables& tables) {
  assert(inputs.wind->standard != Wind::Standard::none);
  if (const auto why = refusal(inputs)) return *why;
  SafetyMaker maker(inputs, tables);
  for (const ReturnPeriod& period : periods_of(*inputs.wind))
    if (const Outcome added = maker.add(period); !added) return added.error();
  return maker.finished();
}

}  // namespace rootstead
