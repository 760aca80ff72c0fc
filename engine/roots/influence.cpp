#include "engine/roots/influence.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

namespace rootstead {
namespace {

constexpr double kLeastShare = 0.01;

// Ranks about their middle; equal values share their mean rank.
std::vector<double> centred_ranks(const std::vector<double>& values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), 0U);
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
  std::vector<double> ranks(values.size());
  const double middle = static_cast<double>(values.size() - 1) / 2;
  for (std::size_t first = 0; first < order.size();) {
    std::size_t last = first;
    while (last + 1 < order.size() && values[order[last + 1]] == values[order[first]]) ++last;
    const double rank = static_cast<double>(first + last) / 2 - middle;
    for (std::size_t i = first; i <= last; ++i) ranks[order[i]] = rank;
    first = last + 1;
  }
  return ranks;
}

double squared_correlation(const std::vector<double>& a, const std::vector<double>& b) {
  const double ab = std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
  const double aa = std::inner_product(a.begin(), a.end(), a.begin(), 0.0);
  const double bb = std::inner_product(b.begin(), b.end(), b.begin(), 0.0);
  return aa > 0 && bb > 0 ? ab * ab / (aa * bb) : 0;
}

// What a person could do to know the input better.
std::string narrowed_by(std::string_view id) {
  const auto starts = [id](std::string_view with) { return id.substr(0, with.size()) == with; };
  if (starts("roots.radius") || starts("palms.reach"))
    return "look how far roots reach: pits or an air trench beyond the crown";
  if (starts("roots.decay") || starts("palms.near") || starts("palms.far"))
    return "count roots in two pits, one near the stem and one far out";
  if (starts("roots.depth") || starts("palms.depth") || starts("palms.top"))
    return "dig one pit to the full depth and note the depth of every root";
  if (starts("roots.unknown")) return "name the species, or look at the roots at the stem";
  if (id == "directions") return "look on the side of the works";
  if (id == "pressed ground") return "test the soil beneath: bulk density, resistance, water";
  return "look beneath the paving and beside the walls";
}

}  // namespace

std::vector<Influence> influences_on(const std::vector<double>& values,
                                     const std::vector<RootField>& fields,
                                     const std::vector<std::string>& ids, const Tables& tables) {
  const std::vector<double> ranks = centred_ranks(values);
  const double by_chance = 1 / static_cast<double>(std::max<std::size_t>(values.size(), 2) - 1);
  const auto share = [&](const std::function<double(const RootField&)>& input) {
    std::vector<double> inputs;
    for (const RootField& field : fields) inputs.push_back(input(field));
    return squared_correlation(centred_ranks(inputs), ranks) - by_chance;
  };
  std::vector<Influence> found;
  const auto add = [&](const std::string& id, const std::string& meaning, double of_variance) {
    if (of_variance >= kLeastShare)
      found.push_back({id, meaning, std::min(of_variance, 1.0), narrowed_by(id)});
  };
  for (std::size_t i = 0; i < ids.size() && i < kFieldInputs; ++i)
    if (!ids[i].empty())
      add(ids[i], tables.parameter(ids[i]).meaning,
          share([i](const RootField& field) { return field.inputs[i]; }));
  double directions = 0;
  for (std::size_t s = 0; s < kSectors; ++s)
    directions += std::max(0.0, share([s](const RootField& field) { return field.sectors[s]; }));
  add("directions", "on which sides of the stem the roots are", directions);
  add("pressed ground", "how much pressed ground harms",
      share([](const RootField& field) { return field.pressing; }));
  add("hindrances", "how easily roots pass beneath paving and walls",
      share([](const RootField& field) { return field.leak; }));
  std::stable_sort(found.begin(), found.end(),
                   [](const Influence& a, const Influence& b) { return a.share > b.share; });
  return found;
}

}  // namespace rootstead
