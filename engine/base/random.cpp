#include "engine/base/random.hpp"

#include <cassert>
#include <cmath>

namespace rootstead {
namespace {

// FNV-1a: names to streams. Any hash with few collisions serves; this one is short and fixed.
std::uint64_t hash(std::string_view name) {
  std::uint64_t h = 14695981039346656037ULL;
  for (const char c : name) h = (h ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  return h;
}

double polynomial(const double* coefficients, int count, double x) {
  double sum = coefficients[0];
  for (int i = 1; i < count; ++i) sum = sum * x + coefficients[i];
  return sum;
}

std::uint64_t mixed(std::uint64_t z) {
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
  return z ^ (z >> 31);
}

// Where `i` comes in an order of 0 ... count - 1 that `key` names.
std::uint32_t place_in_order(std::uint32_t i, std::uint32_t count, std::uint32_t key) {
  std::uint32_t mask = count - 1;
  for (const unsigned shift : {1U, 2U, 4U, 8U, 16U}) mask |= mask >> shift;
  do {
    i ^= key;
    i *= 0xe170893dU;
    i ^= key >> 16;
    i ^= (i & mask) >> 4;
    i ^= key >> 8;
    i *= 0x0929eb3fU;
    i ^= key >> 23;
    i ^= (i & mask) >> 1;
    i *= 1 | key >> 27;
    i *= 0x6935fa69U;
    i ^= (i & mask) >> 11;
    i *= 0x74dcb303U;
    i ^= (i & mask) >> 2;
    i *= 0x9e501cc3U;
    i ^= (i & mask) >> 2;
    i *= 0xc860a3dfU;
    i &= mask;
    i ^= i >> 5;
  } while (i >= count);
  return static_cast<std::uint32_t>((std::uint64_t{i} + key) % count);
}

}  // namespace

RandomStream::RandomStream(std::uint64_t seed, std::string_view name)
    : state_(seed * 0x9E3779B97F4A7C15ULL ^ hash(name)) {}

RandomStream RandomStream::in_strata(std::uint64_t seed, std::string_view name, std::uint32_t draw,
                                     std::uint32_t count) {
  assert(draw < count);
  RandomStream stream(seed, name);
  stream.order_ = mixed(stream.state_);
  stream.state_ = mixed(stream.order_ + draw);
  stream.draw_ = draw;
  stream.count_ = count;
  return stream;
}

std::uint64_t RandomStream::independent() {
  state_ += 0x9E3779B97F4A7C15ULL;
  return mixed(state_);
}

std::uint64_t RandomStream::next() {
  const std::uint64_t bits = independent();
  if (count_ == 1) return bits;
  const auto key = static_cast<std::uint32_t>(mixed(order_ + ++place_));
  const double stratum = place_in_order(draw_, count_, key);
  const double within = (static_cast<double>(bits >> 11) + 0.5) * 0x1.0p-53;
  return static_cast<std::uint64_t>((stratum + within) / count_ * 0x1.0p53) << 11;
}

double RandomStream::uniform() {
  return (static_cast<double>(next() >> 11) + 0.5) * 0x1.0p-53;
}

double RandomStream::uniform(double low, double high) {
  return low + (high - low) * uniform();
}

double RandomStream::normal(double mean, double sigma) {
  return mean + sigma * normal_quantile(uniform());
}

double RandomStream::lognormal(double median, double sigma_ln) {
  return median * std::exp(normal(0, sigma_ln));
}

double RandomStream::triangular(double low, double mode, double high) {
  const double u = uniform();
  const double at_mode = (mode - low) / (high - low);
  if (u < at_mode) return low + std::sqrt(u * (high - low) * (mode - low));
  return high - std::sqrt((1 - u) * (high - low) * (high - mode));
}

double normal_quantile(double p) {
  assert(p > 0 && p < 1);
  constexpr double a[] = {-3.969683028665376e+01, 2.209460984245205e+02,  -2.759285104469687e+02,
                          1.383577518672690e+02,  -3.066479806614716e+01, 2.506628277459239e+00};
  constexpr double b[] = {-5.447609879822406e+01, 1.615858368580409e+02,  -1.556989798598866e+02,
                          6.680131188771972e+01,  -1.328068155288572e+01, 1};
  constexpr double c[] = {-7.784894002430293e-03, -3.223964580411365e-01, -2.400758277161838e+00,
                          -2.549732539343734e+00, 4.374664141464968e+00,  2.938163982698783e+00};
  constexpr double d[] = {7.784695709041462e-03, 3.224671290700398e-01, 2.445134137142996e+00,
                          3.754408661907416e+00, 1};
  constexpr double kTail = 0.02425;
  if (p > 1 - kTail) return -normal_quantile(1 - p);
  if (p < kTail) {
    const double q = std::sqrt(-2 * std::log(p));
    return polynomial(c, 6, q) / polynomial(d, 5, q);
  }
  const double q = p - 0.5;
  return polynomial(a, 6, q * q) * q / polynomial(b, 6, q * q);
}

}  // namespace rootstead
