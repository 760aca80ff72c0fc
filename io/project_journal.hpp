// The journal: appended, never changed, each row sealed by the hash of the one before.
#pragma once

#include <string>
#include <vector>

#include "io/database.hpp"
#include "io/project.hpp"

namespace rootstead::io {

// SHA-256 in lower-case hexadecimal.
std::string sha256(std::string_view bytes);

// The hash of a row: SHA-256 over the fields previous_hash, written_at, action, detail in this
// order, each as its length in bytes (decimal), a colon and the bytes.
std::string journal_hash(const std::string& previous_hash, const std::string& when,
                         const std::string& action, const std::string& detail);

// Inside a transaction of the caller. Gives the number of the new entry.
Result<std::int64_t> append_journal(const Database& database, const std::string& when,
                                    const std::string& action, const std::string& detail);
Result<std::int64_t> last_journal_number(const Database& database);
Result<std::vector<JournalEntry>> checked_journal(const Database& database);

}  // namespace rootstead::io
