// Changes that a person makes by hand to single trees, works and barriers.
#include "engine/base/text.hpp"
#include "io/project_change.hpp"
#include "io/project_history.hpp"
#include "io/project_mended.hpp"
#include "io/project_parts.hpp"
#include "io/project_rows.hpp"

namespace rootstead::io {
namespace {

struct SortTable {
  std::string noun;
  std::string table;
};
SortTable table_of(ThingSort sort) {
  switch (sort) {
    case ThingSort::tree:
      return {"tree", "trees"};
    case ThingSort::work:
      return {"work", "works"};
    case ThingSort::barrier:
      break;
  }
  return {"barrier", "barriers"};
}

Outcome run_with(const Database& database, const std::string& command, const std::string& id) {
  Statement statement(database, command);
  statement.put(std::string_view(id));
  return statement.run();
}

// Its number in the table; nothing where there is no such thing.
Result<std::optional<std::int64_t>> number_of(const Database& database, const std::string& table,
                                              const std::string& id) {
  Statement find(database, "SELECT fid FROM " + table + " WHERE id = ?");
  find.put(std::string_view(id));
  ROOTSTEAD_TRY(const bool found, find.next());
  return found ? std::optional(find.integer()) : std::nullopt;
}

Outcome erase(const Database& database, const std::string& table, const std::string& id) {
  for (const PartTable& part : parts_of(table))
    ROOTSTEAD_CHECK(
        run_with(database, "DELETE FROM " + part.table + " WHERE " + part.owner + " = ?", id));
  return run_with(database, "DELETE FROM " + table + " WHERE id = ?", id);
}

Result<Origin> origin_of(const Database& database, const std::string& table,
                         const std::string& id) {
  Statement find(database, "SELECT origin_file, origin_place FROM " + table + " WHERE id = ?");
  find.put(std::string_view(id));
  ROOTSTEAD_TRY(const bool found, find.next());
  Origin origin;
  if (!found) return origin;
  origin.file = find.text();
  origin.place = find.text();
  return origin;
}

Outcome remove(const Project::State& state, ThingSort sort, const std::string& id) {
  const auto [noun, table] = table_of(sort);
  ROOTSTEAD_TRY(const auto number, number_of(state.database, table, id));
  if (!number)
    return Error{Code::unknown_name, noun + " " + id, "the project has no such " + noun,
                 "load it again; nothing was changed"};
  ROOTSTEAD_CHECK(remember(state, table, id));
  ROOTSTEAD_TRY(const Origin origin, origin_of(state.database, table, id));
  ROOTSTEAD_CHECK(forget_problems_of(state.database, origin));
  return erase(state.database, table, id);
}

// Keeps its number, and with it its place among the others.
template <class Thing, class Add>
Outcome put(const Project::State& state, ThingSort sort, const Thing& thing, const Add& add) {
  const Database& database = state.database;
  const std::string table = table_of(sort).table;
  ROOTSTEAD_TRY(const auto number, number_of(database, table, thing.id));
  if (number) {
    ROOTSTEAD_CHECK(remember(state, table, thing.id));
    ROOTSTEAD_CHECK(erase(database, table, thing.id));
  }
  ROOTSTEAD_CHECK(add(std::vector<Thing>{thing}));
  ROOTSTEAD_CHECK(forget_mended(state, thing));
  if (!number) return Nothing{};
  Statement back(database, "UPDATE " + table + " SET fid = ? WHERE id = ?");
  back.put(*number);
  back.put(std::string_view(thing.id));
  return back.run();
}

// Table and id of all that is touched.
std::vector<std::pair<std::string, std::string>> things_of(const Edits& edits) {
  std::vector<std::pair<std::string, std::string>> things;
  for (const auto& [sort, id] : edits.removed) things.push_back({table_of(sort).table, id});
  for (const Tree& tree : edits.trees) things.push_back({"trees", tree.id});
  for (const Work& work : edits.works) things.push_back({"works", work.id});
  for (const Barrier& barrier : edits.barriers) things.push_back({"barriers", barrier.id});
  return things;
}

std::string summary(const Edits& edits) {
  std::vector<std::string> parts;
  for (const auto& [sort, id] : edits.removed)
    parts.push_back(table_of(sort).noun + " " + id + " taken away");
  for (const Tree& tree : edits.trees) parts.push_back("tree " + tree.id);
  for (const Work& work : edits.works) parts.push_back("work " + work.id);
  for (const Barrier& barrier : edits.barriers) parts.push_back("barrier " + barrier.id);
  return joined(parts, ", ");
}

}  // namespace

Outcome Project::edit(const Edits& edits, const std::string& when, const EditTerms& terms) {
  const State& state = *state_;
  return change(
      *state_, when, "edit", summary(edits),
      {"trees", "stems", "crowns", "flares", "taper_readings", "flare_signs", "flare_records",
       "works", "bore_pits", "vehicles", "ground_covers", "barriers", "problems", "journal"},
      [&]() -> Outcome {
        ROOTSTEAD_CHECK(
            terms.beside_others
                ? check_things_unchanged(state, things_of(edits))
                : check_unchanged(state, "meanwhile", "read it again; nothing was changed"));
        for (const auto& [sort, id] : edits.removed) ROOTSTEAD_CHECK(remove(state, sort, id));
        for (const Tree& tree : edits.trees)
          ROOTSTEAD_CHECK(put(state, ThingSort::tree, tree,
                              [&](const auto& one) { return add_trees(state, one); }));
        for (const Work& work : edits.works)
          ROOTSTEAD_CHECK(put(state, ThingSort::work, work,
                              [&](const auto& one) { return add_works(state, one); }));
        for (const Barrier& barrier : edits.barriers)
          ROOTSTEAD_CHECK(put(state, ThingSort::barrier, barrier,
                              [&](const auto& one) { return add_barriers(state, one); }));
        return Nothing{};
      },
      terms.key);
}

}  // namespace rootstead::io
