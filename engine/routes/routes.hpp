// Least-loss routes: other ways for a line work, weighed against the one that is drawn.
//
// The cost field (cost_field.hpp) leads a search for cheap ways; each is then appraised by the
// whole model (appraisal.hpp), and only that appraisal orders them. The drawn line competes, so no
// answer is worse than it by that measure. Sources, limits: docs/methods/routes.md.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/note.hpp"
#include "engine/routes/appraisal.hpp"

namespace rootstead {

struct RouteWishes {
  std::vector<Point> through;  // fixed points, in the order of the line
  MultiPolygon avoid;          // ground not to be touched, not even beneath
  MultiPolygon within;         // the corridor; empty: as far as `margin` from the drawn line
  Length margin = Length::metres(15);
  AllowedMethods allowed = {true, true, true};
  Length least_radius;          // of bends
  std::optional<Length> depth;  // of the trench, if not as drawn
  int alternatives = 3;
  std::optional<Length> cell;  // of the grid; chosen by the size of the ground if not given
  RootSimulation how{1, 64};
};

struct Route {
  std::string name;  // "as drawn", "A", "B" ...
  RouteWay way;
  Design design;
  Appraisal appraisal;
  double by_method[kRouteMethods] = {};  // metres
  int bends = 0, pits = 0;
  double blocked = 0;       // metres of a drawn line on ground where nothing may be dug
  bool radius_kept = true;  // every bend has room for the least radius
  double apart = 0;         // share of its length that lies apart from those before it
};

struct RouteAnswer {
  Route drawn;
  std::vector<Route> routes;  // best first, each apart from those before, none worse than drawn
  Length cell;
  int looked_at = 0;  // ways appraised
  RoutePrices prices;
  Length apart;  // what counts as apart, and over what share of the length
  double apart_share = 0;
  std::vector<Note> notes;
};

// Fails with unknown_name (no such work), outside_rule_domain (it is no trench or bore of exactly
// one line), // invalid_geometry (no way leads from one fixed point to the next), or as assess()
// does.
Result<RouteAnswer> least_loss_routes(const Site& site, const std::string& work,
                                      const Tables& tables, const RoutePrices& prices,
                                      const RouteWishes& wishes);

// Where a route may not be dug: buildings, walls, foundations, rock and water, and works that are
// buildings or pits; all but a deep bore's way beneath walls.
RouteGround route_ground(const Site& site, const Work& work, const RouteWishes& wishes,
                         const LineSize& size);
// The grid the search runs on: the drawn line with its margin, fixed points and corridor.
PlanGrid route_grid(const Work& work, const RouteWishes& wishes);

}  // namespace rootstead
