// Where a project lies on a server: "pg:HOST[:PORT]/DATABASE/PROJECT" or
// "pg:host=... dbname=... project=..." with key words of libpq. Takes no password: that comes from
// PGPASSWORD or the password file of libpq (~/.pgpass).
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/base/result.hpp"

namespace rootstead::io {

struct TeamAddress {
  std::vector<std::pair<std::string, std::string>> words;  // for libpq
  std::string project;                                     // the schema of its tables
  std::string subject;                                     // in messages: "pg:HOST/DB/PROJECT"
};

bool is_team_address(std::string_view text);

// Fails with wrong_use, saying how an address is written.
Result<TeamAddress> team_address(const std::string& text);

}  // namespace rootstead::io
