#include "engine/tables/distribution.hpp"

#include <algorithm>
#include <cassert>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

std::optional<Distribution::Kind> kind_from(std::string_view word) {
  using Kind = Distribution::Kind;
  if (word == "fixed") return Kind::fixed;
  if (word == "uniform") return Kind::uniform;
  if (word == "triangular") return Kind::triangular;
  if (word == "normal") return Kind::normal;
  if (word == "lognormal") return Kind::lognormal;
  return {};
}

bool needs_sigma(Distribution::Kind kind) {
  return kind == Distribution::Kind::normal || kind == Distribution::Kind::lognormal;
}

}  // namespace

std::optional<Distribution> Distribution::of(const Parameter& parameter) {
  const std::vector<std::string> words = split(trimmed(parameter.spread), ' ');
  const auto kind = kind_from(words.front());
  if (!kind || words.size() != (needs_sigma(*kind) ? 2U : 1U)) return {};
  if (!(parameter.low <= parameter.best && parameter.best <= parameter.high)) return {};

  Distribution made;
  made.kind_ = *kind;
  made.low_ = parameter.low;
  made.best_ = parameter.best;
  made.high_ = parameter.high;
  if (!needs_sigma(*kind)) return made;
  const auto sigma = number_from(words[1]);
  if (!sigma || *sigma < 0 || (*kind == Kind::lognormal && parameter.best <= 0)) return {};
  made.sigma_ = *sigma;
  return made;
}

Distribution Distribution::between(double low, double best, double high) const {
  assert(low <= best && best <= high);
  Distribution made = *this;
  made.low_ = low;
  made.best_ = best;
  made.high_ = high;
  return made;
}

double Distribution::draw(RandomStream& random) const {
  switch (kind_) {
    case Kind::fixed:
      return random.next(), best_;
    case Kind::uniform:
      return random.uniform(low_, high_);
    case Kind::triangular:
      if (low_ == high_) return random.next(), best_;
      return random.triangular(low_, best_, high_);
    case Kind::normal:
      return std::clamp(random.normal(best_, sigma_), low_, high_);
    case Kind::lognormal:
      return std::clamp(random.lognormal(best_, sigma_), low_, high_);
  }
  return best_;
}

Distribution distribution_of(const Tables& tables, std::string_view id) {
  const auto found = Distribution::of(tables.parameter(id));
  assert(found && "a parameter row is incoherent: coherence() says which");
  return found.value_or(Distribution{});
}

}  // namespace rootstead
