#include "io/tables.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>

#include "engine/base/nearest.hpp"
#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/embedded.hpp"
#include "io/replacement_reader.hpp"
#include "io/table_files.hpp"
#include "io/table_row.hpp"

namespace rootstead::io {
namespace {

constexpr std::string_view kRuleEnding = ".toml", kTableEnding = ".csv";
constexpr std::string_view kParameterFolder = "parameters/", kReplacementFolder = "replacement/";

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

void add_rule(Tables& tables, ReplacementRule rule) {
  for (const Source& source : rule.sources) {
    if (tables.source(source.id) == nullptr) tables.sources.push_back(source);
  }
  auto& rules = tables.replacement_rules;
  const auto same = std::find_if(rules.begin(), rules.end(),
                                 [&](const ReplacementRule& other) { return other.id == rule.id; });
  if (same == rules.end()) {
    rules.push_back(std::move(rule));
    return;
  }
  rule.notes.push_back("read from " + rule.file + " in place of the shipped rule " + same->file);
  *same = std::move(rule);
}

void read_replacement_into(Tables& tables, std::string_view text, const std::string& file,
                           std::vector<Error>& errors) {
  ReplacementReading reading = read_replacement_rule(text, file);
  if (reading.mistakes.empty()) add_rule(tables, std::move(reading.rule));
  errors.insert(errors.end(), reading.mistakes.begin(), reading.mistakes.end());
}

void read_into(Tables& tables, std::string_view text, const std::string& file,
               std::vector<Error>& errors) {
  RuleReading reading = read_rule(text, file);
  if (reading.mistakes.empty()) add_rule(tables, std::move(reading.rule));
  errors.insert(errors.end(), reading.mistakes.begin(), reading.mistakes.end());
}

Tables shipped_tables(std::vector<Error>& errors) {
  const auto text = [](std::string_view name) { return embedded_file(name).value_or(""); };
  Tables tables;
  tables.version = std::string(trimmed(text("VERSION")));
  tables.sources = read_sources(text("sources.csv"), errors);
  tables.species = read_species(text("species.csv"), errors);
  tables.crown_widths = read_crown_widths(text("crown_widths.csv"), errors);
  tables.wood_densities = read_wood_densities(text("wood_density.csv"), errors);
  tables.leaves = read_leaves(text("leaves.csv"), errors);
  tables.wet_soil = read_wet_soil(text("wet_soil.csv"), errors);
  tables.anchorage_resistances =
      read_anchorage_resistances(text("anchorage_resistance.csv"), errors);
  tables.crown_drags = read_crown_drags(text("crown_drag.csv"), errors);
  tables.soil = {read_density_limits(text("density_limits.csv"), errors),
                 read_ground_pressures(text("ground_pressures.csv"), errors),
                 read_ground_protection(text("ground_protection.csv"), errors),
                 read_fill_rules(text("fill_rules.csv"), errors),
                 read_fill_sensitivity(text("fill_sensitivity.csv"), errors)};
  tables.submittal_items = read_submittal_items(text("submittal.csv"), errors);
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.name.starts_with(kReplacementFolder)) {
      read_replacement_into(tables, file.text, "data/" + std::string(file.name), errors);
    } else if (file.name.ends_with(kRuleEnding)) {
      read_into(tables, file.text, "data/" + std::string(file.name), errors);
    } else if (file.name.starts_with(kParameterFolder)) {
      const auto more = read_parameters(file.text, std::string(file.name), errors);
      tables.parameters.insert(tables.parameters.end(), more.begin(), more.end());
    }
  }
  return tables;
}

using Paths = std::vector<std::filesystem::path>;

Result<Paths> files_in(const std::filesystem::path& folder) {
  std::error_code failure;
  std::filesystem::directory_iterator entries(folder, failure);
  if (failure) {
    return Error{Code::file_not_found, folder.string(),
                 "the folder of your own rules and tables cannot be read",
                 "check its name, or leave it out"};
  }
  Paths files;
  for (const auto& entry : entries) files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

// Surveys may lie in the same folder; a table whose name is nearly right must not be passed over.
void check_name(const std::filesystem::path& file, std::vector<Error>& errors) {
  const std::string near = nearest(file.filename().string(), own_table_names());
  if (near.empty()) return;
  errors.push_back({Code::table_incoherent, file.string(), "no table has this name",
                    "perhaps \"" + near + "\" is meant"});
}

// Which table a file of the folder holds; empty for none.
std::string table_in(const std::filesystem::path& file, std::vector<Error>& errors) {
  if (file.extension() != kTableEnding) return {};
  const std::string name = file.filename().string();
  const auto& names = own_table_names();
  if (std::find(names.begin(), names.end(), name) != names.end()) return name;
  check_name(file, errors);
  return {};
}

Outcome lay_file_over(Tables& tables, const std::string& table, const std::filesystem::path& file,
                      std::vector<Error>& errors) {
  ROOTSTEAD_TRY(std::string bytes, read_bytes(file));
  lay_over(tables, table, decoded(std::move(bytes)).text, file.string(), errors);
  return Nothing{};
}

Outcome lay_replacement_over(Tables& tables, const std::filesystem::path& folder,
                             std::vector<Error>& errors) {
  if (!std::filesystem::is_directory(folder)) return Nothing{};
  ROOTSTEAD_TRY(const Paths files, files_in(folder));
  for (const auto& file : files) {
    if (file.extension() != kRuleEnding) continue;
    ROOTSTEAD_TRY(const std::string text, read_bytes(file));
    read_replacement_into(tables, text, file.string(), errors);
  }
  return Nothing{};
}

Outcome lay_folder_over(Tables& tables, const std::filesystem::path& folder,
                        std::vector<Error>& errors) {
  ROOTSTEAD_TRY(const Paths files, files_in(folder));
  tables.sources.push_back({std::string(kOwnTables), "Your own tables in " + folder.string(),
                            "not checked by Rootstead"});
  for (const auto& file : files) {
    if (file.extension() == kRuleEnding) {
      ROOTSTEAD_TRY(const std::string text, read_bytes(file));
      read_into(tables, text, file.string(), errors);
    }
    const std::string table = table_in(file, errors);
    if (!table.empty()) ROOTSTEAD_CHECK(lay_file_over(tables, table, file, errors));
  }
  ROOTSTEAD_CHECK(lay_replacement_over(tables, folder / kReplacementFolder, errors));
  const auto parameters = folder / kParameterFolder;
  if (!std::filesystem::is_directory(parameters)) return Nothing{};
  ROOTSTEAD_TRY(const Paths more, files_in(parameters));
  for (const auto& file : more)
    if (file.extension() == kTableEnding)
      ROOTSTEAD_CHECK(lay_file_over(tables, "parameters", file, errors));
  return Nothing{};
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

Result<Tables> load_tables(const std::filesystem::path& own_folder) {
  std::vector<Error> errors;
  Tables tables = shipped_tables(errors);
  if (!own_folder.empty()) ROOTSTEAD_CHECK(lay_folder_over(tables, own_folder, errors));
  if (errors.empty()) errors = coherence(tables);
  if (!errors.empty()) return first_of(errors);
  std::sort(tables.rules.begin(), tables.rules.end(),
            [](const ZoneRule& a, const ZoneRule& b) { return a.id < b.id; });
  std::sort(tables.replacement_rules.begin(), tables.replacement_rules.end(),
            [](const ReplacementRule& a, const ReplacementRule& b) { return a.id < b.id; });
  return tables;
}

}  // namespace rootstead::io
