#include "io/project_replace.hpp"

#include "io/project_history.hpp"
#include "io/project_mended.hpp"
#include "io/project_parts.hpp"
#include "io/stored_table.hpp"

namespace rootstead::io {
namespace {

Outcome run_with(const Database& database, const std::string& command, const std::string& value) {
  Statement statement(database, command);
  statement.put(std::string_view(value));
  return statement.run();
}

}  // namespace

Outcome Replaced::take_out_of(const Project::State& state, const std::string& table,
                              const std::string& source) {
  const Database& database = state.database;
  Statement find(database, "SELECT id, fid FROM " + table + " WHERE origin_file = ?");
  find.put(std::string_view(source));
  while (true) {
    ROOTSTEAD_TRY(const bool more, find.next());
    if (!more) break;
    std::string id = find.text();
    numbers_[table].emplace(std::move(id), find.integer());
  }
  for (const auto& [id, number] : numbers_[table]) ROOTSTEAD_CHECK(remember(state, table, id));
  for (const PartTable& part : parts_of(table))
    ROOTSTEAD_CHECK(run_with(database,
                             "DELETE FROM " + part.table + " WHERE " + part.owner +
                                 " IN (SELECT id FROM " + table + " WHERE origin_file = ?)",
                             source));
  return run_with(database, "DELETE FROM " + table + " WHERE origin_file = ?", source);
}

Outcome Replaced::take_out(const Project::State& state, const Import& import) {
  const auto brings = [&](const auto& things, const char* kind) {
    return !things.empty() || import.kind == kind;
  };
  const std::string& file = import.source;
  if (brings(import.trees, "trees")) ROOTSTEAD_CHECK(take_out_of(state, "trees", file));
  if (brings(import.works, "works")) ROOTSTEAD_CHECK(take_out_of(state, "works", file));
  if (brings(import.barriers, "barriers")) ROOTSTEAD_CHECK(take_out_of(state, "barriers", file));
  if (brings(import.surfaces, "ground")) ROOTSTEAD_CHECK(take_out_of(state, "ground", file));
  if (brings(import.evidence, "evidence"))
    ROOTSTEAD_CHECK(take_out_of(state, "evidence_pits", file));
  for (const Gate& gate : import.gates) {
    ROOTSTEAD_CHECK(remember(state, "gates", gate.id));
    ROOTSTEAD_CHECK(run_with(state.database, "DELETE FROM gates WHERE id = ?", gate.id));
  }
  return forget_problems_of_file(state.database, import.source, import.kind);
}

// Numbers are never given twice, so the old ones are free.
Outcome Replaced::restore_order(const Database& database) const {
  for (const auto& [table, numbers] : numbers_) {
    Statement back(database, "UPDATE " + table + " SET fid = ? WHERE id = ?");
    for (const auto& [id, number] : numbers) {
      back.put(number);
      back.put(std::string_view(id));
      ROOTSTEAD_CHECK(back.run());
    }
  }
  return Nothing{};
}

std::size_t Replaced::count() const {
  std::size_t count = 0;
  for (const auto& [table, numbers] : numbers_) count += numbers.size();
  return count;
}

}  // namespace rootstead::io
