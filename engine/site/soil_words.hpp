// The plain words of soil that surveys use.
#pragma once

#include <optional>
#include <string_view>

namespace rootstead {

enum class SoilTexture { unknown, sand, loam, silt, clay };
enum class Drainage { unknown, free, poor };

std::string_view to_text(SoilTexture texture);  // "unknown", "sand", "loam", "silt", "clay"
std::string_view to_text(Drainage drainage);    // "unknown", "free", "poor"
// Words of surveys in English, German, French, Spanish or Dutch; a compound texture goes by its
// noun ("sandy loam" is a loam).
std::optional<SoilTexture> soil_texture_from(std::string_view text);
std::optional<Drainage> drainage_from(std::string_view text);

}  // namespace rootstead
