#include "engine/routes/routes.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "engine/geom/along.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/routes/route_notes.hpp"

namespace rootstead {
namespace {

constexpr double kFinestCell = 0.25;    // m
constexpr double kMostCells = 250'000;  // where the cell is chosen by us
constexpr int kRoundsOfShunning = 3;    // for each choice of methods
constexpr double kShunned = 0.6;        // of the price of a metre of trench
constexpr double kSameWay = 1e-6;
constexpr double kSample = 0.5;  // m along a route, where it is compared with another

MultiPolygon ground_of(const Barrier& barrier) {
  std::vector<MultiPolygon> parts{barrier.shape.areas};
  const double width = barrier.width ? barrier.width->length().metres() : 0.3;
  for (const Line& line : barrier.shape.lines)
    parts.push_back(corridor(line, Length::metres(width / 2)));
  return union_of(parts);
}

bool stops_digging(BarrierKind kind) {
  return kind != BarrierKind::kerb && kind != BarrierKind::root_barrier;
}

}  // namespace

RouteGround route_ground(const Site& site, const Work& work, const RouteWishes& wishes,
                         const LineSize& size) {
  std::vector<MultiPolygon> digging, all{wishes.avoid};
  for (const Barrier& barrier : site.barriers) {
    if (!stops_digging(barrier.kind)) continue;
    const bool beneath =
        barrier.kind == BarrierKind::wall && depth_of(barrier).metres() < size.bore_depth;
    (beneath ? digging : all).push_back(ground_of(barrier));
  }
  for (const Work& other : site.works) {
    if (other.id == work.id) continue;
    if (other.kind == WorkKind::building || other.kind == WorkKind::pit)
      all.push_back(footprint(other));
  }
  return {union_of(digging), union_of(all), wishes.within};
}

PlanGrid route_grid(const Work& work, const RouteWishes& wishes) {
  Box box = box_of(work.shape.lines.front());
  for (const Point& at : wishes.through) box = joined(box, {at.x, at.y, at.x, at.y});
  double margin = wishes.margin.metres();
  if (!wishes.within.empty()) {
    box = joined(box, box_of(wishes.within));
    margin = 2;
  }
  const double width = box.max_x - box.min_x + 2 * margin;
  const double height = box.max_y - box.min_y + 2 * margin;
  PlanGrid grid;
  grid.cell = wishes.cell ? wishes.cell->metres()
                          : std::max(kFinestCell, std::sqrt(width * height / kMostCells));
  grid.corner = {box.min_x - margin, box.min_y - margin};
  grid.columns = std::max(2, static_cast<int>(std::ceil(width / grid.cell)));
  grid.rows = std::max(2, static_cast<int>(std::ceil(height / grid.cell)));
  return grid;
}

namespace {

// Share of `a`'s length that lies apart from `b`.
double apart_share(const Line& a, const Line& b, double apart) {
  const double length = length_of(a).metres();
  const int samples = std::max(2, static_cast<int>(length / kSample));
  int far = 0;
  for (int i = 0; i < samples; ++i) {
    const Point at = point_along(a, length * (i + 0.5) / samples);
    if (distance_between(at, b).metres() > apart) ++far;
  }
  return static_cast<double>(far) / samples;
}

// Share of the length that is built by another method than the same share of the other's.
double method_difference(const Route& a, const Route& b) {
  double sum = 0;
  for (int m = 0; m < kRouteMethods; ++m)
    sum += std::abs(a.by_method[m] / a.appraisal.length - b.by_method[m] / b.appraisal.length);
  return sum / 2;
}

class RouteFinder {
 public:
  RouteFinder(const Site& site, const Work& work, const Tables& tables, const RoutePrices& prices,
              const RouteWishes& wishes, Appraiser& appraiser)
      : work_(work),
        tables_(tables),
        prices_(prices),
        wishes_(wishes),
        appraiser_(appraiser),
        size_(size_of(work, tables, wishes)),
        ground_(route_ground(site, work, wishes, size_)),
        field_(route_grid(work, wishes), site, tables, prices, size_, ground_) {
    search_.allowed = wishes.allowed;
    search_.least_radius = wishes.least_radius.metres();
    search_.bend_angle = tables.parameter("routes.bend_angle").best;
    const Line& line = work.shape.lines.front();
    stops_ = {line.front()};
    stops_.insert(stops_.end(), wishes.through.begin(), wishes.through.end());
    stops_.push_back(line.back());
  }

  Result<RouteAnswer> find() {
    RouteAnswer answer;
    answer.prices = prices_;
    answer.cell = Length::metres(field_.grid().cell);
    answer.apart = Length::metres(tables_.parameter("routes.apart").best);
    answer.apart_share = tables_.parameter("routes.apart_share").best;
    answer.drawn = drawn();
    ROOTSTEAD_CHECK(check_stops());
    gather();
    if (pool_.empty())
      return Error{Code::invalid_geometry, "work " + work_.id,
                   "no way leads from one end to the other over the ground that is allowed",
                   "widen the corridor, allow another method or move a fixed point"};
    choose(answer);
    answer.looked_at = static_cast<int>(pool_.size()) + 1;
    return answer;
  }

 private:
  static LineSize size_of(const Work& work, const Tables& tables, const RouteWishes& wishes) {
    LineSize size = line_size_of(work, tables);
    if (wishes.depth) {
      size.depth = wishes.depth->metres();
      size.bore_depth = std::max(size.depth, tables.parameter("routes.bore.crown_depth").best);
    }
    return size;
  }

  Route drawn() {
    Route route;
    route.name = "as drawn";
    const RouteMethod method = work_.kind == WorkKind::bore         ? RouteMethod::bore
                               : work_.method == DigMethod::machine ? RouteMethod::open
                                                                    : RouteMethod::hand;
    route.way = {{work_.shape.lines.front(), method}};
    measure(route);
    Work as_it_is = work_;
    as_it_is.state = WorkState::proposed;
    route.design.works = {as_it_is};
    route.appraisal = appraiser_.appraise(route.design);
    const Line& line = work_.shape.lines.front();
    if (method != RouteMethod::bore)
      route.blocked = length_of(inside(line, union_of({ground_.digging, ground_.all})));
    else
      route.blocked = length_of(inside(line, ground_.all));
    return route;
  }

  void measure(Route& route) const {
    route.design = design_of(route.way, work_, size_, prices_, search_);
    for (std::size_t i = 0; i < route.way.size(); ++i) {
      const RouteStretch& stretch = route.way[i];
      route.by_method[static_cast<int>(stretch.method)] +=
          length_of(route.design.works[i].shape.lines.front()).metres();
      if (stretch.method != RouteMethod::bore && !rounded(stretch.line, search_.least_radius))
        route.radius_kept = false;
    }
    route.bends = bends_of(line_of(route.way), search_.bend_angle);
    route.pits = pits_of(route.way);
  }

  Outcome check_stops() const {
    for (const Point& stop : stops_)
      if (!field_.open_at(stop))
        return Error{Code::invalid_geometry, "work " + work_.id,
                     "one of its ends or fixed points lies on ground where nothing may be built",
                     "move it, or leave out the ground to be avoided there"};
    return Nothing{};
  }

  // The cheapest way through all fixed points, one leg after the other.
  std::optional<RouteWay> way(const AllowedMethods& allowed) {
    RouteWay all;
    for (std::size_t leg = 1; leg < stops_.size(); ++leg) {
      auto part = lattice_way(field_, stops_[leg - 1], stops_[leg], allowed);
      if (!part) return {};
      for (RouteStretch& stretch : part->way) all.push_back(std::move(stretch));
    }
    SearchOptions search = search_;
    search.allowed = allowed;
    return smoothed(joined_stretches(std::move(all)), field_, search, wishes_.through);
  }

  static RouteWay joined_stretches(RouteWay way) {
    RouteWay joined;
    for (RouteStretch& stretch : way) {
      if (!joined.empty() && joined.back().method == stretch.method)
        joined.back().line.insert(joined.back().line.end(), stretch.line.begin() + 1,
                                  stretch.line.end());
      else
        joined.push_back(std::move(stretch));
    }
    return joined;
  }

  // Each choice of methods, first freely, then with what was found made dearer.
  void gather() {
    const double apart = tables_.parameter("routes.apart").best;
    for (const AllowedMethods& allowed : choices()) {
      field_.forget_shunned();
      for (int round = 0; round <= kRoundsOfShunning; ++round) {
        const auto found = way(allowed);
        if (!found) break;
        consider(*found);
        field_.shun(line_of(*found), 2 * apart, kShunned * prices_.open);
      }
    }
    field_.forget_shunned();
    consider_straight();
  }

  // All that is allowed, and fewer of them.
  std::vector<AllowedMethods> choices() const {
    std::vector<AllowedMethods> all;
    const auto add = [&](bool open, bool hand, bool bore) {
      const AllowedMethods choice = {open && wishes_.allowed[0], hand && wishes_.allowed[1],
                                     bore && wishes_.allowed[2]};
      const bool any = choice[0] || choice[1] || choice[2];
      if (any && std::find(all.begin(), all.end(), choice) == all.end()) all.push_back(choice);
    };
    add(true, true, true);
    add(true, false, false);
    add(true, true, false);
    add(true, false, true);
    return all;
  }

  void consider_straight() {
    for (int m = 0; m < kRouteMethods; ++m) {
      if (!wishes_.allowed[static_cast<std::size_t>(m)]) continue;
      const RouteWay straight = {{Line(stops_), static_cast<RouteMethod>(m)}};
      if (cost_of(straight, field_, search_) < HUGE_VAL) consider(straight);
    }
  }

  void consider(const RouteWay& way) {
    if (way.empty()) return;
    for (const Route& other : pool_)
      if (same(other.way, way)) return;
    Route route;
    route.way = way;
    measure(route);
    route.appraisal = appraiser_.appraise(route.design);
    pool_.push_back(std::move(route));
  }

  static bool same(const RouteWay& a, const RouteWay& b) {
    if (a.size() != b.size()) return false;
    for (std::size_t i = 0; i < a.size(); ++i) {
      if (a[i].method != b[i].method || a[i].line.size() != b[i].line.size()) return false;
      for (std::size_t k = 0; k < a[i].line.size(); ++k)
        if (std::hypot(a[i].line[k].x - b[i].line[k].x, a[i].line[k].y - b[i].line[k].y) > kSameWay)
          return false;
    }
    return true;
  }

  // The best that no tolerance of the radius stands against, then each next that is another way.
  void choose(RouteAnswer& answer) {
    std::stable_sort(pool_.begin(), pool_.end(), [](const Route& a, const Route& b) {
      if (a.radius_kept != b.radius_kept) return a.radius_kept;
      return a.appraisal.total() < b.appraisal.total();
    });
    for (const Route& route : pool_) {
      if (static_cast<int>(answer.routes.size()) >= wishes_.alternatives) break;
      if (!(route.appraisal.total() <= answer.drawn.appraisal.total())) continue;
      double least = 1;
      for (const Route& before : answer.routes)
        least = std::min(least, std::max(apart_share(line_of(route.way), line_of(before.way),
                                                     answer.apart.metres()),
                                         method_difference(route, before)));
      if (!answer.routes.empty() && least < answer.apart_share) continue;
      answer.routes.push_back(route);
      answer.routes.back().apart = least;
      answer.routes.back().name = std::string(1, static_cast<char>('A' + answer.routes.size() - 1));
    }
  }

  const Work& work_;
  const Tables& tables_;
  const RoutePrices& prices_;
  const RouteWishes& wishes_;
  Appraiser& appraiser_;
  LineSize size_;
  RouteGround ground_;
  CostField field_;
  SearchOptions search_;
  std::vector<Point> stops_;
  std::vector<Route> pool_;
};

std::vector<Note> notes_of(const RouteAnswer& answer, const Work& work) {
  std::vector<Note> notes;
  if (answer.prices.own.empty())
    notes.push_back({route_notes::prices_assumed, work.id,
                     "prices and weights are our assumption: put your own, or the order of the "
                     "routes means little"});
  if (answer.drawn.blocked > 0)
    notes.push_back({route_notes::drawn_line_blocked, work.id,
                     "the drawn line runs " + fixed_number(answer.drawn.blocked, 1) +
                         " m through buildings, walls, pits or ground to be avoided"});
  if (answer.routes.empty())
    notes.push_back({route_notes::no_better_route, work.id,
                     "of the ways looked at none is better than the drawn line by these prices"});
  bool by_hand = false;
  for (const Route& route : answer.routes) by_hand = by_hand || route.by_method[1] > 0;
  if (by_hand)
    notes.push_back({route_notes::hand_digging_credited, work.id,
                     "hand or air digging is credited with roots kept whole; it keeps them only "
                     "where each is dug round and the pipe threaded beneath"});
  return notes;
}

}  // namespace

Result<RouteAnswer> least_loss_routes(const Site& site, const std::string& id, const Tables& tables,
                                      const RoutePrices& prices, const RouteWishes& wishes) {
  const Work* work = site.work(id);
  if (work == nullptr)
    return Error{Code::unknown_name, "work " + id, "there is no such work",
                 "choose one that `rootstead check` or the plan names"};
  if (work->kind != WorkKind::trench && work->kind != WorkKind::bore)
    return Error{Code::outside_rule_domain, "work " + id, "it is neither a trench nor a bore",
                 "ask for the smallest change instead: `rootstead ease`"};
  if (work->shape.lines.size() != 1 || work->shape.lines.front().size() < 2)
    return Error{Code::outside_rule_domain, "work " + id,
                 "a route is looked for between the two ends of one line, and it has " +
                     std::to_string(work->shape.lines.size()),
                 "draw it as one line"};
  ROOTSTEAD_TRY(Appraiser appraiser, Appraiser::start(site, *work, tables, prices, wishes.how));
  RouteFinder finder(site, *work, tables, prices, wishes, appraiser);
  ROOTSTEAD_TRY(RouteAnswer answer, finder.find());
  answer.notes = notes_of(answer, *work);
  return answer;
}

}  // namespace rootstead
