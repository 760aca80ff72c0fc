#include "engine/revisions/field_list.hpp"

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

constexpr double kSameLength = 1e-9;  // m: 0.9 m and 900 mm are one length

std::string number_text(const std::optional<double>& value, const char* unit) {
  return value ? shortest_number(*value) + unit : std::string();
}

std::string stems_text(const std::vector<Stem>& stems) {
  std::vector<std::string> parts;
  for (const Stem& stem : stems)
    parts.push_back((stem.read == Stem::Read::girth ? "girth " : "") + to_text(stem.size) +
                    (stem.measured_at ? " at " + to_text(*stem.measured_at) : ""));
  return joined(parts, ", ");
}

// The radii to north, east, south and west.
std::string crown_text(const std::optional<Crown>& crown, const AmountText& amount) {
  if (!crown) return "";
  std::vector<std::string> parts;
  for (const EnteredLength& radius : crown->radius) parts.push_back(amount.length(radius.length()));
  return joined(parts, ", ") + (crown->columnar ? ", columnar" : "");
}

std::string numbers_text(const std::vector<double>& values) {
  std::vector<std::string> parts;
  for (const double value : values) parts.push_back(shortest_number(value));
  return joined(parts, " ");
}

std::string vehicle_text(const std::optional<Vehicle>& v) {
  if (!v) return "";
  std::vector<std::string> parts;
  if (!v->name.empty()) parts.push_back(v->name);
  const auto add = [&](const std::optional<double>& value, const char* unit) {
    if (value) parts.push_back(shortest_number(*value) + unit);
  };
  const auto entered = [&](const std::optional<EnteredLength>& value, const char* of) {
    if (value) parts.push_back(of + to_text(*value));
  };
  add(v->gross_mass, " kg"), add(v->wheel_load, " kN a wheel"), add(v->contact_pressure, " kPa");
  entered(v->contact_width, "contact width "), entered(v->contact_length, "contact length ");
  add(v->passes, " passes");
  return joined(parts, ", ");
}

std::string cover_text(const std::optional<GroundCover>& c) {
  if (!c) return "";
  std::vector<std::string> parts;
  if (!c->name.empty()) parts.push_back(c->name);
  const auto entered = [&](const std::optional<EnteredLength>& value, const char* of) {
    if (value) parts.push_back(of + to_text(*value));
  };
  entered(c->chips, "chips "), entered(c->plate_width, "plates wide ");
  entered(c->plate_length, "plates long ");
  return joined(parts, ", ");
}

std::string lean_text(const std::optional<Lean>& lean) {
  return lean ? fixed_number(lean->from_vertical.degrees(), 0) + "° towards " +
                    fixed_number(lean->towards.degrees(), 0) + "°"
              : std::string();
}

std::string flare_text(const Flare& flare) {
  std::string text(to_text(flare.state));
  if (flare.buried_by) text += " by " + to_text(*flare.buried_by);
  for (const FlareSign sign : flare.signs) text += ", " + std::string(to_text(sign));
  for (const TaperReading& reading : flare.taper)
    text += ", " + to_text(reading.diameter) + " at " + to_text(reading.height);
  if (flare.found) text += ", uncovered " + flare.found->date;
  return text;
}

std::string layers_text(const std::vector<SoilLayer>& layers) {
  std::vector<std::string> parts;
  for (const SoilLayer& layer : layers) {
    std::string text = std::string(to_text(layer.texture)) + " to " + to_text(layer.bottom);
    const auto add = [&](const std::optional<double>& value, const char* what) {
      if (value) text += std::string(" ") + what + " " + shortest_number(*value);
    };
    add(layer.bulk_density, "density"), add(layer.air_filled, "air"),
        add(layer.resistance, "resistance"), add(layer.sand, "sand"), add(layer.silt, "silt"),
        add(layer.clay, "clay"), add(layer.organic_matter, "organic"), add(layer.water, "water");
    parts.push_back(std::move(text));
  }
  return joined(parts, "; ");
}

std::string roots_text(const Evidence& opening) {
  std::vector<std::string> parts;
  for (const FoundRoot& root : opening.roots)
    parts.push_back(to_text(root.diameter) + (root.depth ? " at " + to_text(*root.depth) : "") +
                    (root.alive ? "" : " dead"));
  return parts.empty() ? "none found" : joined(parts, ", ");
}

}  // namespace

void FieldList::length(const char* field, const std::optional<EnteredLength>& before,
                       const std::optional<EnteredLength>& after) {
  if (before.has_value() == after.has_value() &&
      (!before || std::abs((before->length() - after->length()).metres()) < kSameLength))
    return;
  const auto read = [&](const std::optional<EnteredLength>& value) {
    return value ? amount_.length(value->length()) : std::string();
  };
  const auto entered = [&](const std::optional<EnteredLength>& value) {
    return value ? to_text(*value) : std::string();
  };
  const bool seen = read(before) != read(after);
  changes_.push_back(
      {field, seen ? read(before) : entered(before), seen ? read(after) : entered(after)});
}

void FieldList::number(const char* field, const std::optional<double>& before,
                       const std::optional<double>& after, const char* unit) {
  if (before != after)
    changes_.push_back({field, number_text(before, unit), number_text(after, unit)});
}

std::vector<FieldChange> fields_of(const Work& a, const Work& b, UnitSystem units) {
  FieldList list(units);
  list.text("name", a.name, b.name);
  list.word("kind", a.kind, b.kind);
  list.word("state", a.state, b.state);
  list.word("method", a.method, b.method);
  list.length("width", a.width, b.width);
  list.length("depth", a.depth, b.depth);
  list.length("working room", a.working_room, b.working_room);
  list.length("bore diameter", a.bore_diameter, b.bore_diameter);
  list.length("spacing", a.spacing, b.spacing);
  list.yes("permeable", a.permeable, b.permeable);
  list.text("vehicle", vehicle_text(a.vehicle), vehicle_text(b.vehicle));
  list.text("ground cover", cover_text(a.cover), cover_text(b.cover));
  list.word("fill texture", a.fill_texture, b.fill_texture);
  list.yes("while wet", a.wet, b.wet);
  list.text("date", a.date, b.date);
  list.text("damage seen", a.seen, b.seen);
  list.text("notes", a.notes, b.notes);
  return list.take();
}

std::vector<FieldChange> fields_of(const Tree& a, const Tree& b, UnitSystem units) {
  FieldList list(units);
  const AmountText amount{units};
  list.text("tag", a.tag, b.tag);
  list.text("botanical name", a.botanical_name, b.botanical_name);
  list.text("common name", a.common_name, b.common_name);
  list.word("growth form", a.form, b.form);
  list.text("stems", stems_text(a.stems), stems_text(b.stems));
  list.length("basal diameter", a.basal_diameter, b.basal_diameter);
  list.length("height", a.height, b.height);
  list.text("crown radii", crown_text(a.crown, amount), crown_text(b.crown, amount));
  list.word("condition", a.condition, b.condition);
  list.word("life stage", a.stage, b.stage);
  list.text("lean", lean_text(a.lean), lean_text(b.lean));
  list.text("flare", flare_text(a.flare), flare_text(b.flare));
  list.word("history", a.history, b.history);
  list.word("intent", a.intent, b.intent);
  list.length("clear trunk", a.clear_trunk, b.clear_trunk);
  list.text("ownership", a.ownership, b.ownership);
  list.text("protection", a.protection, b.protection);
  list.text("category", a.category, b.category);
  list.text("notes", a.notes, b.notes);
  return list.take();
}

std::vector<FieldChange> fields_of(const Barrier& a, const Barrier& b, UnitSystem units) {
  FieldList list(units);
  list.text("name", a.name, b.name);
  list.word("kind", a.kind, b.kind);
  list.length("width", a.width, b.width);
  list.length("depth", a.depth, b.depth);
  list.text("notes", a.notes, b.notes);
  return list.take();
}

std::vector<FieldChange> fields_of(const Surface& a, const Surface& b, UnitSystem units) {
  FieldList list(units);
  list.text("name", a.name, b.name);
  list.yes("permeable", a.permeable, b.permeable);
  return list.take();
}

std::vector<FieldChange> fields_of(const Evidence& a, const Evidence& b, UnitSystem units) {
  FieldList list(units);
  list.word("kind", a.kind, b.kind);
  list.text("tree", a.tree, b.tree);
  list.length("width", a.width, b.width);
  list.length("depth", a.depth, b.depth);
  list.length("counted from", a.counted_from, b.counted_from);
  list.text("roots", roots_text(a), roots_text(b));
  list.text("notes", a.notes, b.notes);
  return list.take();
}

std::vector<FieldChange> fields_of(const Gate& a, const Gate& b, UnitSystem units) {
  FieldList list(units);
  list.length("width", a.width, b.width);
  return list.take();
}

std::vector<FieldChange> fields_of(const Soil& a, const Soil& b, UnitSystem units) {
  FieldList list(units);
  list.word("texture", a.texture, b.texture);
  list.word("drainage", a.drainage, b.drainage);
  list.length("rooting depth", a.rooting_depth, b.rooting_depth);
  list.length("water table", a.water_table, b.water_table);
  list.yes("compacted", a.compacted, b.compacted);
  list.text("layers", layers_text(a.layers), layers_text(b.layers));
  list.text("notes", a.notes, b.notes);
  return list.take();
}

std::vector<FieldChange> fields_of(const Wind& a, const Wind& b, UnitSystem units) {
  FieldList list(units);
  list.word("standard", a.standard, b.standard);
  list.number("basic speed", a.basic_speed, b.basic_speed, " m/s");
  list.text("terrain", a.terrain, b.terrain);
  list.number("return period", a.return_years, b.return_years, " years");
  list.number("elevation", a.elevation, b.elevation, " m");
  return list.take();
}

std::vector<FieldChange> fields_of(const Climate& a, const Climate& b, UnitSystem units) {
  FieldList list(units);
  const auto zone = [](const Climate& c) {
    return c.hardiness_zone ? std::to_string(*c.hardiness_zone) : std::string();
  };
  list.text("hardiness zone", zone(a), zone(b));
  list.number("latitude", a.latitude, b.latitude, "°");
  list.number("elevation", a.elevation, b.elevation, " m");
  list.text("evapotranspiration", numbers_text(a.evapotranspiration),
            numbers_text(b.evapotranspiration));
  list.text("rain", numbers_text(a.rain), numbers_text(b.rain));
  list.text("source", a.source, b.source);
  return list.take();
}

// What figures and advice rest on; the texts of the title block speak for themselves.
std::vector<FieldChange> fields_of(const ProjectSettings& a, const ProjectSettings& b,
                                   UnitSystem units) {
  FieldList list(units);
  list.text("rules", joined(a.rules, ", "), joined(b.rules, ", "));
  const auto value = [](const ProjectSettings& s, const std::string& key) {
    const auto found = s.other.find(key);
    return found == s.other.end() ? std::string() : found->second;
  };
  for (const auto& [key, text] : a.other) list.text(key.c_str(), text, value(b, key));
  for (const auto& [key, text] : b.other)
    if (!a.other.contains(key)) list.text(key.c_str(), "", text);
  return list.take();
}

}  // namespace rootstead
