// Settings as rows of key and value (docs/formats/project.md lists the keys).
#pragma once

#include <map>
#include <string>

#include "engine/site/site.hpp"
#include "io/database.hpp"

namespace rootstead::io {

using SettingMap = std::map<std::string, std::string>;

Result<SettingMap> read_settings(const Database& database);
// Replaces the rows of ProjectSettings; those of the file itself (format, system) stay.
Outcome write_settings(const Database& database, const ProjectSettings& settings);
Outcome write_file_settings(const Database& database, const ReferenceSystem& system);

ProjectSettings settings_from(const SettingMap& rows);
// Fails with format_broken where a row is missing.
Result<ReferenceSystem> system_from(const SettingMap& rows, const Database& database);

}  // namespace rootstead::io
