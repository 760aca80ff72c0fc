// Distribution: how one editable parameter is spread, read from the words in its row.
//   "fixed"           always `best`
//   "uniform"         between low and high
//   "triangular"      from low over best to high
//   "normal 0.006"    mean best, standard deviation 0.006, kept inside low..high
//   "lognormal 0.25"  median best, standard deviation 0.25 of the logarithm, kept inside low..high
#pragma once

#include <optional>

#include "engine/base/random.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

class Distribution {
 public:
  enum class Kind { fixed, uniform, triangular, normal, lognormal };

  // Nothing where the words are none of the above or low <= best <= high does not hold.
  static std::optional<Distribution> of(const Parameter& parameter);

  // The same kind of spread between other bounds. Requires: low <= best <= high.
  Distribution between(double low, double best, double high) const;

  double best() const { return best_; }
  double low() const { return low_; }
  double high() const { return high_; }
  // Of a normal spread its standard deviation, of a lognormal one that of the logarithm, else 0.
  double sigma() const { return sigma_; }
  // One number from the stream for every call, also where the value is fixed, so that fixing one
  // parameter does not change the draws of the others.
  double draw(RandomStream& random) const;

 private:
  Kind kind_ = Kind::fixed;
  double low_ = 0, best_ = 0, high_ = 0, sigma_ = 0;
};

// Requires: the parameter exists and its row is coherent (a bug in data/ otherwise).
Distribution distribution_of(const Tables& tables, std::string_view id);

}  // namespace rootstead
