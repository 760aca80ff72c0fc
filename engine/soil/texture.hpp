// Texture: the USDA class of a soil from its shares of sand, silt and clay.
// Source: USDA-NRCS soil survey manual, the texture triangle; checked on every triple of whole
// percents. The step from the UK particle limit is our interpolation.
#pragma once

#include <optional>
#include <string_view>

#include "engine/base/figure.hpp"
#include "engine/base/result.hpp"
#include "engine/site/site.hpp"

namespace rootstead {

enum class TextureClass {
  sand,
  loamy_sand,
  sandy_loam,
  loam,
  silt_loam,
  silt,
  sandy_clay_loam,
  clay_loam,
  silty_clay_loam,
  sandy_clay,
  silty_clay,
  clay,
};
std::string_view to_text(TextureClass texture);  // "sandy clay loam"
std::optional<TextureClass> texture_class_from(std::string_view text);

// The plain word that the rest of the program uses; the class in the middle of such a word.
SoilTexture plain_texture(TextureClass texture);
std::optional<TextureClass> typical_class(SoilTexture texture);  // none of unknown

// Shares by mass, 0 to 1, of the fine earth.
struct ParticleShares {
  double sand = 0, silt = 0, clay = 0;
};

// Where sand begins: 50 um (USDA) or 63 um (UK, ISO 14688).
enum class SandLimit { usda, uk };
std::optional<SandLimit> sand_limit_from(std::string_view text);  // "usda", "50um", "uk", "63um"

// The shares with sand from 50 um, from shares with sand from 63 um: log-linear along the
// cumulative curve between 2 and 63 um. Our interpolation.
ParticleShares usda_from_uk(const ParticleShares& shares);

// Fails with value_invalid where a share is below 0 or above 1, or where their sum is further from
// 1 than a hundredth (rounding); within that they are scaled to 1.
Result<TextureClass> usda_texture(const ParticleShares& shares);

// "soil.texture" with its trail; the class is its word, its value the number of the class (0 sand
// to 11 clay).
Result<Figure> texture_figure(const ParticleShares& shares, SandLimit limit);

}  // namespace rootstead
