// The format of a project file: which are read, and how an older one is raised to the present.
#pragma once

#include "io/database.hpp"
#include "io/project_schema.hpp"

namespace rootstead::io {

// A change that older programs would misread makes a new format; a new table or column that they
// may leave out does not.
// 2: layers and water table of the soil, wind, evidence. A program of format 1 would compute
// without them and say nothing.
// 3: history, intent and clear trunk of trees, what is seen and found at their flares, vehicles and
// ground covers, date and damage of works, particle sizes and water of the soil, boundary, gates,
// climate. A program of format 2 would prescribe without them and say nothing.
inline constexpr int kOldestReadable = 1;
inline constexpr int kCurrentFormat = 3;

// Fails unless the file is a project of a format we read: format_unknown, format_newer,
// format_broken.
Outcome check_format(const Database& database);

// Adds to a project of an older format the tables and columns it lacks, empty, and names the
// present format. Inside a transaction of the caller. Gives the format it had.
Result<int> raise_format(Database& database, const Frame& frame);

}  // namespace rootstead::io
