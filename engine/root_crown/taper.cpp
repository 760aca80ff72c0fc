#include "engine/root_crown/taper.hpp"

#include <cmath>

#include "engine/base/amount_text.hpp"
#include "engine/base/words.hpp"

namespace rootstead {
namespace {

constexpr double kHighest = 1.0;  // m: above, a trunk no longer speaks of its flare
constexpr double kAlike = 1e-6;   // variance of exp(-z/s) below which heights are one
constexpr auto kSays = std::to_array<Word<TaperSays>>({
    {TaperSays::like_a_flare, "like a flare"},
    {TaperSays::worth_a_probe, "worth a probe"},
    {TaperSays::like_a_pole, "like a pole"},
});

struct Sample {
  double widening, diameter;  // exp(-z / s), m
};

std::vector<Sample> samples_of(const std::vector<TaperReading>& readings, double length) {
  std::vector<Sample> samples;
  for (const TaperReading& reading : readings) {
    const double z = reading.height.length().metres(), d = reading.diameter.length().metres();
    if (z >= 0 && z <= kHighest && d > 0) samples.push_back({std::exp(-z / length), d});
  }
  return samples;
}

TaperSays says(double ratio, const Tables& tables) {
  if (ratio < tables.parameter("root_crown.taper.pole_below").best) return TaperSays::like_a_pole;
  if (ratio < tables.parameter("root_crown.taper.probe_below").best)
    return TaperSays::worth_a_probe;
  return TaperSays::like_a_flare;
}

std::vector<FigureInput> inputs_of(const std::vector<TaperReading>& readings) {
  std::vector<FigureInput> inputs;
  for (const TaperReading& reading : readings)
    inputs.push_back({"d(" + to_text(reading.height) + ")",
                      "diameter at that height above the ground", to_text(reading.diameter)});
  return inputs;
}

}  // namespace

std::optional<TaperFit> fit_taper(const std::vector<TaperReading>& readings, const Tables& tables) {
  const double length = tables.parameter("root_crown.taper.length").best;
  const std::vector<Sample> samples = samples_of(readings, length);
  if (samples.size() < 2) return std::nullopt;
  const double n = static_cast<double>(samples.size());
  double mean_w = 0, mean_d = 0, variance = 0, common = 0;
  for (const Sample& s : samples) mean_w += s.widening / n, mean_d += s.diameter / n;
  for (const Sample& s : samples) {
    variance += (s.widening - mean_w) * (s.widening - mean_w) / n;
    common += (s.widening - mean_w) * (s.diameter - mean_d) / n;
  }
  if (variance < kAlike) return std::nullopt;
  const double slope = common / variance, stem = mean_d - slope * mean_w;
  const Parameter& height = tables.parameter("root_crown.taper.reference_height");
  const double above = stem + slope * std::exp(-height.best / length);
  if (stem <= 0 || above <= 0 || stem + slope <= 0) return std::nullopt;
  TaperFit fit;
  fit.stem = Length::metres(stem);
  fit.k = slope / stem;
  fit.ratio = (stem + slope) / above;
  fit.says = says(fit.ratio, tables);
  fit.figure = {"root-crown.taper.ratio",
                fit.ratio,
                "",
                {},
                inputs_of(readings),
                "d(0) / d(0.3 m), d(z) = d (1 + k exp(-z / 0.25 m)) fitted to the readings",
                height.from};
  return fit;
}

std::string_view to_text(TaperSays says) {
  return word_for(kSays, says);
}

}  // namespace rootstead
