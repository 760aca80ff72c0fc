#include "engine/site/diameter.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <vector>

#include "engine/base/words.hpp"

namespace rootstead {
namespace {

constexpr auto kConventions = std::to_array<Word<StemConvention>>({
    {StemConvention::single, "single"},
    {StemConvention::root_sum_square, "root-sum-square"},
    {StemConvention::mean_times_root_count, "mean-times-root-count"},
    {StemConvention::largest_plus_half_rest, "largest-plus-half-rest"},
    {StemConvention::sum, "sum"},
    {StemConvention::two_largest, "two-largest"},
    {StemConvention::largest, "largest"},
});

// Stem diameters above zero in metres, the thickest first.
std::vector<double> diameters_of(const Tree& tree) {
  std::vector<double> diameters;
  for (const Stem& stem : tree.stems) {
    if (stem.diameter() > Length()) diameters.push_back(stem.diameter().metres());
  }
  std::sort(diameters.begin(), diameters.end(), std::greater<>());
  return diameters;
}

double sum_of(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

// Requires: d not empty, the thickest first.
double combined(const std::vector<double>& d, StemConvention convention) {
  switch (convention) {
    case StemConvention::single:
    case StemConvention::largest:
      return d.front();
    case StemConvention::root_sum_square:
      return std::sqrt(std::inner_product(d.begin(), d.end(), d.begin(), 0.0));
    case StemConvention::mean_times_root_count:
      return sum_of(d) / std::sqrt(static_cast<double>(d.size()));
    case StemConvention::largest_plus_half_rest:
      return (d.front() + sum_of(d)) / 2;
    case StemConvention::sum:
      return sum_of(d);
    case StemConvention::two_largest:
      return d.size() > 1 ? d[0] + d[1] : d[0];
  }
  return d.front();
}

}  // namespace

std::string_view to_text(StemConvention convention) {
  return word_for(kConventions, convention);
}

std::optional<StemConvention> stem_convention_from(std::string_view text) {
  return value_for(kConventions, text);
}

std::string_view formula_of(StemConvention convention) {
  switch (convention) {
    case StemConvention::single:
      return "d";
    case StemConvention::root_sum_square:
      return "sqrt(d1^2 + d2^2 + ...)";
    case StemConvention::mean_times_root_count:
      return "sqrt(n) * (d1 + d2 + ...) / n";
    case StemConvention::largest_plus_half_rest:
      return "d1 + (d2 + d3 + ...) / 2, d1 the largest";
    case StemConvention::sum:
      return "d1 + d2 + ...";
    case StemConvention::two_largest:
      return "d1 + d2, the two largest";
    case StemConvention::largest:
      return "d1, the largest";
  }
  return "d";
}

StemConvention convention_for(const DiameterRule& rule, std::size_t stem_count) {
  const bool many = rule.many_above > 0 && stem_count > static_cast<std::size_t>(rule.many_above);
  return many ? rule.many : rule.stems;
}

Result<Length> combined_diameter(const Tree& tree, const DiameterRule& rule) {
  const std::vector<double> diameters = diameters_of(tree);
  if (diameters.empty()) {
    return Error{Code::missing_measurement, "tree " + tree.label(),
                 "there is no stem diameter above zero",
                 "measure the stem and enter its diameter or girth"};
  }
  const StemConvention convention = convention_for(rule, diameters.size());
  if (convention == StemConvention::single && diameters.size() > 1) {
    return Error{
        Code::outside_rule_domain, "tree " + tree.label(),
        "the rule takes a single stem and the tree has " + std::to_string(diameters.size()),
        "choose a rule for several stems or enter one diameter below the fork"};
  }
  return Length::metres(combined(diameters, convention));
}

}  // namespace rootstead
