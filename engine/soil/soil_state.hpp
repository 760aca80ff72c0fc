// What is known of the soil of a site, layer by layer: texture, density against every table, air
// and resistance, side by side.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/base/prescription.hpp"
#include "engine/base/result.hpp"
#include "engine/site/site.hpp"
#include "engine/soil/density.hpp"
#include "engine/soil/texture.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

struct LayerState {
  Length top, bottom;
  std::optional<TextureClass> texture;
  bool texture_assumed = false;  // from the plain word of the survey, not from shares
  DensityVerdict density = DensityVerdict::unknown;
  std::vector<DensityReading> readings;  // every table, side by side
  std::vector<Figure> figures;           // texture, porosity, air, limits, resistance
};

struct SoilState {
  std::vector<LayerState> layers;
  std::vector<Prescription> prescriptions;  // topic "soil"
  std::vector<Note> notes;
};
// `table` as in density_limits; an unknown one fails with unknown_name.
Result<SoilState> soil_state(const Soil& soil, const Tables& tables, std::string_view table = {},
                             UnitSystem units = UnitSystem::metric);

}  // namespace rootstead
