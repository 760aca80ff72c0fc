#include "engine/assess/assess.hpp"
#include "engine/assess/root_figures.hpp"
#include "engine/base/text.hpp"

namespace rootstead {
namespace {

constexpr int kDecimals = 3;

std::string square_metres(Area area) {
  return fixed_number(area.square_metres(), kDecimals) + " m2";
}
std::string metres(Length length) {
  return fixed_number(length.metres(), kDecimals) + " m";
}

// Areas are exact geometry; what they rest on is the rule that drew the zone.
Figure area_figure(const Zone& zone, std::string_view name, Area area, std::string formula) {
  Figure figure;
  figure.name = zone.rule + "." + zone.zone + "." + std::string(name);
  figure.value = area.square_metres();
  figure.unit = "m2";
  figure.formula = std::move(formula);
  figure.inputs = {{"r", "zone radius", metres(zone.radius)},
                   {"A_zone", "zone area", square_metres(zone.area)}};
  figure.from = zone.figure.from;
  return figure;
}

Figure share_figure(const Zone& zone, const std::string& name, double share, Area affected) {
  Figure figure = area_figure(zone, name, affected, "share = A_affected / A_zone");
  figure.value = share;
  figure.unit = "";
  figure.inputs.push_back({"A_affected",
                           "area inside the zone taken by new works and their working room",
                           square_metres(affected)});
  return figure;
}

void add_zone_figures(const ZoneAssessment& one, std::vector<Figure>& figures) {
  const Zone& zone = one.zone;
  const ZoneLoss& loss = one.loss;
  figures.push_back(zone.figure);
  figures.push_back(
      area_figure(zone, "area", zone.area, zone.outline ? "area of the outline" : "A = pi r^2"));
  figures.push_back(area_figure(zone, "affected-area", loss.affected,
                                "union of all new works with their working room, inside the zone"));
  figures.push_back(share_figure(zone, "affected-share", loss.share, loss.affected));
  figures.push_back(area_figure(zone, "footprint-area", loss.footprint,
                                "union of the footprints of all new works inside the zone"));
  if (loss.beyond)
    figures.push_back(
        area_figure(zone, "beyond-area", *loss.beyond,
                    "zone behind severing works as seen from the stem, not affected"));
  figures.push_back(area_figure(zone, "existing-area", loss.existing,
                                "union of the works that exist already, inside the zone"));
  figures.push_back(area_figure(zone, "unsurfaced-area", loss.unsurfaced,
                                "zone area less what is surfaced or built on today"));
  figures.push_back(area_figure(zone, "new-surfacing-area", loss.new_surfacing,
                                "new hard surfaces and buildings on ground that is bare today"));
  for (const ZoneLoss::ByWork& by : loss.by_work) {
    const std::string name = (by.existing ? "existing-share." : "affected-share.") + by.work;
    Figure figure = share_figure(zone, name, by.share, by.affected);
    figure.inputs.push_back(
        {"d", "nearest affected point from the stem centre", metres(by.nearest)});
    figures.push_back(std::move(figure));
  }
  for (const LimitResult& limit : one.limits) figures.push_back(limit.figure);
}

}  // namespace

std::vector<Figure> figures_of(const TreeAssessment& tree) {
  std::vector<Figure> figures;
  for (const ZoneAssessment& one : tree.zones) add_zone_figures(one, figures);
  add_root_figures(tree, figures);
  if (tree.anchorage) {
    const auto anchorage = figures_of(*tree.anchorage);
    figures.insert(figures.end(), anchorage.begin(), anchorage.end());
  }
  return figures;
}

}  // namespace rootstead
