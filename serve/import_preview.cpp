#include "serve/import_preview.hpp"

#include "io/import_summary.hpp"
#include "io/source_look.hpp"
#include "serve/answer.hpp"
#include "serve/import_doubts.hpp"
#include "serve/plan_json.hpp"

namespace rootstead::serve {
namespace {

using io::Json;

Result<std::string> text_of(const Json& body, const char* key) {
  if (!body.contains(key)) return std::string();
  if (!body[key].is_string()) return no_request("its " + std::string(key) + " is no text");
  return body[key].get<std::string>();
}

}  // namespace

Result<std::optional<LengthUnit>> unit_of(const Json& body, const char* key) {
  using Unit = std::optional<LengthUnit>;
  ROOTSTEAD_TRY(const std::string text, text_of(body, key));
  if (text.empty()) return Unit{};
  if (const Unit unit = length_unit_from(text)) return unit;
  return Error{Code::unit_unknown, "the unit " + text, "this is no unit of length",
               "choose one of m, cm, mm, ft, us-ft, in"};
}

namespace {

Result<io::ColumnMap::Column> column_of(const Json& json) {
  if (!json.is_object() || !json.contains("column")) return no_request("a field has no column");
  for (const auto& [key, value] : json.items())
    if (key != "column" && key != "unit") return no_request("a field has a key that is not known");
  io::ColumnMap::Column column;
  ROOTSTEAD_TRY(column.column, text_of(json, "column"));
  ROOTSTEAD_TRY(column.unit, unit_of(json, "unit"));
  return column;
}

// Nothing where the page leaves both to the program.
Result<std::optional<io::ColumnMap>> map_of(const Json& body) {
  io::ColumnMap map;
  ROOTSTEAD_TRY(map.crs, text_of(body, "crs"));
  if (body.contains("columns")) {
    if (!body["columns"].is_object()) return no_request("its columns are no object");
    for (const auto& [field, json] : body["columns"].items()) {
      ROOTSTEAD_TRY(map.fields[field], column_of(json));
    }
  }
  const bool nothing = map.fields.empty() && map.crs.empty();
  return nothing ? std::optional<io::ColumnMap>() : std::optional(std::move(map));
}

// Every id of the project with the file it came from.
std::map<std::string, std::string> ids_of(const Snapshot& snapshot) {
  std::map<std::string, std::string> ids;
  const auto note = [&ids](const auto& things) {
    for (const auto& thing : things) ids.emplace(thing.id, thing.origin.file);
  };
  note(snapshot.site.trees);
  note(snapshot.site.works);
  note(snapshot.site.barriers);
  note(snapshot.site.surfaces);
  note(snapshot.site.evidence);
  return ids;
}

// What a person can answer, in words of the page; empty where no answer would help.
std::string question_of(const Error& error) {
  const auto asked = [&](const char* answer) {
    return Error{error.code, error.subject, error.message, answer}.sentence();
  };
  switch (error.code) {
    case Code::unit_missing:
      return asked("choose the unit, or give each column its own");
    case Code::column_missing:
      return asked("choose which column is which");
    case Code::crs_unknown:
    case Code::crs_unsuitable:
      return asked("choose the coordinate system of the file");
    case Code::wrong_use:
      return asked("choose what it is to be read as");
    default:
      return {};
  }
}

Json to_json(const io::ColumnMap& map) {
  Json fields = Json::object();
  for (const auto& [field, column] : map.fields) {
    fields[field] = {{"column", column.column}};
    if (column.unit) fields[field]["unit"] = symbol(*column.unit);
  }
  return fields;
}

Json to_json(const Problem& problem) {
  return {{"blocks", problem.blocks},
          {"subject", problem.subject},
          {"message", problem.message},
          {"remedy", problem.remedy}};
}

// The map that was used, or that would be proposed.
io::ColumnMap map_used(const ImportAsked& asked, const io::SourceLook& look,
                       const io::Import& import) {
  if (!import.mapping.empty()) {
    if (auto map = io::column_map_from_text(import.mapping, import.source)) return *map;
  }
  if (asked.options.columns && !asked.options.columns->fields.empty())
    return *asked.options.columns;
  io::ColumnMap map = io::propose_columns(look.header, asked.options.as);
  if (asked.options.columns) map.crs = asked.options.columns->crs;
  return map;
}

std::string system_used(const io::ColumnMap& map, const io::SourceLook& look, const Site& site) {
  if (!map.crs.empty()) return map.crs;
  return look.crs.empty() ? site.system.code : look.crs;
}

bool is_empty(const io::Import& import) {
  return io::what_was_read(import).empty();
}

}  // namespace

Result<ImportAsked> import_asked(const Json& body, const Snapshot& snapshot) {
  io::ImportOptions options;
  ROOTSTEAD_TRY(options.as, text_of(body, "as"));
  if (options.as.find(" and ") != std::string::npos) options.as.clear();  // as a preview says it
  ROOTSTEAD_TRY(options.columns, map_of(body));
  ROOTSTEAD_TRY(options.length_unit, unit_of(body, "length_unit"));
  options.taken = ids_of(snapshot);
  ROOTSTEAD_TRY(SentFile file, SentFile::from(body["file"]));
  return ImportAsked{std::move(file), std::move(options)};
}

Result<Json> import_preview(const ImportAsked& asked, const Snapshot& snapshot) {
  const auto read = io::read_source(asked.file.path(), asked.options, snapshot.site.system);
  const std::string question = read ? "" : question_of(read.error());
  if (!read && question.empty()) return read.error();
  const io::Import import = read ? *read : io::Import{};
  const auto looked = io::look_at_source(asked.file.path());
  const io::SourceLook look = looked ? *looked : io::SourceLook{};
  const io::ColumnMap used = map_used(asked, look, import);
  Json trees = Json::array(), works = Json::array(), barriers = Json::array();
  Json problems = Json::array();
  for (const Tree& tree : import.trees) trees.push_back(tree_on_plan(tree));
  for (const Work& work : import.works)
    works.push_back(work_on_plan(work, work.state != WorkState::existing));
  for (const Barrier& barrier : import.barriers) barriers.push_back(barrier_on_plan(barrier));
  for (const Problem& problem : import.problems) problems.push_back(to_json(problem));
  const bool nothing = read && is_empty(import);
  const Json asked_now =
      !question.empty() ? Json(question)
      : nothing         ? Json(import.source +
                               ": nothing in it says what it holds; choose what it is to be read as.")
                        : Json(nullptr);
  return Json{{"as", import.kind.empty() ? asked.options.as : import.kind},
              {"header", look.header},
              {"columns", to_json(used)},
              {"crs", system_used(used, look, snapshot.site)},
              {"rows", import.rows_read},
              {"trees", std::move(trees)},
              {"works", std::move(works)},
              {"barriers", std::move(barriers)},
              {"problems", std::move(problems)},
              {"doubts", doubts_of(asked, import, used, snapshot.site)},
              {"question", asked_now}};
}

Result<io::Import> read_import(const ImportAsked& asked, const Snapshot& snapshot) {
  auto import = io::read_source(asked.file.path(), asked.options, snapshot.site.system);
  if (!import || !is_empty(*import)) return import;
  return Error{Code::value_invalid, import->source, "there is nothing of use in it",
               "say what it is to be read as"};
}

Json told_of(const io::Import& import) {
  constexpr std::size_t kMostTold = 20;
  Json told = Json::array();
  told.push_back("Read " + std::to_string(import.rows_read) +
                 (import.rows_read == 1 ? " row of " : " rows of ") + import.source + ": " +
                 io::what_was_read(import) + ".");
  for (std::size_t i = 0; i < import.problems.size() && i < kMostTold; ++i)
    told.push_back(import.problems[i].sentence());
  if (import.problems.size() > kMostTold)
    told.push_back("And " + std::to_string(import.problems.size() - kMostTold) + " more problems.");
  return told;
}

}  // namespace rootstead::serve
