#include "engine/roots/quantities.hpp"

#include <cmath>
#include <string>
#include <utility>

#include "engine/base/text.hpp"
#include "engine/site/diameter.hpp"
#include "engine/tables/distribution.hpp"
#include "engine/tables/traits.hpp"

namespace rootstead {
namespace {

constexpr double kGramsPerKilogram = 1000;

// A median and the standard deviation of the logarithm; factors multiply the one and add the
// squares of the other.
struct Lognormal {
  double median = 0, sigma = 0;

  Range range() const { return lognormal_range(median, sigma); }
  friend Lognormal operator*(const Lognormal& a, const Lognormal& b) {
    return {a.median * b.median, std::hypot(a.sigma, b.sigma)};
  }
};

Lognormal factor_from(const Tables& tables, std::string_view id) {
  const Distribution spread = distribution_of(tables, id);
  return {spread.best(), spread.sigma()};
}

// Deciduous conifers were too few to be fitted alone.
std::string_view mass_key(TraitGroup group) {
  return key_of(group == TraitGroup::deciduous_conifer ? TraitGroup::conifer : group);
}

class Weighing {
 public:
  Weighing(Length diameter, TraitGroup group, const Tables& tables)
      : diameter_(diameter), group_(group), tables_(tables) {}

  RootQuantities weighed() const;

 private:
  Lognormal power_law(const std::string& part) const;
  double per_shoot(const std::string& part) const;
  // Of all root mass, by the split of Chojnacky et al.
  Lognormal fine_share() const;

  Figure figure(std::string name, std::string unit, const Lognormal& value,
                const std::vector<std::string>& parameters, std::string formula) const;

  Length diameter_;
  TraitGroup group_;
  const Tables& tables_;
};

std::string fit_id(const std::string& part, TraitGroup group, const std::string& which) {
  return "traits." + part + "." + std::string(mass_key(group)) + "." + which;
}

Lognormal Weighing::power_law(const std::string& part) const {
  const double power = tables_.parameter(fit_id(part, group_, "power")).best;
  const Lognormal factor = factor_from(tables_, fit_id(part, group_, "factor"));
  return {factor.median * std::pow(diameter_.centimetres(), power), factor.sigma};
}

double Weighing::per_shoot(const std::string& part) const {
  return std::exp(tables_.parameter("traits." + part + ".constant").best +
                  tables_.parameter("traits." + part + ".slope").best *
                      std::log(diameter_.centimetres()));
}

Lognormal Weighing::fine_share() const {
  const double fine = per_shoot("fine_roots");
  return {fine / (fine + per_shoot("coarse_roots")),
          distribution_of(tables_, "traits.fine_roots.constant").sigma()};
}

Figure Weighing::figure(std::string name, std::string unit, const Lognormal& value,
                        const std::vector<std::string>& parameters, std::string formula) const {
  Figure made;
  made.name = std::move(name);
  made.value = value.median;
  made.unit = std::move(unit);
  made.range = value.range();
  made.inputs = {
      {"D", "stem diameter, all stems together", fixed_number(diameter_.millimetres(), 0) + " mm"},
      {"kind", "group of trees", std::string(to_text(group_))}};
  made.formula = std::move(formula);
  Status status = Status::published;
  for (const std::string& id : parameters) {
    const Parameter& parameter = tables_.parameter(id);
    made.inputs.push_back(input_from(parameter, id.substr(id.rfind('.') + 1)));
    status = weaker(status, parameter.from.status);
    made.from = parameter.from;  // the last one is what the figure rests on most
  }
  made.from.status = status;
  return made;
}

RootQuantities Weighing::weighed() const {
  const Lognormal roots = power_law("root_mass");
  const Lognormal ratio = power_law("root_per_shoot");
  const Lognormal fine = roots * fine_share();
  const std::string length_id = "traits.fine_roots.length_per_mass";
  const std::string surface_id = "traits.fine_roots.surface_per_mass";
  const Lognormal grams = fine * Lognormal{kGramsPerKilogram, 0};
  const Lognormal length = grams * factor_from(tables_, length_id);
  const Lognormal surface = grams * factor_from(tables_, surface_id);

  const auto fit = [&](const char* part, const char* which) { return fit_id(part, group_, which); };
  RootQuantities quantities{
      roots.range(), ratio.range(), fine.range(), length.range(), surface.range(), {}, {}};
  quantities.figures = {
      figure("roots.mass", "kg", roots, {fit("root_mass", "power"), fit("root_mass", "factor")},
             "M = factor D^power, D in cm"),
      figure("roots.mass-per-shoot-mass", "", ratio,
             {fit("root_per_shoot", "power"), fit("root_per_shoot", "factor")},
             "M / mass above ground = factor D^power, D in cm"),
      figure("roots.fine-mass", "kg", fine,
             {"traits.coarse_roots.constant", "traits.coarse_roots.slope",
              "traits.fine_roots.slope", "traits.fine_roots.constant"},
             "M f / (f + c), f and c = exp(constant + slope ln D), D in cm"),
      figure("roots.fine-length", "m", length, {length_id}, "fine mass times length_per_mass"),
      figure("roots.fine-surface", "m2", surface, {surface_id},
             "fine mass times surface_per_mass")};
  return quantities;
}

}  // namespace

Result<RootQuantities> root_quantities(const Tree& tree, const Tables& tables) {
  if (is_monocot(tree, tables))
    return Error{Code::missing_measurement, "tree " + tree.label(),
                 "it is a palm or other monocot, whose roots cannot be weighed by its stem",
                 "leave the quantities out"};
  ROOTSTEAD_TRY(const Length diameter, combined_diameter(tree, {}));
  RootQuantities quantities = Weighing(diameter, trait_group_of(tree, tables), tables).weighed();
  const double thinnest = tables.parameter("traits.root_mass.thinnest_measured").best;
  const double thickest = tables.parameter("traits.root_mass.thickest_measured").best;
  if (diameter.metres() < thinnest || diameter.metres() > thickest)
    quantities.notes.push_back(
        {NoteCode::diameter_outside_tests, tree.label(),
         "the stem is outside the range of the trees whose roots were weighed, " +
             fixed_number(Length::metres(thinnest).millimetres(), 0) + " to " +
             fixed_number(Length::metres(thickest).millimetres(), 0) +
             " mm: the quantities of roots are stretched beyond it"});
  return quantities;
}

}  // namespace rootstead
