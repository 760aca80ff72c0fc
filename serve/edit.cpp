#include "serve/edit.hpp"

#include <algorithm>
#include <optional>
#include <set>

#include "serve/shape_json.hpp"

namespace rootstead::serve {
namespace {

using io::Edits;
using io::Json;
using io::ThingSort;

constexpr const char* kTree = "tree";
constexpr const char* kWork = "work";
constexpr const char* kBarrier = "barrier";

Error no_change(const std::string& message) {
  return {Code::wrong_use, "the changes", message, "load the page again"};
}

std::optional<ThingSort> sort_named(const Json& name) {
  if (name == kTree) return ThingSort::tree;
  if (name == kWork) return ThingSort::work;
  if (name == kBarrier) return ThingSort::barrier;
  return std::nullopt;
}

template <class Thing>
auto found(const std::vector<Thing>& things, const std::string& id) {
  return std::find_if(things.begin(), things.end(),
                      [&](const Thing& thing) { return thing.id == id; });
}
template <class Thing>
const Thing* with_id(const std::vector<Thing>& things, const std::string& id) {
  const auto at = found(things, id);
  return at == things.end() ? nullptr : &*at;
}

bool same_shape(const Shape& a, const Shape& b) {
  return to_json(a) == to_json(b);
}
bool same_place(const Tree& a, const Tree& b) {
  const bool both = a.position.has_value() == b.position.has_value();
  return both && (!a.position ||
                  (a.position->at.x == b.position->at.x && a.position->at.y == b.position->at.y));
}
bool says_the_same(const Tree& a, const Tree& b) {
  return same_place(a, b) && io::fields_of(a) == io::fields_of(b);
}
template <class Thing>
bool says_the_same(const Thing& a, const Thing& b) {
  return same_shape(a.shape, b.shape) && io::fields_of(a) == io::fields_of(b);
}

template <class Thing>
const Thing* like_in(const std::map<std::string, std::vector<Thing>>& all, const Thing& thing) {
  const auto known = all.find(thing.id);
  if (known == all.end()) return nullptr;
  for (const Thing& one : known->second)
    if (says_the_same(one, thing)) return &one;
  return nullptr;
}

// As said; with what no form shows from what is there, or exactly as it was there before.
template <class Thing>
Thing settled(Thing said, const std::vector<Thing>& there, const Former& former) {
  if (const Thing* before = former.like(said)) return *before;
  if (const Thing* now = with_id(there, said.id)) return io::over(*now, std::move(said));
  said.origin = {"the workbench", ""};
  return said;
}

class EditReader {
 public:
  EditReader(const Site& site, const Former& former) : site_(site), former_(former) {}

  Outcome read(const Json& change) {
    const bool one = change.is_object() && change.size() == 1;
    if (one && change.contains("put")) return put(change["put"]);
    if (one && change.contains("remove")) return remove(change["remove"]);
    return no_change("one of them neither puts nor removes");
  }
  Edits take() { return std::move(edits_); }

 private:
  Outcome once(ThingSort sort, const std::string& id) {
    if (id.empty())
      return Error{Code::value_invalid, "the form", "there is no id", "give it a short name"};
    if (named_.insert({sort, id}).second) return Nothing{};
    return no_change("they change " + id + " twice");
  }

  Result<io::Fields> fields_in(const Json& thing) {
    io::Fields fields;
    if (!thing.contains("fields") || !thing["fields"].is_object())
      return no_change("one of them has no fields");
    for (const auto& [name, text] : thing["fields"].items()) {
      if (!text.is_string()) return no_change("the field " + name + " is no text");
      if (!text.get_ref<const std::string&>().empty()) fields[name] = text.get<std::string>();
    }
    if (!thing.contains("id") || !thing["id"].is_string()) return no_change("one has no id");
    fields["id"] = thing["id"].get<std::string>();
    return fields;
  }

  Outcome put(const Json& thing) {
    const auto sort =
        thing.is_object() && thing.contains("sort") ? sort_named(thing["sort"]) : std::nullopt;
    if (!sort) return no_change("one of them is no tree, work or barrier");
    ROOTSTEAD_TRY(const io::Fields fields, fields_in(thing));
    ROOTSTEAD_CHECK(once(*sort, fields.at("id")));
    if (!thing.contains("shape")) return no_change("one of them has no shape");
    std::optional<Shape> shape;
    if (!thing["shape"].is_null()) {
      ROOTSTEAD_TRY(shape, shape_from(thing["shape"]));
    }
    return put(*sort, fields, shape);
  }

  Outcome put(ThingSort sort, const io::Fields& fields, const std::optional<Shape>& shape) {
    if (sort == ThingSort::tree) {
      if (shape && (shape->points.size() != 1 || !shape->lines.empty() || !shape->areas.empty()))
        return Error{Code::invalid_geometry, "tree " + fields.at("id"),
                     "a tree stands at one point", "place it on the plan"};
      const auto at = shape ? std::optional(shape->points.front()) : std::nullopt;
      ROOTSTEAD_TRY(Tree tree, io::tree_from(fields, at, site_.system));
      edits_.trees.push_back(settled(std::move(tree), site_.trees, former_));
      return Nothing{};
    }
    if (sort == ThingSort::work) {
      ROOTSTEAD_TRY(Work work, io::work_from(fields, shape.value_or(Shape{})));
      edits_.works.push_back(settled(std::move(work), site_.works, former_));
      return Nothing{};
    }
    ROOTSTEAD_TRY(Barrier barrier, io::barrier_from(fields, shape.value_or(Shape{})));
    edits_.barriers.push_back(settled(std::move(barrier), site_.barriers, former_));
    return Nothing{};
  }

  Outcome remove(const Json& which) {
    const bool named = which.is_object() && which.size() == 2 && which.contains("sort") &&
                       which.contains("id") && which["id"].is_string();
    const auto sort = named ? sort_named(which["sort"]) : std::nullopt;
    if (!sort) return no_change("one of them removes what is no tree, work or barrier");
    const std::string id = which["id"].get<std::string>();
    ROOTSTEAD_CHECK(once(*sort, id));
    const bool there = *sort == ThingSort::tree   ? with_id(site_.trees, id) != nullptr
                       : *sort == ThingSort::work ? with_id(site_.works, id) != nullptr
                                                  : with_id(site_.barriers, id) != nullptr;
    if (!there)
      return Error{Code::unknown_name, which["sort"].get<std::string>() + " " + id,
                   "the project itself has nothing of this name",
                   "load the page again; what follows from ground levels is changed with them"};
    edits_.removed.emplace_back(*sort, id);
    return Nothing{};
  }

  const Site& site_;
  const Former& former_;
  Edits edits_;
  std::set<std::pair<ThingSort, std::string>> named_;
};

Json removing(const char* sort, const std::string& id) {
  return {{"remove", {{"sort", sort}, {"id", id}}}};
}

template <class Thing>
void put_back(const std::vector<Thing>& put, const std::vector<Thing>& before, const char* sort,
              Json& inverse) {
  for (const Thing& thing : put) {
    const Thing* was = with_id(before, thing.id);
    inverse.push_back(was == nullptr ? removing(sort, thing.id) : Json{{"put", thing_json(*was)}});
  }
}

template <class Thing>
void lay(std::vector<Thing>& things, const std::vector<Thing>& put) {
  for (const Thing& thing : put) {
    const Thing* there = with_id(things, thing.id);
    if (there != nullptr) {
      things[static_cast<std::size_t>(there - things.data())] = thing;
    } else {
      things.push_back(thing);
    }
  }
}

template <class Thing>
void drop(std::vector<Thing>& things, const std::string& id) {
  things.erase(found(things, id));
}

Json thing(const char* sort, const std::string& id, io::Fields fields, Json shape) {
  fields.erase("id");
  return {{"sort", sort}, {"id", id}, {"fields", fields}, {"shape", std::move(shape)}};
}

Json form_json(ThingSort sort) {
  Json list = Json::array();
  for (const io::FieldOfForm& field : io::form_of(sort))
    if (field.name != "id")
      list.push_back({{"name", field.name},
                      {"meaning", field.meaning},
                      {"example", field.example},
                      {"words", field.words},
                      {"required", field.required}});
  return list;
}

}  // namespace

const Tree* Former::like(const Tree& tree) const {
  return like_in(trees_, tree);
}
const Work* Former::like(const Work& work) const {
  return like_in(works_, work);
}
const Barrier* Former::like(const Barrier& barrier) const {
  return like_in(barriers_, barrier);
}

Result<Edits> edits_from(const Json& changes, const Site& site, const Former& former) {
  if (!changes.is_array() || changes.empty()) return no_change("there are none");
  if (changes.size() > kMostChanges) return no_change("there are too many at once");
  EditReader reader(site, former);
  for (const Json& change : changes) ROOTSTEAD_CHECK(reader.read(change));
  return reader.take();
}

Json inverse_of(const Edits& edits, const Site& before) {
  Json inverse = Json::array();
  put_back(edits.trees, before.trees, kTree, inverse);
  put_back(edits.works, before.works, kWork, inverse);
  put_back(edits.barriers, before.barriers, kBarrier, inverse);
  for (const auto& [sort, id] : edits.removed) {
    if (sort == ThingSort::tree)
      inverse.push_back({{"put", thing_json(*with_id(before.trees, id))}});
    if (sort == ThingSort::work)
      inverse.push_back({{"put", thing_json(*with_id(before.works, id))}});
    if (sort == ThingSort::barrier)
      inverse.push_back({{"put", thing_json(*with_id(before.barriers, id))}});
  }
  return inverse;
}

Site edited(Site site, const Edits& edits) {
  for (const auto& [sort, id] : edits.removed) {
    if (sort == ThingSort::tree) drop(site.trees, id);
    if (sort == ThingSort::work) drop(site.works, id);
    if (sort == ThingSort::barrier) drop(site.barriers, id);
  }
  lay(site.trees, edits.trees);
  lay(site.works, edits.works);
  lay(site.barriers, edits.barriers);
  return site;
}

Json thing_json(const Tree& tree) {
  const Json shape = tree.position ? to_json(Shape{{}, {}, {tree.position->at}}) : Json();
  return thing(kTree, tree.id, io::fields_of(tree), shape);
}
Json thing_json(const Work& work) {
  return thing(kWork, work.id, io::fields_of(work), to_json(work.shape));
}
Json thing_json(const Barrier& barrier) {
  return thing(kBarrier, barrier.id, io::fields_of(barrier), to_json(barrier.shape));
}

Json vocabulary_json() {
  return {{kTree, form_json(ThingSort::tree)},
          {kWork, form_json(ThingSort::work)},
          {kBarrier, form_json(ThingSort::barrier)}};
}

}  // namespace rootstead::serve
