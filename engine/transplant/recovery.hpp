// How long a moved tree that thickens takes until it is established.
#pragma once

#include "engine/base/figure.hpp"
#include "engine/base/quantity.hpp"
#include "engine/base/result.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// Months with irrigation: so many per inch of calliper by USDA hardiness zone. Established means
// roots to about three times the dripline. Fails with outside_rule_domain beyond zones 2 to 11.
Result<Figure> establishment(const Range& calliper_m, int hardiness_zone, const Tables& tables);

}  // namespace rootstead
