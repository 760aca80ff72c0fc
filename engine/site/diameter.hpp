// One tree, many diameters: each rule combines several stems in its own way (sources differ, so a
// rule names its convention). Raw stems stay as they were read.
#pragma once

#include <optional>
#include <string_view>

#include "engine/base/result.hpp"
#include "engine/site/tree.hpp"

namespace rootstead {

enum class StemConvention {
  single,                  // the only stem; an error where there are several
  root_sum_square,         // sqrt(sum d^2)
  mean_times_root_count,   // sqrt(n * mean(d)^2), for many stems in BS 5837:2012
  largest_plus_half_rest,  // largest + half the sum of the others
  sum,                     // all added
  two_largest,             // sum of the two largest
  largest,                 // the thickest stem alone
};

std::string_view to_text(StemConvention convention);  // "root-sum-square" ...
std::optional<StemConvention> stem_convention_from(std::string_view text);
std::string_view formula_of(StemConvention convention);  // "sqrt(d1^2 + d2^2 + ...)"

// How a rule turns stems into one diameter.
struct DiameterRule {
  StemConvention stems = StemConvention::root_sum_square;
  int many_above = 0;  // 0: no special case; 5: more than 5 stems use `many`
  StemConvention many = StemConvention::mean_times_root_count;
};

// Fails with missing_measurement where the tree has no stem with a size above zero.
Result<Length> combined_diameter(const Tree& tree, const DiameterRule& rule);

// The convention of `rule` that applies to a tree with this many stems.
StemConvention convention_for(const DiameterRule& rule, std::size_t stem_count);

}  // namespace rootstead
