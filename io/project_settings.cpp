#include "io/project_settings.hpp"

#include <array>
#include <utility>

#include "io/project_format.hpp"
#include "io/records.hpp"
#include "io/stored_table.hpp"

namespace rootstead::io {
namespace {

using Text = std::string ProjectSettings::*;
constexpr std::array<std::pair<const char*, Text>, 8> kTexts{
    {{"title", &ProjectSettings::title},
     {"address", &ProjectSettings::address},
     {"client", &ProjectSettings::client},
     {"author", &ProjectSettings::author},
     {"credentials", &ProjectSettings::credentials},
     {"date", &ProjectSettings::date},
     {"revision", &ProjectSettings::revision},
     {"status", &ProjectSettings::status}}};
constexpr std::string_view kRule = "rule.";
constexpr std::string_view kOther = "other.";

SettingMap rows_of(const ProjectSettings& settings) {
  SettingMap rows;
  for (const auto& [key, text] : kTexts) rows[key] = settings.*text;
  rows["units"] = word_of(settings.units);
  rows["demo"] = settings.demo ? "yes" : "no";
  int number = 0;
  for (const std::string& rule : settings.rules) {
    rows[std::string(kRule) + std::to_string(++number)] = rule;
  }
  for (const auto& [key, value] : settings.other) rows[std::string(kOther) + key] = value;
  return rows;
}

Outcome insert(const Database& database, const SettingMap& rows) {
  Inserter<SettingRow> insert(database, "settings", {});
  for (const auto& [key, value] : rows) ROOTSTEAD_CHECK(insert({key, value}));
  return Nothing{};
}

std::string value_of(const SettingMap& rows, const std::string& key) {
  const auto found = rows.find(key);
  return found == rows.end() ? "" : found->second;
}

}  // namespace

Result<SettingMap> read_settings(const Database& database) {
  ROOTSTEAD_TRY(auto rows, read_all<SettingRow>(database, "settings", {}));
  SettingMap map;
  for (SettingRow& row : rows) map[row.key] = std::move(row.value);
  return map;
}

Outcome write_settings(const Database& database, const ProjectSettings& settings) {
  Statement clear(database, "DELETE FROM settings WHERE key NOT LIKE 'file.%'");
  ROOTSTEAD_CHECK(clear.run());
  return insert(database, rows_of(settings));
}

Outcome write_file_settings(const Database& database, const ReferenceSystem& system) {
  return insert(database, {{"file.format_version", std::to_string(kCurrentFormat)},
                           {"file.system", system.code},
                           {"file.system_name", system.name},
                           {"file.system_datum", system.datum},
                           {"file.system_unit", std::string(symbol(system.file_unit))}});
}

ProjectSettings settings_from(const SettingMap& rows) {
  ProjectSettings settings;
  for (const auto& [key, text] : kTexts) settings.*text = value_of(rows, key);
  read_word(value_of(rows, "units"), settings.units);
  settings.demo = value_of(rows, "demo") == "yes";
  for (int number = 1;; ++number) {
    const auto rule = rows.find(std::string(kRule) + std::to_string(number));
    if (rule == rows.end()) break;
    settings.rules.push_back(rule->second);
  }
  for (const auto& [key, value] : rows) {
    if (key.starts_with(kOther)) settings.other[key.substr(kOther.size())] = value;
  }
  return settings;
}

Result<ReferenceSystem> system_from(const SettingMap& rows, const Database& database) {
  const auto unit = length_unit_from(value_of(rows, "file.system_unit"));
  ReferenceSystem system{value_of(rows, "file.system"),
                         value_of(rows, "file.system_name"),
                         unit.value_or(LengthUnit::metre),
                         value_of(rows, "file.system_datum"),
                         {}};
  if (system.code.empty() || !unit) {
    return database.broken("the settings do not say which reference system the project has");
  }
  return system;
}

}  // namespace rootstead::io
