#include "io/project_history.hpp"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "io/dialect.hpp"
#include "io/project_parts.hpp"
#include "io/records.hpp"
#include "io/stored_rows.hpp"
#include "io/stored_table.hpp"

namespace rootstead::io {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::array<const char*, 2> kTables{"history", "edit_keys"};
// Things are found by their name, changes by their number.
constexpr const char* kIndexes =
    "CREATE INDEX history_by_thing ON history (sort, thing_id); "
    "CREATE INDEX history_by_number ON history (journal_number)";

// Changes that touch no tree, work or barrier.
constexpr std::array<std::string_view, 6> kElsewhere{"assess", "set",    "settings",
                                                     "soil",   "levels", "format"};

const Table& table_named(const std::string& name) {
  static const Table none;
  for (const Table& table : project_tables())
    if (table.name == name) return table;
  return none;
}

std::string hex_of(std::string_view bytes) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string text;
  for (const char byte : bytes) {
    text += kDigits[static_cast<unsigned char>(byte) >> 4];
    text += kDigits[static_cast<unsigned char>(byte) & 15];
  }
  return text;
}

struct ToJson {
  const Column& column;
  Json operator()(std::monostate) const { return nullptr; }
  Json operator()(std::int64_t number) const {
    return column.type == "BOOLEAN" ? Json(number != 0) : Json(number);
  }
  Json operator()(double number) const { return number; }
  Json operator()(const std::string& bytes) const {
    if (is_geometry(column)) return hex_of(wkb_of_blob(bytes));
    return column.type == "BLOB" ? hex_of(bytes) : bytes;
  }
};

// All rows of a table, or those whose `owner` is `id`.
Result<Json> rows_of(const Database& database, const std::string& name, const std::string& owner,
                     const std::string& id) {
  const Table& table = table_named(name);
  ROOTSTEAD_TRY(const auto there, columns_in(database, name));
  std::vector<Column> columns;
  for (const Column& column : table.columns)
    if (contains(there, column.name)) columns.push_back(column);
  Json list = Json::array();
  if (columns.empty()) return list;
  Statement rows(database, "SELECT " + names_of(columns) + " FROM " + name +
                               (owner.empty() ? "" : " WHERE " + owner + " = ?") + " ORDER BY fid");
  if (!owner.empty()) rows.put(std::string_view(id));
  while (true) {
    ROOTSTEAD_TRY(const bool more, rows.next());
    if (!more) return list;
    const StoredRow row = take_row(rows, columns);
    Json& one = list.emplace_back(Json::object());
    for (std::size_t i = 0; i < columns.size(); ++i)
      one[columns[i].name] = std::visit(ToJson{columns[i]}, row[i]);
  }
}

std::string written(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Outcome insert(const Project::State& state, const std::string& sort, const std::string& id,
               bool existed, const std::string& before) {
  state.remembered.insert({sort, id});
  Inserter<HistoryRow> insert(state.database, "history", state.frame);
  return insert({state.number, sort, id, existed, before});
}

bool is_remembered(const Project::State& state, const std::string& sort, const std::string& id) {
  return state.remembered.count({sort, id}) > 0;
}

std::string noun_of(const std::string& table) {
  return table.substr(0, table.size() - 1);  // trees, works, barriers
}

// Changes of others since this program read the project.
Outcome check_told(const Project::State& state) {
  Statement rows(state.database,
                 "SELECT fid, action, (SELECT count(*) FROM history h WHERE h.journal_number = "
                 "j.fid) FROM journal j WHERE fid > ?");
  rows.put(*state.seen);
  while (true) {
    ROOTSTEAD_TRY(const bool more, rows.next());
    if (!more) return Nothing{};
    const std::int64_t number = rows.integer();
    const std::string action = rows.text();
    const bool told = rows.integer() > 0 || state.own.count(number) > 0 ||
                      std::find(kElsewhere.begin(), kElsewhere.end(), action) != kElsewhere.end();
    if (!told)
      return Error{Code::project_busy, state.database.subject(),
                   "another program changed the project meanwhile",
                   "read it again; nothing was changed"};
  }
}

}  // namespace

Outcome guard_history(Database& database) {
  for (const char* name : kTables)
    ROOTSTEAD_CHECK(database.run(guard_command(database, name).c_str()));
  return database.run(kIndexes);
}

Outcome ensure_history(Database& database, const Frame& frame) {
  ROOTSTEAD_TRY(const auto there, columns_in(database, kTables.back()));
  if (!there.empty()) return Nothing{};
  for (const char* name : kTables) ROOTSTEAD_CHECK(make_table(database, table_named(name), frame));
  return guard_history(database);
}

Outcome remember(const Project::State& state, const std::string& table, const std::string& id) {
  if (is_remembered(state, table, id)) return Nothing{};
  Json json;
  ROOTSTEAD_TRY(json[table], rows_of(state.database, table, "id", id));
  for (const PartTable& part : parts_of(table)) {
    ROOTSTEAD_TRY(Json rows, rows_of(state.database, part.table, part.owner, id));
    if (!rows.empty()) json[part.table] = std::move(rows);
  }
  return insert(state, table, id, true, written(json));
}

Outcome remember_new(const Project::State& state, const std::string& table, const std::string& id) {
  if (is_remembered(state, table, id)) return Nothing{};
  return insert(state, table, id, false, "");
}

Outcome remember_tables(const Project::State& state, const std::vector<std::string>& tables) {
  for (const std::string& table : tables) {
    if (is_remembered(state, table, "")) continue;
    ROOTSTEAD_TRY(const Json rows, rows_of(state.database, table, "", ""));
    ROOTSTEAD_CHECK(insert(state, table, "", !rows.empty(), written(Json{{table, rows}})));
  }
  return Nothing{};
}

Outcome check_things_unchanged(const Project::State& state,
                               const std::vector<std::pair<std::string, std::string>>& things) {
  if (!state.seen) return Nothing{};
  ROOTSTEAD_CHECK(check_told(state));
  Statement find(state.database,
                 "SELECT journal_number FROM history WHERE sort = ? AND thing_id = ? AND "
                 "journal_number > ?");
  for (const auto& [table, id] : things) {
    find.put(std::string_view(table));
    find.put(std::string_view(id));
    find.put(*state.seen);
    while (true) {
      ROOTSTEAD_TRY(const bool more, find.next());
      if (!more) break;
      if (state.own.count(find.integer()) > 0) continue;
      return Error{Code::project_busy, noun_of(table) + " " + id,
                   "somebody else changed it meanwhile",
                   "look at what is there now and do it again; nothing was changed"};
    }
  }
  return Nothing{};
}

Result<std::int64_t> number_of_key(const Database& database, const std::string& key) {
  Statement find(database, "SELECT journal_number FROM edit_keys WHERE key = ?");
  find.put(std::string_view(key));
  ROOTSTEAD_TRY(const bool found, find.next());
  return found ? find.integer() : 0;
}

Outcome keep_key(const Database& database, const std::string& key, std::int64_t number) {
  Inserter<EditKeyRow> insert(database, "edit_keys", {});
  return insert({key, number});
}

Result<std::vector<HistoryEntry>> Project::history() const {
  ROOTSTEAD_TRY(const auto rows,
                read_if_there<HistoryRow>(state_->database, "history", state_->frame));
  std::vector<HistoryEntry> entries;
  for (const HistoryRow& row : rows)
    entries.push_back({row.journal_number, row.sort, row.thing, row.existed, row.before});
  return entries;
}

}  // namespace rootstead::io
