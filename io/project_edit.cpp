// Changes that a person makes by hand to single trees, works and barriers.
#include <array>
#include <span>

#include "engine/base/text.hpp"
#include "io/project_change.hpp"
#include "io/project_mended.hpp"
#include "io/project_rows.hpp"

namespace rootstead::io {
namespace {

// Tables of one sort of thing: its own, and those of its parts with the column that names it.
struct PartTable {
  const char* table;
  const char* owner;
};
constexpr std::array<PartTable, 6> kTreeParts = {{{"stems", "tree_id"},
                                                  {"crowns", "tree_id"},
                                                  {"flares", "tree_id"},
                                                  {"taper_readings", "tree_id"},
                                                  {"flare_signs", "tree_id"},
                                                  {"flare_records", "tree_id"}}};
constexpr std::array<PartTable, 3> kWorkParts = {
    {{"bore_pits", "work_id"}, {"vehicles", "work_id"}, {"ground_covers", "work_id"}}};

struct SortTables {
  const char* noun;
  const char* table;
  std::span<const PartTable> parts;
};
SortTables tables_of(ThingSort sort) {
  switch (sort) {
    case ThingSort::tree:
      return {"tree", "trees", kTreeParts};
    case ThingSort::work:
      return {"work", "works", kWorkParts};
    case ThingSort::barrier:
      break;
  }
  return {"barrier", "barriers", {}};
}

Outcome run_with(const Database& database, const std::string& command, const std::string& id) {
  Statement statement(database, command);
  statement.put(std::string_view(id));
  return statement.run();
}

// Its number in the table; nothing where there is no such thing.
Result<std::optional<std::int64_t>> number_of(const Database& database, const SortTables& tables,
                                              const std::string& id) {
  Statement find(database, std::string("SELECT fid FROM ") + tables.table + " WHERE id = ?");
  find.put(std::string_view(id));
  ROOTSTEAD_TRY(const bool found, find.next());
  return found ? std::optional(find.integer()) : std::nullopt;
}

Outcome erase(const Database& database, const SortTables& tables, const std::string& id) {
  for (const PartTable& part : tables.parts)
    ROOTSTEAD_CHECK(run_with(
        database, std::string("DELETE FROM ") + part.table + " WHERE " + part.owner + " = ?", id));
  return run_with(database, std::string("DELETE FROM ") + tables.table + " WHERE id = ?", id);
}

Result<Origin> origin_of(const Database& database, const SortTables& tables,
                         const std::string& id) {
  Statement find(database, std::string("SELECT origin_file, origin_place FROM ") + tables.table +
                               " WHERE id = ?");
  find.put(std::string_view(id));
  ROOTSTEAD_TRY([[maybe_unused]] const bool found, find.next());
  Origin origin;
  origin.file = find.text();
  origin.place = find.text();
  return origin;
}

Outcome remove(const Database& database, ThingSort sort, const std::string& id) {
  const SortTables tables = tables_of(sort);
  ROOTSTEAD_TRY(const auto number, number_of(database, tables, id));
  if (!number)
    return Error{Code::unknown_name, std::string(tables.noun) + " " + id,
                 "the project has no such " + std::string(tables.noun),
                 "load it again; nothing was changed"};
  ROOTSTEAD_TRY(const Origin origin, origin_of(database, tables, id));
  ROOTSTEAD_CHECK(forget_problems_of(database, origin));
  return erase(database, tables, id);
}

// Keeps its number, and with it its place among the others.
template <class Thing, class Add>
Outcome put(const Project::State& state, ThingSort sort, const Thing& thing, const Add& add) {
  const Database& database = state.database;
  const SortTables tables = tables_of(sort);
  ROOTSTEAD_TRY(const auto number, number_of(database, tables, thing.id));
  if (number) ROOTSTEAD_CHECK(erase(database, tables, thing.id));
  ROOTSTEAD_CHECK(add(std::vector<Thing>{thing}));
  ROOTSTEAD_CHECK(forget_mended(state, thing));
  if (!number) return Nothing{};
  Statement back(database, std::string("UPDATE ") + tables.table + " SET fid = ? WHERE id = ?");
  back.put(*number);
  back.put(std::string_view(thing.id));
  return back.run();
}

std::string summary(const Edits& edits) {
  std::vector<std::string> parts;
  for (const auto& [sort, id] : edits.removed)
    parts.push_back(std::string(tables_of(sort).noun) + " " + id + " taken away");
  for (const Tree& tree : edits.trees) parts.push_back("tree " + tree.id);
  for (const Work& work : edits.works) parts.push_back("work " + work.id);
  for (const Barrier& barrier : edits.barriers) parts.push_back("barrier " + barrier.id);
  return joined(parts, ", ");
}

}  // namespace

Outcome Project::edit(const Edits& edits, const std::string& when) {
  const State& state = *state_;
  return change(
      *state_, when, "edit", summary(edits),
      {"trees", "stems", "crowns", "flares", "taper_readings", "flare_signs", "flare_records",
       "works", "bore_pits", "vehicles", "ground_covers", "barriers", "problems", "journal"},
      [&]() -> Outcome {
        ROOTSTEAD_CHECK(check_unchanged(state, "meanwhile", "read it again; nothing was changed"));
        for (const auto& [sort, id] : edits.removed)
          ROOTSTEAD_CHECK(remove(state.database, sort, id));
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
      });
}

}  // namespace rootstead::io
