#include "engine/screening/screen_zone.hpp"

#include <algorithm>
#include <cstring>

#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

constexpr std::size_t kMostRemembered = 20'000;  // some megabytes; then it begins anew

// Everything of a tree that zones_of() looks at, as bytes.
class Key {
 public:
  explicit Key(std::string& bytes) : bytes_(bytes) { bytes_.clear(); }
  void add(double value) {
    char raw[sizeof value];
    std::memcpy(raw, &value, sizeof value);
    bytes_.append(raw, sizeof value);
  }
  void add(int value) { add(static_cast<double>(value)); }
  void add(const std::string& text) { bytes_.append(text).push_back('\0'); }
  void add(const EnteredLength& length) {
    add(length.value);
    add(static_cast<int>(length.unit));
  }
  void add(const std::optional<EnteredLength>& length) {
    bytes_.push_back(length ? '\1' : '\0');
    if (length) add(*length);
  }

 private:
  std::string& bytes_;
};

void describe(const Tree& tree, Key key) {
  key.add(tree.botanical_name);
  key.add(tree.category);
  key.add(static_cast<int>(tree.form));
  key.add(static_cast<int>(tree.condition));
  key.add(static_cast<int>(tree.stage));
  key.add(tree.lean ? tree.lean->from_vertical.degrees() : 0.0);
  key.add(static_cast<int>(tree.stems.size()));
  for (const Stem& stem : tree.stems) {
    key.add(static_cast<int>(stem.read));
    key.add(stem.size);
    key.add(stem.measured_at);
  }
  key.add(tree.basal_diameter);
  key.add(tree.height);
  key.add(tree.crown ? 1 : 0);
  if (!tree.crown) return;
  for (const EnteredLength& radius : tree.crown->radius) key.add(radius);
  key.add(tree.crown->base_height);
  key.add(tree.crown->columnar ? 1 : 0);
}

ScreenZone without(std::string why) {
  ScreenZone none;
  none.why_none = std::move(why);
  return none;
}

// What weakens the figure of one tree; what is true of every tree by the rule is told once, by the
// caller.
bool is_of_the_tree(NoteCode code) {
  switch (code) {
    case NoteCode::crown_missing:
    case NoteCode::basal_diameter_estimated:
    case NoteCode::measuring_height_differs:
    case NoteCode::tolerance_assumed:
      return true;
    default:
      return false;
  }
}

ScreenZone screen_zone(const Zone& zone) {
  ScreenZone made;
  made.zone = zone.zone;
  made.radius = zone.radius;
  made.reach = zone.reach;
  made.area = zone.area;
  if (zone.outline) made.outline = std::make_shared<const MultiPolygon>(*zone.outline);
  for (const Note& note : zone.notes) {
    if (!is_of_the_tree(note.code)) continue;
    if (!made.remark.empty()) made.remark += "; ";
    made.remark += note.text;
  }
  return made;
}

ScreenZone chosen(const Tree& tree, const ZoneRule& rule, const Tables& tables,
                  const std::string& wanted) {
  Tree at_origin = tree;
  at_origin.position = Position{{0, 0}, {}, {}};
  const auto zones = zones_of(at_origin, rule, tables);
  if (!zones) return without(zones.error().message);
  const Zone* best = nullptr;
  for (const Zone& zone : *zones) {
    if (!wanted.empty() && zone.zone != wanted) continue;
    if (best == nullptr || zone.reach > best->reach) best = &zone;
  }
  if (best == nullptr) return without("the rule draws no " + wanted + " round this tree");
  if (!(best->reach > Length())) return without("the zone has no width: the stem is 0");
  ScreenZone zone = screen_zone(*best);
  if (tree.form == GrowthForm::unknown && tables.species_of(tree.botanical_name) == nullptr) {
    const std::string assumed = "growth form not known: taken to be no palm";
    zone.remark = zone.remark.empty() ? assumed : assumed + "; " + zone.remark;
  }
  return zone;
}

}  // namespace

ZoneMemory::ZoneMemory(const ZoneRule& rule, const Tables& tables, std::string zone)
    : rule_(rule), tables_(tables), zone_(std::move(zone)) {}

const ScreenZone& ZoneMemory::zone_of(const Tree& tree) {
  describe(tree, Key(key_));
  if (const auto found = known_.find(key_); found != known_.end()) return found->second;
  if (known_.size() >= kMostRemembered) known_.clear();
  return known_.emplace(key_, chosen(tree, rule_, tables_, zone_)).first->second;
}

}  // namespace rootstead
