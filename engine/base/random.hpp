// Seeded random numbers that give the same bits on every machine and for any number of threads:
// each tree draws from its own stream, named by the seed and the tree's id.
// Source: SplitMix64 (Steele, Lea & Flood 2014, OOPSLA "Fast splittable pseudorandom number
// generators"); the normal quantile is Acklam's rational approximation, relative error 1.15e-9.
// Strata: Latin hypercube sampling (McKay, Beckman & Conover 1979), their order by the keyed
// permutation of Kensler 2013 ("Correlated multi-jittered sampling", section 4).
#pragma once

#include <cstdint>
#include <string_view>

namespace rootstead {

class RandomStream {
 public:
  RandomStream(std::uint64_t seed, std::string_view name);
  // The stream of one of `count` draws that share out the numbers between them: the first numbers
  // of all draws lie one in each `count`th of (0, 1), so do the second, and so on, each time in
  // another order. Means and quantiles over all draws vary far less with the seed than those of
  // independent streams. Requires: draw < count.
  static RandomStream in_strata(std::uint64_t seed, std::string_view name, std::uint32_t draw,
                                std::uint32_t count);

  std::uint64_t next();                      // 64 uniform bits
  double uniform();                          // in (0, 1), never 0 or 1
  double uniform(double low, double high);   // in (low, high)
  double normal(double mean, double sigma);  // by the inverse of the distribution
  double lognormal(double median, double sigma_ln);
  double triangular(double low, double mode, double high);

 private:
  std::uint64_t independent();
  std::uint64_t state_;
  std::uint64_t order_ = 0;  // of the strata, by seed and name
  std::uint32_t draw_ = 0, count_ = 1, place_ = 0;
};

// The z with P(Z < z) = p for a standard normal Z. Requires 0 < p < 1.
double normal_quantile(double p);

}  // namespace rootstead
