#include "engine/routes/methods.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/amount_text.hpp"
#include "engine/geom/along.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/routes/route_notes.hpp"

namespace rootstead {

std::string_view to_text(BuildMethod method) {
  switch (method) {
    case BuildMethod::dug:
      return "dug by machine";
    case BuildMethod::by_hand:
      return "dug by hand or air";
    case BuildMethod::bored:
      return "bored";
    case BuildMethod::bridged:
      return "bridged on pads";
    case BuildMethod::on_ground:
      break;
  }
  return "laid on the ground";
}

namespace {

struct Pads {
  double spacing, side, depth;
};

class Methods {
 public:
  Methods(const Work& work, const Site& site, const Tables& tables, const RoutePrices& prices)
      : work_(work), prices_(prices), size_(line_size_of(work, tables)) {
    amounts_.units = site.settings.units;
    pads_ = {tables.parameter("routes.bridge.spacing").best,
             tables.parameter("routes.bridge.pad").best,
             tables.parameter("routes.bridge.pad_depth").best};
    const MultiPolygon ground = footprint(work);
    area_ = area_of(ground).square_metres();
    for (const Line& line : work.shape.lines) length_ += length_of(line).metres();
  }

  std::vector<MethodDesign> all() const {
    return {dug(), by_hand(), bored(), bridged(), on_ground()};
  }

 private:
  bool is_line() const { return !work_.shape.lines.empty() && work_.shape.areas.empty(); }

  MethodDesign made(BuildMethod method, std::string what) const {
    MethodDesign design;
    design.method = method;
    design.name = to_text(method);
    design.what = std::move(what);
    design.design.length = is_line() ? length_ : 0;
    return design;
  }
  static MethodDesign refused(MethodDesign design, std::string why) {
    design.applies = false;
    design.why_not = std::move(why);
    design.design = {};
    return design;
  }
  Work renamed(const char* suffix) const {
    Work work = work_;
    work.id = work_.id + "/" + suffix;
    work.state = WorkState::proposed;
    return work;
  }
  bool is_dug_by_nature() const {
    return work_.kind != WorkKind::fill && work_.kind != WorkKind::traffic;
  }

  // Of a bore: the trench that would take its place.
  Work trench(const char* suffix) const {
    Work work = renamed(suffix);
    if (is_line() && work_.kind == WorkKind::bore) {
      work.kind = WorkKind::trench;
      work.width = in_metres(size_.width);
      work.bore_pits.clear();
    }
    return work;
  }

  MethodDesign dug() const {
    MethodDesign design = made(BuildMethod::dug, depth_text(size_.depth));
    design.as_drawn = work_.kind != WorkKind::bore && work_.method == DigMethod::machine;
    if (!is_dug_by_nature()) return refused(std::move(design), "nothing of it is dug");
    Work work = trench("dug");
    work.method = DigMethod::machine;
    design.design.works = {work};
    design.design.building = is_line() ? length_ * prices_.open : area_ * prices_.area;
    return design;
  }

  MethodDesign by_hand() const {
    MethodDesign design =
        made(BuildMethod::by_hand, depth_text(size_.depth) + ", no machine beside it");
    design.as_drawn = work_.kind != WorkKind::bore && work_.method != DigMethod::machine;
    if (!work_.digs() && work_.kind != WorkKind::bore)
      return refused(std::move(design), "nothing of it is dug");
    Work work = trench("hand");
    work.method = DigMethod::hand;
    work.working_room = in_metres(0);
    design.design.works = {work};
    design.design.building = is_line() ? length_ * prices_.hand : area_ * prices_.area_hand;
    return design;
  }

  MethodDesign bored() const {
    MethodDesign design = made(BuildMethod::bored, "");
    design.as_drawn = work_.kind == WorkKind::bore;
    if (!is_line()) return refused(std::move(design), "only a line can be bored");
    if (work_.kind != WorkKind::trench && work_.kind != WorkKind::bore)
      return refused(std::move(design), "it is no pipe or cable");
    RouteWay way;
    for (const Line& line : work_.shape.lines)
      if (line.size() >= 2) way.push_back({line, RouteMethod::bore});
    const Design bore = design_of(way, work_, size_, prices_, {});
    design.design = bore;
    for (std::size_t i = 0; i < design.design.works.size(); ++i)
      design.design.works[i].id = work_.id + "/bore" + std::to_string(i + 1);
    design.what = "crown " + amounts_.length(Length::metres(size_.bore_depth)) + " deep, " +
                  std::to_string(pits_of(way)) + " pits of " +
                  amounts_.length(Length::metres(size_.pit_side));
    return design;
  }

  MethodDesign bridged() const {
    MethodDesign design = made(
        BuildMethod::bridged, "pads of " + amounts_.length(Length::metres(pads_.side)) + " every " +
                                  amounts_.length(Length::metres(pad_spacing())) + ", " +
                                  amounts_.length(Length::metres(pads_.depth)) + " deep");
    if (work_.kind == WorkKind::cut || work_.kind == WorkKind::root_cut ||
        work_.kind == WorkKind::fence_posts || work_.kind == WorkKind::pit)
      return refused(std::move(design), "what must lie in the ground cannot be carried over it");
    Work work = renamed("bridge");
    work.kind = WorkKind::fence_posts;  // square holes
    work.method = DigMethod::machine;
    work.bore_pits.clear();
    work.working_room = in_metres(0);
    work.width = in_metres(pads_.side);
    work.depth = in_metres(pads_.depth);
    work.spacing = in_metres(pads_.spacing);
    work.vehicle.reset();
    work.cover.reset();
    if (!is_line()) {
      work.shape = {};
      work.shape.points = lattice_in(work_.shape.areas);
      if (work.shape.points.empty())
        return refused(std::move(design), "it is smaller than one span");
    }
    design.design.works = {work};
    design.design.building = is_line() ? length_ * prices_.bridge : area_ * prices_.area_bridge;
    return design;
  }

  // An area narrower than the spacing is no wider than twice its area over its outline.
  double pad_spacing() const {
    if (is_line()) return pads_.spacing;
    double outline = 0;
    for (const Polygon& polygon : work_.shape.areas) {
      Line ring = polygon.outer;
      if (!ring.empty()) ring.push_back(ring.front());
      outline += length_of(ring).metres();
    }
    const double width = outline > 0 ? 2 * area_ / outline : pads_.spacing;
    return std::clamp(width * 0.9, 2 * pads_.side, pads_.spacing);
  }

  // Pads in rows over an area.
  Line lattice_in(const MultiPolygon& areas) const {
    Line pads;
    const Box box = box_of(areas);
    for (double y = box.min_y + pads_.side; y < box.max_y; y += pad_spacing())
      for (double x = box.min_x + pads_.side; x < box.max_x; x += pad_spacing())
        if (contains(areas, Point{x, y})) pads.push_back({x, y});
    return pads;
  }

  MethodDesign on_ground() const {
    MethodDesign design =
        made(BuildMethod::on_ground, "nothing dug, permeable, the ground beneath pressed");
    if (work_.kind == WorkKind::cut || work_.kind == WorkKind::root_cut ||
        work_.kind == WorkKind::fence_posts || work_.kind == WorkKind::pit ||
        work_.kind == WorkKind::building)
      return refused(std::move(design), "what must lie in the ground cannot be laid on it");
    if (work_.kind == WorkKind::fill || work_.kind == WorkKind::traffic) {
      design.as_drawn = true;
      design.what = "as drawn";
    }
    Work work = renamed("surface");
    if (!design.as_drawn) {
      work.kind = WorkKind::paving;
      work.permeable = true;
      work.depth = in_metres(0);
      work.working_room = in_metres(0);
      work.bore_pits.clear();
      if (is_line()) {
        std::vector<MultiPolygon> strips;
        for (const Line& line : work_.shape.lines)
          strips.push_back(corridor(line, Length::metres(size_.width / 2)));
        work.shape = {};
        work.shape.areas = union_of(strips);
      }
    }
    design.design.works = {work};
    design.design.building = (is_line() ? length_ : area_) * prices_.surface;
    return design;
  }

  std::string depth_text(double depth) const {
    return amounts_.length(Length::metres(depth)) + " deep" +
           (is_line() ? ", " + amounts_.length(Length::metres(size_.width)) + " wide" : "");
  }

  const Work& work_;
  const RoutePrices& prices_;
  LineSize size_;
  AmountText amounts_;
  Pads pads_{};
  double area_ = 0, length_ = 0;
};

}  // namespace

std::vector<MethodDesign> method_designs(const Work& work, const Site& site, const Tables& tables,
                                         const RoutePrices& prices) {
  return Methods(work, site, tables, prices).all();
}

Result<MethodsAnswer> methods_side_by_side(const Site& site, const std::string& id,
                                           const Tables& tables, const RoutePrices& prices,
                                           const RootSimulation& how) {
  const Work* work = site.work(id);
  if (work == nullptr)
    return Error{Code::unknown_name, "work " + id, "there is no such work",
                 "choose one that `rootstead check` or the plan names"};
  if (work->shape.empty())
    return Error{Code::outside_rule_domain, "work " + id, "it has no place on the plan",
                 "draw it first"};
  ROOTSTEAD_TRY(Appraiser appraiser, Appraiser::start(site, *work, tables, prices, how));
  MethodsAnswer answer;
  answer.work = id;
  answer.prices = prices;
  for (MethodDesign& design : method_designs(*work, site, tables, prices)) {
    MethodOutcome outcome;
    if (design.applies) outcome.appraisal = appraiser.appraise(design.design);
    outcome.made = std::move(design);
    answer.methods.push_back(std::move(outcome));
  }
  if (prices.own.empty())
    answer.notes.push_back(
        {route_notes::prices_assumed, id, "prices and weights are our assumption: put your own"});
  answer.notes.push_back({route_notes::hand_digging_credited, id,
                          "hand or air digging is credited with roots kept whole; it keeps them "
                          "only where each is dug round and what is laid is threaded beneath"});
  return answer;
}

}  // namespace rootstead
