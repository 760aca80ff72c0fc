#include "engine/transplant/recovery.hpp"

#include <cmath>

#include "engine/base/text.hpp"
#include "engine/transplant/trail.hpp"

namespace rootstead {

Result<Figure> establishment(const Range& calliper_m, int zone, const Tables& tables) {
  constexpr int kColdest = 2, kMiddle = 7, kWarm = 9, kWarmest = 11;
  if (zone < kColdest || zone > kWarmest)
    return Error{Code::outside_rule_domain, "transplant.establishment",
                 "hardiness zone " + std::to_string(zone) + " is outside the zones 2 to 11 studied",
                 "ask whoever moves trees there"};
  const char* id = zone >= kWarm     ? "transplant.establishment.warm"
                   : zone >= kMiddle ? "transplant.establishment.middle"
                                     : "transplant.establishment.cold";
  const Parameter& months = tables.parameter(id);
  return Trail("transplant.establishment", "months")
      .formula("t = k c, irrigated")
      .length("c", "calliper", Length::metres(calliper_m.best))
      .given("zone", "USDA hardiness zone", std::to_string(zone))
      .by(months, "k")
      .is(times(range_of(months), times(calliper_m, 1 / kMetresPerInch)));
}

}  // namespace rootstead
