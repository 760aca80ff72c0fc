// Zones made by hand, so that these tests need no rule file.
#pragma once

#include <numbers>

#include "engine/losses/losses.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead::test {

inline Zone circle_zone(Point centre, double radius) {
  Zone zone;
  zone.rule = "test-rule";
  zone.zone = "root-zone";
  zone.name = "Root zone";
  zone.centre = centre;
  zone.radius = Length::metres(radius);
  zone.area = circle_area(zone.radius);
  return zone;
}

inline Zone outline_zone(Point centre, MultiPolygon outline, double area) {
  Zone zone = circle_zone(centre, std::sqrt(area / std::numbers::pi));
  zone.area = Area::square_metres(area);
  zone.outline = std::move(outline);
  return zone;
}

inline ZoneLoss loss_of(const Zone& zone, const Site& site) {
  return zone_loss(zone, WorkMap(site));
}

inline LimitDefinition limit(LimitDefinition::Measure measure, double threshold) {
  LimitDefinition limit;
  limit.id = "limit";
  limit.zone = "root-zone";
  limit.measure = measure;
  limit.threshold = threshold;
  return limit;
}

// The one limit laid on a zone over this site.
inline LimitResult checked(const LimitDefinition& limit, const Zone& zone, const Site& site,
                           ZoneCentre centre = ZoneCentre::stem_centre) {
  ZoneRule rule;
  rule.id = "test-rule";
  ZoneDefinition definition;
  definition.id = zone.zone;
  definition.name = zone.name;
  definition.centre = centre;
  rule.zones = {definition};
  rule.limits = {limit};
  const WorkMap works(site);
  return check_limits(rule, {zone}, {zone_loss(zone, works)}, site.trees.front(), works).front();
}

}  // namespace rootstead::test
