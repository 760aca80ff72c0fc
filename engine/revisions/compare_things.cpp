#include "engine/revisions/compare_things.hpp"

#include <algorithm>
#include <map>

#include "engine/geom/overlay.hpp"
#include "engine/revisions/changed_place.hpp"
#include "engine/revisions/field_list.hpp"

namespace rootstead {
namespace {

// How wide a thing without an own width is shown; for looking only.
constexpr Length kShownWidth = Length::metres(0.3);
constexpr Length kShownTree = Length::metres(1.2);  // across the stem

Shape shape_of(const Work& work) {
  Shape shape = work.shape;
  shape.areas.insert(shape.areas.end(), work.bore_pits.begin(), work.bore_pits.end());
  return shape;
}
Shape shape_of(const Barrier& barrier) {
  return barrier.shape;
}
Shape shape_of(const Surface& surface) {
  return {{}, surface.area, {}};
}
Shape shape_of(const Evidence& opening) {
  return opening.shape;
}
Shape shape_of(const Gate& gate) {
  return {{}, {}, {gate.at}};
}
Shape shape_of(const Tree& tree) {
  return tree.position ? Shape{{}, {}, {tree.position->at}} : Shape{};
}

MultiPolygon ground_of(const Work& work) {
  MultiPolygon ground = footprint(work);
  return ground.empty() ? ground_of_shape(work.shape, kShownWidth) : ground;
}
MultiPolygon ground_of(const Tree& tree) {
  return ground_of_shape(shape_of(tree), kShownTree);
}
MultiPolygon ground_of(const Barrier& barrier) {
  const Length width = barrier.width ? barrier.width->length() : kShownWidth;
  return ground_of_shape(barrier.shape, std::max(width, kShownWidth));
}
MultiPolygon ground_of(const Evidence& opening) {
  return footprint(opening);
}
MultiPolygon ground_of(const auto& thing) {
  return ground_of_shape(shape_of(thing), kShownWidth);
}

std::string name_of(const Tree& tree) {
  return tree.label();
}
std::string name_of(const Evidence& opening) {
  return opening.id;
}
std::string name_of(const Gate& gate) {
  return gate.id;
}
std::string name_of(const auto& thing) {
  return thing.name.empty() ? thing.id : thing.name;
}

// Made otherwise, not only named or laid otherwise.
bool made_otherwise(const std::vector<FieldChange>& fields) {
  return std::any_of(fields.begin(), fields.end(), [](const FieldChange& change) {
    return change.field != "name" && change.field != "notes" && change.field != "width";
  });
}

// Coming into a place or losing it is told in words; no distance says it.
void tell_of_place(const Shape& before, const Shape& after, std::vector<FieldChange>& fields) {
  if (before.empty() == after.empty()) return;
  fields.push_back({"place", before.empty() ? "" : "drawn", after.empty() ? "" : "drawn"});
}

template <class Thing>
class Comparer {
 public:
  Comparer(ChangedSort sort, UnitSystem units, std::vector<ThingChange>& out)
      : sort_(sort), units_(units), out_(out) {}

  void operator()(const std::vector<Thing>& before, const std::vector<Thing>& after) {
    std::map<std::string, const Thing*> was;
    for (const Thing& thing : before) was.emplace(thing.id, &thing);
    for (const Thing& thing : after) {
      const auto found = was.find(thing.id);
      if (found == was.end()) {
        out_.push_back(whole(thing, ChangedHow::added));
        continue;
      }
      changed(*found->second, thing);
      was.erase(found);
    }
    for (const Thing& thing : before) {
      const auto left = was.find(thing.id);
      if (left != was.end() && left->second == &thing)
        out_.push_back(whole(thing, ChangedHow::removed));
    }
  }

 private:
  ThingChange whole(const Thing& thing, ChangedHow how) const {
    return {sort_, thing.id, name_of(thing), how, {}, {}, ground_of(thing)};
  }

  void changed(const Thing& was, const Thing& is) {
    ThingChange change{sort_, is.id, name_of(is), ChangedHow::changed, {}, {}, {}};
    change.moved = moved_by(shape_of(was), shape_of(is));
    change.fields = fields_of(was, is, units_);
    tell_of_place(shape_of(was), shape_of(is), change.fields);
    if (!change.moved && change.fields.empty()) return;
    const MultiPolygon before = ground_of(was), after = ground_of(is);
    change.ground =
        made_otherwise(change.fields) ? union_of({before, after}) : either_not_both(before, after);
    out_.push_back(std::move(change));
  }

  ChangedSort sort_;
  UnitSystem units_;
  std::vector<ThingChange>& out_;
};

bool same(const TriangleMesh& a, const TriangleMesh& b) {
  const auto point = [](const LevelPoint& p, const LevelPoint& q) {
    return p.at == q.at && p.height == q.height;
  };
  return a.triangles == b.triangles &&
         std::equal(a.points.begin(), a.points.end(), b.points.begin(), b.points.end(), point);
}
bool same(const HeightGrid& a, const HeightGrid& b) {
  const auto height = [](float p, float q) { return p == q || (p != p && q != q); };
  return a.north_west == b.north_west && a.cell == b.cell && a.columns == b.columns &&
         a.rows == b.rows &&
         std::equal(a.heights.begin(), a.heights.end(), b.heights.begin(), b.heights.end(), height);
}
bool same_levels(const LevelSurface& a, const LevelSurface& b) {
  if (a.levels.index() != b.levels.index()) return false;
  if (const auto* mesh = std::get_if<TriangleMesh>(&a.levels))
    return same(*mesh, std::get<TriangleMesh>(b.levels));
  return same(std::get<HeightGrid>(a.levels), std::get<HeightGrid>(b.levels));
}

class ProjectComparer {
 public:
  ProjectComparer(const Site& before, const Site& after, UnitSystem units,
                  std::vector<ThingChange>& out)
      : before_(before), after_(after), units_(units), out_(out) {}

  void operator()() {
    tell("choices", fields_of(before_.settings, after_.settings, units_));
    tell("soil", fields_of(before_.soil, after_.soil, units_));
    tell("wind", fields_of(before_.wind, after_.wind, units_));
    tell("climate", fields_of(before_.climate, after_.climate, units_));
    levels("existing levels", before_.existing_levels, after_.existing_levels);
    levels("proposed levels", before_.proposed_levels, after_.proposed_levels);
    boundary();
  }

 private:
  void tell(const char* name, std::vector<FieldChange> fields) {
    if (!fields.empty())
      out_.push_back({ChangedSort::project, name, name, ChangedHow::changed, {}, fields, {}});
  }
  void whole(const char* name, ChangedHow how) {
    out_.push_back({ChangedSort::project, name, name, how, {}, {}, {}});
  }
  void levels(const char* name, const std::optional<LevelSurface>& was,
              const std::optional<LevelSurface>& is) {
    if (!was && !is) return;
    if (!was || !is) return whole(name, was ? ChangedHow::removed : ChangedHow::added);
    FieldList list(units_);
    list.text("surface", was->name, is->name);
    list.text("vertical datum", was->vertical_datum, is->vertical_datum);
    list.text("date", was->date, is->date);
    std::vector<FieldChange> fields = list.take();
    if (!same_levels(*was, *is)) fields.push_back({"heights", "as before", "others"});
    tell(name, std::move(fields));
  }
  void boundary() {
    const MultiPolygon &was = before_.boundary, &is = after_.boundary;
    if (was == is) return;
    if (was.empty() || is.empty())
      return whole("boundary", was.empty() ? ChangedHow::added : ChangedHow::removed);
    const auto moved = moved_by({{}, was, {}}, {{}, is, {}});
    if (moved)
      out_.push_back(
          {ChangedSort::project, "boundary", "boundary", ChangedHow::changed, moved, {}, {}});
  }

  const Site &before_, &after_;
  UnitSystem units_;
  std::vector<ThingChange>& out_;
};

}  // namespace

std::vector<ThingChange> changed_things(const Site& before, const Site& after, UnitSystem units) {
  std::vector<ThingChange> things;
  Comparer<Work>(ChangedSort::work, units, things)(before.works, after.works);
  Comparer<Tree>(ChangedSort::tree, units, things)(before.trees, after.trees);
  Comparer<Barrier>(ChangedSort::barrier, units, things)(before.barriers, after.barriers);
  Comparer<Surface>(ChangedSort::surface, units, things)(before.surfaces, after.surfaces);
  Comparer<Evidence>(ChangedSort::opening, units, things)(before.evidence, after.evidence);
  Comparer<Gate>(ChangedSort::gate, units, things)(before.gates, after.gates);
  ProjectComparer(before, after, units, things)();
  return things;
}

}  // namespace rootstead
