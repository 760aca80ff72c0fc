// How the layers of a soil profile weigh on root density: dense, airless and hard soil holds fewer.
// Sources and values: docs/methods/roots.md, data/parameters/soil.csv.
#pragma once

#include <vector>

#include "engine/roots/root_field.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// 0 to 1 of the density in good ground. What the layer does not record weighs 1; the texture of
// the whole profile stands in for that of a layer.
double rooting_weight(const SoilLayer& layer, SoilTexture of_profile, const Tables& tables);

// The layers as steps of a depth law; empty where there are none. Ground in which nothing could
// root still keeps a little, so that a wrong reading cannot leave a living tree without roots.
std::vector<DepthStep> depth_steps(const Soil& soil, const Tables& tables);

}  // namespace rootstead
