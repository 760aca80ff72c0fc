#include "engine/soil/texture.hpp"

#include <cmath>

#include "engine/base/text.hpp"
#include "engine/base/words.hpp"

namespace rootstead {
namespace {

constexpr Words<TextureClass, 12> kClasses{{
    {TextureClass::sand, "sand"},
    {TextureClass::loamy_sand, "loamy sand"},
    {TextureClass::sandy_loam, "sandy loam"},
    {TextureClass::loam, "loam"},
    {TextureClass::silt_loam, "silt loam"},
    {TextureClass::silt, "silt"},
    {TextureClass::sandy_clay_loam, "sandy clay loam"},
    {TextureClass::clay_loam, "clay loam"},
    {TextureClass::silty_clay_loam, "silty clay loam"},
    {TextureClass::sandy_clay, "sandy clay"},
    {TextureClass::silty_clay, "silty clay"},
    {TextureClass::clay, "clay"},
}};

constexpr Words<SandLimit, 6> kSandLimits{{
    {SandLimit::usda, "usda"},
    {SandLimit::usda, "50um"},
    {SandLimit::usda, "50 um"},
    {SandLimit::uk, "uk"},
    {SandLimit::uk, "63um"},
    {SandLimit::uk, "63 um"},
}};

constexpr double kRounding = 0.01;                              // of the sum of the three
constexpr double kClayLimit = 2, kUsdaSand = 50, kUkSand = 63;  // um

// The triangle in per cent. Order matters: each line is what the ones above leave.
TextureClass class_of(double sand, double silt, double clay) {
  if (silt + 1.5 * clay < 15) return TextureClass::sand;
  if (silt + 2 * clay < 30) return TextureClass::loamy_sand;
  if (clay < 7 && silt < 50) return TextureClass::sandy_loam;
  if (clay < 20 && sand > 52) return TextureClass::sandy_loam;
  if (silt >= 80 && clay < 12) return TextureClass::silt;
  if (silt >= 50 && clay < 27) return TextureClass::silt_loam;
  if (silt >= 28 && clay < 27 && sand <= 52) return TextureClass::loam;
  if (silt < 28 && clay < 35 && sand > 45) return TextureClass::sandy_clay_loam;
  if (clay < 40 && sand <= 20) return TextureClass::silty_clay_loam;
  if (clay < 40 && sand <= 45) return TextureClass::clay_loam;
  if (sand > 45) return TextureClass::sandy_clay;
  if (silt >= 40) return TextureClass::silty_clay;
  return TextureClass::clay;
}

// Sums like 0.1 + 0.2 must not move a soil across a line.
double in_percent(double share, double sum) {
  return std::round(share / sum * 1e8) / 1e6;
}

std::optional<Error> fault_of(const ParticleShares& shares) {
  for (const double share : {shares.sand, shares.silt, shares.clay})
    if (!(share >= 0 && share <= 1))
      return Error{Code::value_invalid, "texture", percent(share) + " is no share of a soil",
                   "give sand, silt and clay each between 0 and 100 %"};
  const double sum = shares.sand + shares.silt + shares.clay;
  if (std::abs(sum - 1) <= kRounding * (1 + 1e-9)) return std::nullopt;
  return Error{Code::value_invalid, "texture",
               "sand, silt and clay sum to " + percent(sum) + ", not to 100 %",
               "check the three; stones and organic matter are not counted"};
}

}  // namespace

std::string_view to_text(TextureClass texture) {
  return word_for(kClasses, texture);
}
std::optional<TextureClass> texture_class_from(std::string_view text) {
  return value_for(kClasses, text);
}
std::optional<SandLimit> sand_limit_from(std::string_view text) {
  return value_for(kSandLimits, text);
}

SoilTexture plain_texture(TextureClass texture) {
  switch (texture) {
    case TextureClass::sand:
    case TextureClass::loamy_sand:
      return SoilTexture::sand;
    case TextureClass::sandy_loam:
    case TextureClass::loam:
    case TextureClass::sandy_clay_loam:
    case TextureClass::clay_loam:
      return SoilTexture::loam;
    case TextureClass::silt_loam:
    case TextureClass::silt:
    case TextureClass::silty_clay_loam:
      return SoilTexture::silt;
    case TextureClass::sandy_clay:
    case TextureClass::silty_clay:
    case TextureClass::clay:
      return SoilTexture::clay;
  }
  return SoilTexture::unknown;
}

std::optional<TextureClass> typical_class(SoilTexture texture) {
  switch (texture) {
    case SoilTexture::sand:
      return TextureClass::sand;
    case SoilTexture::loam:
      return TextureClass::loam;
    case SoilTexture::silt:
      return TextureClass::silt_loam;
    case SoilTexture::clay:
      return TextureClass::clay;
    case SoilTexture::unknown:
      break;
  }
  return std::nullopt;
}

ParticleShares usda_from_uk(const ParticleShares& shares) {
  const double silt =
      shares.silt * std::log(kUsdaSand / kClayLimit) / std::log(kUkSand / kClayLimit);
  return {shares.sand + (shares.silt - silt), silt, shares.clay};
}

Result<TextureClass> usda_texture(const ParticleShares& shares) {
  if (auto fault = fault_of(shares)) return *std::move(fault);
  const double sum = shares.sand + shares.silt + shares.clay;
  return class_of(in_percent(shares.sand, sum), in_percent(shares.silt, sum),
                  in_percent(shares.clay, sum));
}

Result<Figure> texture_figure(const ParticleShares& shares, SandLimit limit) {
  if (auto fault = fault_of(shares)) return *std::move(fault);
  const bool uk = limit == SandLimit::uk;
  const ParticleShares used = uk ? usda_from_uk(shares) : shares;
  ROOTSTEAD_TRY(const TextureClass texture, usda_texture(used));
  Figure figure;
  figure.name = "soil.texture";
  figure.value = static_cast<double>(texture);
  figure.word = to_text(texture);
  figure.inputs = {{"sand", "share of sand", percent(shares.sand)},
                   {"silt", "share of silt", percent(shares.silt)},
                   {"clay", "share of clay", percent(shares.clay)},
                   {"limit", "where sand begins", uk ? "63 um" : "50 um"}};
  figure.formula = "USDA texture triangle";
  figure.from = {"usda-texture", "triangle of twelve classes", Status::published};
  if (uk) {
    figure.formula += " at " + percent(used.sand) + " sand, " + percent(used.silt) + " silt, " +
                      percent(used.clay) +
                      " clay: silt below 50 um = silt ln(50/2) / ln(63/2), our interpolation";
    figure.from.status = Status::assumption;
  }
  return figure;
}

}  // namespace rootstead
