// Small trees and rules for the tests of this room.
#pragma once

#include <string>

#include "engine/rules/zone.hpp"

namespace rootstead::test {

inline EnteredLength metres(double value) {
  return {value, LengthUnit::metre};
}

inline Tree tree_of(double stem_metres, double crown_metres = 0) {
  Tree tree;
  tree.id = "T1";
  tree.position.emplace();
  tree.form = GrowthForm::broadleaf;
  if (stem_metres > 0) tree.stems.push_back({Stem::Read::diameter, metres(stem_metres), {}});
  if (crown_metres > 0) tree.crown.emplace().radius.fill(metres(crown_metres));
  return tree;
}

inline ZoneTerm term(ZoneTerm::Kind kind, double factor = 1, double offset_metres = 0) {
  ZoneTerm one;
  one.kind = kind;
  one.factor = factor;
  one.offset = metres(offset_metres);
  return one;
}

inline ZoneDefinition zone_of(std::vector<ZoneTerm> terms, std::string id = "zone-1") {
  ZoneDefinition zone;
  zone.id = std::move(id);
  zone.name = "root zone";
  zone.terms = std::move(terms);
  zone.from = {"a-2001", "1", Status::published};
  return zone;
}

inline ZoneRule rule_of(std::vector<ZoneDefinition> zones) {
  ZoneRule rule;
  rule.id = "rule";
  rule.title = "Rule";
  rule.measured_at = metres(1.4);
  rule.zones = std::move(zones);
  return rule;
}

inline Barrier wall_from(Point a, Point b, double depth_metres = 2) {
  Barrier wall;
  wall.id = "wall";
  wall.kind = BarrierKind::wall;
  wall.shape.lines.push_back({a, b});
  wall.depth = metres(depth_metres);
  return wall;
}

inline bool has_note(const Zone& zone, NoteCode code) {
  for (const Note& note : zone.notes) {
    if (note.code == code) return true;
  }
  return false;
}

}  // namespace rootstead::test
