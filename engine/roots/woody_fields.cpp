// Trees that thicken: extent from the stem diameter and the crown, decay from the diameter, depth
// from the root architecture. Formulas and sources: docs/methods/roots.md.
#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "engine/roots/field_source.hpp"
#include "engine/roots/soil_depth.hpp"
#include "engine/tables/distribution.hpp"

namespace rootstead {
namespace {

constexpr double kYoungBelow = 0.15;      // m of diameter: the crown ratio of young trees
constexpr double kMatureDecayFrom = 0.5;  // m of diameter: the decay stops rising
constexpr double kLeastExtent = 0.5;      // m
constexpr double kLowestBeta = 0.900, kHighestBeta = 0.999;

// The spread of every constant, read once.
struct WoodyConstants {
  Distribution radius_per_diameter, radius_limit, radius_per_crown, decay, beta, depth_limit;
  double outer_shift = 0, tap_shift = 0, plate_shift = 0, sector_variation = 0;
  double heart_share = 0, plate_share = 0;
};

Distribution decay_for(Length diameter, const Tables& tables) {
  const Distribution young = distribution_of(tables, "roots.decay_young");
  const Distribution mature = distribution_of(tables, "roots.decay_mature");
  const double age = std::min(1.0, diameter.metres() / kMatureDecayFrom);
  const auto mixed = [age](double a, double b) { return a + (b - a) * age; };
  return young.between(mixed(young.low(), mature.low()), mixed(young.best(), mature.best()),
                       mixed(young.high(), mature.high()));
}

std::string_view crown_ratio_id(Length diameter) {
  return diameter.metres() < kYoungBelow ? "roots.radius_per_crown_young"
                                         : "roots.radius_per_crown";
}

WoodyConstants constants_for(Length diameter, const Tables& tables) {
  const auto spread = [&](std::string_view id) { return distribution_of(tables, id); };
  const auto best = [&](std::string_view id) { return tables.parameter(id).best; };
  return {spread("roots.radius_per_diameter"),  spread("roots.radius_limit"),
          spread(crown_ratio_id(diameter)),     decay_for(diameter, tables),
          spread("roots.depth_beta"),           spread("roots.depth_limit"),
          best("roots.depth_beta_outer_shift"), best("roots.depth_beta_shift_tap"),
          best("roots.depth_beta_shift_plate"), best("roots.sector_variation"),
          best("roots.unknown_share_heart"),    best("roots.unknown_share_plate")};
}

class WoodyFields final : public FieldSource {
 public:
  WoodyFields(const Tree& tree, Length diameter, const Species* species, const Soil& soil,
              const Tables& tables)
      : tree_(tree),
        diameter_(diameter),
        architecture_(species ? species->architecture : RootArchitecture::unknown),
        crown_radius_(tree.crown ? tree.crown->mean_radius().metres() : 0),
        soil_(soil),
        tables_(tables),
        soil_factor_(rootstead::soil_factor(soil, tables)),
        steps_(depth_steps(soil, tables)),
        constants_(constants_for(diameter, tables)) {}

  RootField central() const override;
  RootField draw(RandomStream& random) const override;
  std::vector<std::string> input_ids() const override;
  std::vector<Figure> figures() const override;
  std::vector<Note> notes() const override;

 private:
  double extent(double per_diameter, double limit, double per_crown) const;
  double beta(double beta, RootArchitecture architecture) const;
  RootArchitecture drawn_architecture(double u) const;
  bool crown_known() const { return crown_radius_ > 0; }
  Figure extent_figure(const RootField& field) const;
  Figure decay_figure(const RootField& field) const;
  Figure depth_figure(const RootField& field) const;

  const Tree& tree_;
  Length diameter_;
  RootArchitecture architecture_;
  double crown_radius_;  // m, 0 where unknown
  const Soil& soil_;
  const Tables& tables_;
  double soil_factor_;
  std::vector<DepthStep> steps_;
  WoodyConstants constants_;
};

double WoodyFields::extent(double per_diameter, double limit, double per_crown) const {
  const double d = diameter_.metres();
  const double by_stem = limit * -std::expm1(-per_diameter * d / limit);
  if (!crown_known()) return std::max(kLeastExtent, by_stem * soil_factor_);
  const double by_crown = per_crown * crown_radius_;
  return std::max(kLeastExtent, std::sqrt(by_stem * by_crown) * soil_factor_);
}

double WoodyFields::beta(double beta, RootArchitecture architecture) const {
  if (architecture == RootArchitecture::tap) beta += constants_.tap_shift;
  if (architecture == RootArchitecture::plate) beta += constants_.plate_shift;
  return std::clamp(beta, kLowestBeta, kHighestBeta);
}

RootArchitecture WoodyFields::drawn_architecture(double u) const {
  if (architecture_ != RootArchitecture::unknown) return architecture_;
  if (u < constants_.heart_share) return RootArchitecture::heart;
  if (u < constants_.heart_share + constants_.plate_share) return RootArchitecture::plate;
  return RootArchitecture::tap;
}

RootField WoodyFields::central() const {
  const WoodyConstants& c = constants_;
  const double reach =
      extent(c.radius_per_diameter.best(), c.radius_limit.best(), c.radius_per_crown.best());
  RootField field;
  field.spread = WoodySpread{reach, c.decay.best() * reach};
  field.depth = {beta(c.beta.best(), architecture_), c.outer_shift,
                 rootstead::depth_limit(c.depth_limit.best(), soil_, tables_), steps_};
  return field;
}

// The order of the draws is part of the result: the same seed gives the same field.
RootField WoodyFields::draw(RandomStream& random) const {
  const WoodyConstants& c = constants_;
  const double per_diameter = c.radius_per_diameter.draw(random);
  const double limit = c.radius_limit.draw(random);
  const double per_crown = c.radius_per_crown.draw(random);
  const double reach = extent(per_diameter, limit, per_crown);
  const double decay = c.decay.draw(random);
  RootField field;
  field.spread = WoodySpread{reach, decay * reach};
  const RootArchitecture architecture = drawn_architecture(random.uniform());
  const double drawn_beta = c.beta.draw(random), deepest = c.depth_limit.draw(random);
  field.depth = {beta(drawn_beta, architecture), c.outer_shift,
                 rootstead::depth_limit(deepest, soil_, tables_), steps_};
  field.sectors = draw_sectors(c.sector_variation, random);
  field.pressing = draw_pressing(random);
  field.leak = draw_pressing(random);
  field.inputs = {per_diameter, limit,   crown_known() ? per_crown : 0,    decay,
                  drawn_beta,   deepest, static_cast<double>(architecture)};
  return field;
}

std::vector<std::string> WoodyFields::input_ids() const {
  return {"roots.radius_per_diameter", "roots.radius_limit", std::string(crown_ratio_id(diameter_)),
          "roots.decay_mature",        "roots.depth_beta",   "roots.depth_limit",
          "roots.unknown_share_heart"};
}

Figure WoodyFields::extent_figure(const RootField& field) const {
  Figure figure;
  figure.name = "roots.extent";
  figure.value = extent_of(field.spread);
  figure.unit = "m";
  figure.inputs = {
      {"D", "stem diameter, all stems together", fixed_number(diameter_.millimetres(), 0) + " mm"},
      input_from(tables_.parameter("roots.radius_per_diameter"), "k"),
      input_from(tables_.parameter("roots.radius_limit"), "Rinf"),
      {"f", "soil factor", shortest_number(soil_factor_)}};
  figure.formula = "R = Rinf (1 - exp(-k D / Rinf)) f";
  if (crown_known()) {
    figure.inputs.push_back({"Rc", "mean crown radius", fixed_number(crown_radius_, 2) + " m"});
    figure.inputs.push_back(input_from(tables_.parameter(crown_ratio_id(diameter_)), "c"));
    figure.formula = "R = sqrt(Rinf (1 - exp(-k D / Rinf)) * c Rc) f";
  }
  figure.from = {"day-2010", "abstract: 38 times the diameter when young", Status::assumption};
  return figure;
}

Figure WoodyFields::decay_figure(const RootField& field) const {
  Figure figure;
  figure.name = "roots.decay-length";
  figure.value = std::get<WoodySpread>(field.spread).decay;
  figure.unit = "m";
  figure.inputs = {input_from(tables_.parameter("roots.decay_young"), "a0"),
                   input_from(tables_.parameter("roots.decay_mature"), "a1"),
                   {"R", "extent", fixed_number(extent_of(field.spread), 2) + " m"},
                   {"D", "stem diameter", fixed_number(diameter_.millimetres(), 0) + " mm"}};
  figure.formula = "L = R (a0 + (a1 - a0) min(1, D / 500 mm)); density falls as exp(-r / L)";
  figure.from = {"rootstead", "docs/methods/roots.md", Status::assumption};
  return figure;
}

Figure WoodyFields::depth_figure(const RootField& field) const {
  Figure figure;
  figure.name = "roots.depth-beta";
  figure.value = field.depth.beta;
  figure.inputs = {input_from(tables_.parameter("roots.depth_beta"), "b0"),
                   {"type", "root architecture", std::string(to_text(architecture_))},
                   {"zmax", "deepest roots", fixed_number(field.depth.limit, 2) + " m"}};
  figure.formula =
      "share above d cm = (1 - b^d) / (1 - b^zmax), b = b0 + shift of the type - 0.010 r / R";
  figure.from = {"jackson-1996", "form Y = 1 - beta^d", Status::assumption};
  return figure;
}

std::vector<Figure> WoodyFields::figures() const {
  const RootField field = central();
  return {extent_figure(field), decay_figure(field), depth_figure(field)};
}

std::vector<Note> WoodyFields::notes() const {
  std::vector<Note> notes = soil_notes(tree_, soil_);
  if (architecture_ == RootArchitecture::unknown)
    notes.push_back({NoteCode::architecture_assumed, tree_.label(),
                     "the root architecture of this species is not in the tables: heart, plate "
                     "and tap roots are mixed in the range, heart in the best guess"});
  if (!crown_known())
    notes.push_back({NoteCode::crown_missing, tree_.label(),
                     "no crown radius is recorded: the root extent rests on the stem alone"});
  return notes;
}

}  // namespace

std::unique_ptr<FieldSource> woody_fields(const Tree& tree, Length diameter, const Species* species,
                                          const Soil& soil, const Tables& tables) {
  return std::make_unique<WoodyFields>(tree, diameter, species, soil, tables);
}

}  // namespace rootstead
