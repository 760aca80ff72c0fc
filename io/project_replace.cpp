#include "io/project_replace.hpp"

#include "io/project_mended.hpp"
#include "io/stored_table.hpp"

namespace rootstead::io {
namespace {

using Parts = std::vector<std::pair<std::string, std::string>>;  // table, column of its owner

const Parts kOfTrees = {{"stems", "tree_id"},       {"crowns", "tree_id"},
                        {"flares", "tree_id"},      {"taper_readings", "tree_id"},
                        {"flare_signs", "tree_id"}, {"flare_records", "tree_id"}};
const Parts kOfWorks = {
    {"bore_pits", "work_id"}, {"vehicles", "work_id"}, {"ground_covers", "work_id"}};
const Parts kOfOpenings = {{"evidence_roots", "evidence_id"}};

Outcome run_with(const Database& database, const std::string& command, const std::string& value) {
  Statement statement(database, command);
  statement.put(std::string_view(value));
  return statement.run();
}

}  // namespace

Outcome Replaced::take_out_of(const Database& database, const std::string& table,
                              const Parts& parts, const std::string& source) {
  Statement find(database, "SELECT id, fid FROM " + table + " WHERE origin_file = ?");
  find.put(std::string_view(source));
  while (true) {
    ROOTSTEAD_TRY(const bool more, find.next());
    if (!more) break;
    std::string id = find.text();
    numbers_[table].emplace(std::move(id), find.integer());
  }
  for (const auto& [part, owner] : parts)
    ROOTSTEAD_CHECK(run_with(database,
                             "DELETE FROM " + part + " WHERE " + owner + " IN (SELECT id FROM " +
                                 table + " WHERE origin_file = ?)",
                             source));
  return run_with(database, "DELETE FROM " + table + " WHERE origin_file = ?", source);
}

Outcome Replaced::take_out(const Database& database, const Import& import) {
  const auto brings = [&](const auto& things, const char* kind) {
    return !things.empty() || import.kind == kind;
  };
  const std::string& file = import.source;
  if (brings(import.trees, "trees"))
    ROOTSTEAD_CHECK(take_out_of(database, "trees", kOfTrees, file));
  if (brings(import.works, "works"))
    ROOTSTEAD_CHECK(take_out_of(database, "works", kOfWorks, file));
  if (brings(import.barriers, "barriers"))
    ROOTSTEAD_CHECK(take_out_of(database, "barriers", {}, file));
  if (brings(import.surfaces, "ground")) ROOTSTEAD_CHECK(take_out_of(database, "ground", {}, file));
  if (brings(import.evidence, "evidence"))
    ROOTSTEAD_CHECK(take_out_of(database, "evidence_pits", kOfOpenings, file));
  for (const Gate& gate : import.gates)
    ROOTSTEAD_CHECK(run_with(database, "DELETE FROM gates WHERE id = ?", gate.id));
  return forget_problems_of_file(database, import.source, import.kind);
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
