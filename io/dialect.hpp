// Where SQL of the file (SQLite, GeoPackage) and of the server (PostgreSQL, PostGIS) differ.
// Nothing else of io asks which of the two it speaks to, but for what only a GeoPackage has.
#pragma once

#include <string>
#include <vector>

#include "io/database.hpp"
#include "io/stored.hpp"

namespace rootstead::io {

struct Table;

// Makes the table; its key is `fid`, numbers that are never given twice.
std::string create_command(const Database& database, const Table& table, const Frame& frame);
std::string add_column_command(const Database& database, const std::string& table,
                               const Column& column, const Frame& frame);
// Refuses every change and removal of rows.
std::string guard_command(const Database& database, const std::string& table);

// The names of the columns of the table given as its value, one a row.
std::string columns_query(const Database& database);
std::string tables_query(const Database& database);  // the names of all tables of the project

// The highest number that a table ever gave, and the same made so.
Result<std::int64_t> highest_number(const Database& database, const std::string& table);
Outcome set_highest_number(const Database& database, const std::string& table, std::int64_t number);

// Of the server alone.
extern const char* const kWherePostgis;  // the schema of PostGIS, or no row
std::string session_commands(const std::string& project, const std::string& postgis);
std::string create_project_commands(const std::string& project);
Result<bool> project_exists(const Database& database, const std::string& project);

}  // namespace rootstead::io
