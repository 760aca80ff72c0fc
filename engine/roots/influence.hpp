// Which input of the draws a figure's spread goes back to.
#pragma once

#include <vector>

#include "engine/roots/root_field.hpp"
#include "engine/roots/root_model.hpp"

namespace rootstead {

// `ids` are those of FieldSource::input_ids(); `values` the figure, one a field.
// Largest first, those under a hundredth left out. Squared rank correlations, less what chance
// alone would give; directions: of the eight sectors together.
std::vector<Influence> influences_on(const std::vector<double>& values,
                                     const std::vector<RootField>& fields,
                                     const std::vector<std::string>& ids, const Tables& tables);

}  // namespace rootstead
