#include "io/tables.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>

#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/embedded.hpp"
#include "io/table_files.hpp"

namespace rootstead::io {
namespace {

constexpr std::string_view kRuleEnding = ".toml";
constexpr std::string_view kParameterFolder = "parameters/";

void add_rule(Tables& tables, ZoneRule rule) {
  for (const Source& source : rule.sources) {
    if (tables.source(source.id) == nullptr) tables.sources.push_back(source);
  }
  const auto same = std::find_if(tables.rules.begin(), tables.rules.end(),
                                 [&](const ZoneRule& other) { return other.id == rule.id; });
  if (same == tables.rules.end()) {
    tables.rules.push_back(std::move(rule));
    return;
  }
  rule.notes.push_back("read from " + rule.file + " in place of the shipped rule " + same->file);
  *same = std::move(rule);
}

void read_into(Tables& tables, std::string_view text, const std::string& file,
               std::vector<Error>& errors) {
  RuleReading reading = read_rule(text, file);
  if (reading.mistakes.empty()) add_rule(tables, std::move(reading.rule));
  errors.insert(errors.end(), reading.mistakes.begin(), reading.mistakes.end());
}

Tables shipped_tables(std::vector<Error>& errors) {
  Tables tables;
  tables.version = std::string(trimmed(embedded_file("VERSION").value_or("")));
  tables.sources = read_sources(embedded_file("sources.csv").value_or(""), errors);
  tables.species = read_species(embedded_file("species.csv").value_or(""), errors);
  tables.anchorage_resistances =
      read_anchorage_resistances(embedded_file("anchorage_resistance.csv").value_or(""), errors);
  tables.crown_drags = read_crown_drags(embedded_file("crown_drag.csv").value_or(""), errors);
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.name.ends_with(kRuleEnding)) {
      read_into(tables, file.text, "data/" + std::string(file.name), errors);
    } else if (file.name.starts_with(kParameterFolder)) {
      const auto more = read_parameters(file.text, std::string(file.name), errors);
      tables.parameters.insert(tables.parameters.end(), more.begin(), more.end());
    }
  }
  return tables;
}

Result<std::vector<std::filesystem::path>> rule_files(const std::filesystem::path& folder) {
  std::error_code failure;
  std::filesystem::directory_iterator entries(folder, failure);
  if (failure) {
    return Error{Code::file_not_found, folder.string(), "the folder of extra rules cannot be read",
                 "check its name, or leave it out"};
  }
  std::vector<std::filesystem::path> files;
  for (const auto& entry : entries) {
    if (entry.path().extension() == kRuleEnding) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

// One error for all: a person sees the first, and how to see the others.
Error first_of(const std::vector<Error>& errors) {
  Error first = errors.front();
  first.code = Code::table_incoherent;
  if (errors.size() > 1) {
    first.remedy += " (and " + std::to_string(errors.size() - 1) +
                    " more mistakes; `rootstead rule check FILE` lists those of a rule)";
  }
  return first;
}

}  // namespace

Result<Tables> load_tables(const std::filesystem::path& extra_rules) {
  std::vector<Error> errors;
  Tables tables = shipped_tables(errors);
  if (!extra_rules.empty()) {
    ROOTSTEAD_TRY(const auto files, rule_files(extra_rules));
    for (const auto& file : files) {
      ROOTSTEAD_TRY(const std::string text, read_bytes(file));
      read_into(tables, text, file.string(), errors);
    }
  }
  if (errors.empty()) errors = coherence(tables);
  if (!errors.empty()) return first_of(errors);
  std::sort(tables.rules.begin(), tables.rules.end(),
            [](const ZoneRule& a, const ZoneRule& b) { return a.id < b.id; });
  return tables;
}

}  // namespace rootstead::io
