// RoutePrices: what a route is weighed by: money for building it, and weights in money for what it
// takes from trees. All of it is the user's: the shipped rows of data/parameters/routes.csv are our
// assumption and only make the search work until they are replaced.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/base/result.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

enum class RouteMethod { open, hand, bore };
inline constexpr int kRouteMethods = 3;
std::string_view to_text(RouteMethod method);  // "open trench", "hand or air dig", "bore"

struct RoutePrices {
  // Money a metre, by method; then each.
  double open = 0, hand = 0, bore = 0, pit = 0, change = 0, bend = 0;
  double bridge = 0, surface = 0;                   // a metre
  double area = 0, area_hand = 0, area_bridge = 0;  // a square metre
  // Weights in money: of all fine roots of one tree (health), of all its anchorage (stability), of
  // a metre dug nearer to a trunk than the least distance for cuts.
  double roots = 0, hold = 0, near_stem = 0;
  double hand_fine_kept = 0, hand_thick_kept = 0;  // shares that digging by hand or air keeps
  std::vector<std::string> own;                    // names of those that the user gave

  double per_metre(RouteMethod method) const;
};

RoutePrices route_prices(const Tables& tables);
// "open=95", "pit=2500": a price of one's own. Fails with unknown_name or value_invalid.
Outcome set_price(RoutePrices& prices, std::string_view text);
// The names set_price() knows.
const std::vector<std::string>& price_names();

}  // namespace rootstead
