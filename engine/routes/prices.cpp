#include "engine/routes/prices.hpp"

#include <cmath>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

struct NamedPrice {
  const char* name;
  double RoutePrices::*value;
};
constexpr NamedPrice kPrices[] = {
    {"open", &RoutePrices::open},
    {"hand", &RoutePrices::hand},
    {"bore", &RoutePrices::bore},
    {"pit", &RoutePrices::pit},
    {"change", &RoutePrices::change},
    {"bend", &RoutePrices::bend},
    {"bridge", &RoutePrices::bridge},
    {"surface", &RoutePrices::surface},
    {"area", &RoutePrices::area},
    {"area_hand", &RoutePrices::area_hand},
    {"area_bridge", &RoutePrices::area_bridge},
    {"roots", &RoutePrices::roots},
    {"hold", &RoutePrices::hold},
    {"near_stem", &RoutePrices::near_stem},
};

}  // namespace

std::string_view to_text(RouteMethod method) {
  switch (method) {
    case RouteMethod::open:
      return "open trench";
    case RouteMethod::hand:
      return "hand or air dig";
    case RouteMethod::bore:
      break;
  }
  return "bore";
}

double RoutePrices::per_metre(RouteMethod method) const {
  return method == RouteMethod::open ? open : method == RouteMethod::hand ? hand : bore;
}

RoutePrices route_prices(const Tables& tables) {
  RoutePrices prices;
  for (const NamedPrice& one : kPrices)
    prices.*one.value = tables.parameter("routes.price." + std::string(one.name)).best;
  prices.hand_fine_kept = tables.parameter("routes.hand.fine_kept").best;
  prices.hand_thick_kept = tables.parameter("routes.hand.thick_kept").best;
  return prices;
}

const std::vector<std::string>& price_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const NamedPrice& one : kPrices) all.emplace_back(one.name);
    return all;
  }();
  return names;
}

Outcome set_price(RoutePrices& prices, std::string_view text) {
  const std::size_t equals = text.find('=');
  const std::string name(text.substr(0, equals));
  for (const NamedPrice& one : kPrices) {
    if (name != one.name) continue;
    const auto value =
        equals == std::string_view::npos ? std::nullopt : number_from(text.substr(equals + 1));
    if (!value || !std::isfinite(*value) || *value < 0)
      return Error{Code::value_invalid, "price " + name, "it is no number of zero or more",
                   "write it as " + name + "=120"};
    prices.*one.value = *value;
    prices.own.push_back(name);
    return Nothing{};
  }
  return Error{Code::unknown_name, "price", "there is no price \"" + name + "\"",
               "choose one of " + joined(price_names(), ", ")};
}

}  // namespace rootstead
