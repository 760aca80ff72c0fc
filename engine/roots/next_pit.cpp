#include "engine/roots/next_pit.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <limits>

#include "engine/geom/measure.hpp"
#include "engine/roots/openings.hpp"

namespace rootstead {
namespace {

constexpr double kSide = 1.0, kDepth = 0.6;  // m: a pit that an air tool clears in an hour or two
constexpr double kThinnest = 0.005;          // m: roots counted in it
constexpr int kAzimuths = 8;
constexpr std::array<double, 3> kDistances = {1.0, 2.0, 4.0};  // m from the trunk face
constexpr std::size_t kMostRoots = 12;                         // more are taken together
constexpr std::size_t kDrawsLookedAt = 1000;
constexpr double kWorthDigging = 0.98;

// The draws that foretell one find, each as far as it does.
struct Found {
  double chance = 0, chance_squares = 0, sum = 0, squares = 0;
  void add(double weight, double value) {
    chance += weight;
    chance_squares += weight * weight;
    sum += weight * value;
    squares += weight * value * value;
  }
  // Variance, times the chance of the find; not made small by there being few draws.
  double variance() const {
    const double few = chance > 0 ? 1 - chance_squares / (chance * chance) : 0;
    return few > 0 ? (squares - sum * sum / chance) / few : 0;
  }
};

MultiPolygon square_at(const Point& at) {
  const double half = kSide / 2;
  return {{{{at.x - half, at.y - half},
            {at.x + half, at.y - half},
            {at.x + half, at.y + half},
            {at.x - half, at.y + half}},
           {}}};
}

}  // namespace

PitPlaces::PitPlaces(const Point& stem, const std::vector<ThickRootLaw>& laws)
    : laws_(laws.size()), step_(std::max<std::size_t>(1, laws.size() / kDrawsLookedAt)) {
  double reach = 0;
  for (const ThickRootLaw& law : laws) reach = std::max(reach, law.extent);
  for (std::size_t i = 0; i < laws.size(); i += step_) crowding_.push_back(laws[i].crowding);
  for (const double distance : kDistances)
    for (int i = 0; i < kAzimuths && !laws.empty(); ++i) {
      Place place;
      place.azimuth = Angle::degrees(i * 360.0 / kAzimuths);
      place.from_centre = Length::metres(laws.front().face + distance);
      if (place.from_centre.metres() > reach) continue;
      place.at = offset(stem, place.azimuth, place.from_centre);
      const OpeningFace face(stem, square_at(place.at), Length::metres(kDepth), reach);
      for (std::size_t law = 0; law < laws.size(); law += step_)
        place.roots.push_back(
            face.expected(laws[law], kThinnest, std::numeric_limits<double>::infinity()));
      places_.push_back(std::move(place));
    }
}

// Expected standard deviation after the pit, over that before.
double PitPlaces::spread_left(const Place& place, const std::vector<double>& values,
                              double before) const {
  std::array<Found, kMostRoots + 1> finds{};
  for (std::size_t i = 0; i < place.roots.size(); ++i) {
    const double value = values[i * step_];
    double left = 1;
    const auto chances = chances_of_counts<kMostRoots>(place.roots[i], crowding_[i]);
    for (std::size_t n = 0; n < kMostRoots; ++n) {
      finds[n].add(chances[n], value);
      left -= chances[n];
    }
    finds.back().add(std::max(0.0, left), value);
  }
  double after = 0;
  for (const Found& found : finds) after += found.variance();
  return std::sqrt(std::max(0.0, after / before));
}

std::optional<NextPit> PitPlaces::best(const std::vector<double>& values) const {
  assert(values.size() == laws_);
  Found all;
  for (std::size_t i = 0; i < values.size(); i += step_) all.add(1, values[i]);
  if (all.variance() <= 0) return std::nullopt;
  std::optional<NextPit> best;
  for (const Place& place : places_) {
    const double left = spread_left(place, values, all.variance());
    if (left < kWorthDigging && (!best || left < best->spread_left))
      best = NextPit{
          place.at, place.azimuth, place.from_centre, Length::metres(kSide), Length::metres(kDepth),
          left};
  }
  return best;
}

}  // namespace rootstead
