#include "io/project_journal.hpp"

#include <openssl/evp.h>

#include <array>

#include "io/records.hpp"
#include "io/stored_table.hpp"

namespace rootstead::io {

std::string sha256(std::string_view bytes) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned int size = 0;
  EVP_Digest(bytes.data(), bytes.size(), digest.data(), &size, EVP_sha256(), nullptr);
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string text;
  for (unsigned int i = 0; i < size; ++i) {
    text += kDigits[digest[i] >> 4];
    text += kDigits[digest[i] & 15];
  }
  return text;
}

std::string journal_hash(const std::string& previous_hash, const std::string& when,
                         const std::string& action, const std::string& detail) {
  std::string sealed;
  for (const std::string* field : {&previous_hash, &when, &action, &detail}) {
    sealed += std::to_string(field->size()) + ":" + *field;
  }
  return sha256(sealed);
}

Result<std::int64_t> append_journal(const Database& database, const std::string& when,
                                    const std::string& action, const std::string& detail) {
  Statement last(database, "SELECT hash FROM journal ORDER BY fid DESC LIMIT 1");
  ROOTSTEAD_TRY(const bool any, last.next());
  JournalRow row{when, action, detail, any ? last.text() : "", ""};
  row.hash = journal_hash(row.previous_hash, when, action, detail);
  ROOTSTEAD_TRY(const auto number, last_journal_number(database));
  Statement insert(database,
                   "INSERT INTO journal (fid, written_at, action, detail, previous_hash, hash) "
                   "VALUES (?, ?, ?, ?, ?, ?)");
  insert.put(number + 1);  // without gaps, also where a server counts on after what was undone
  for (const std::string* text :
       {&row.when, &row.action, &row.detail, &row.previous_hash, &row.hash})
    insert.put(std::string_view(*text));
  ROOTSTEAD_CHECK(insert.run());
  return number + 1;
}

Result<std::int64_t> last_journal_number(const Database& database) {
  Statement last(database, "SELECT coalesce(max(fid), 0) FROM journal");
  ROOTSTEAD_TRY(const bool any, last.next());
  return any ? last.integer() : 0;
}

Result<std::vector<JournalEntry>> checked_journal(const Database& database) {
  ROOTSTEAD_TRY(const auto rows, read_all<JournalRow>(database, "journal", {}));
  std::vector<JournalEntry> entries;
  std::string previous;
  for (const JournalRow& row : rows) {
    const bool sound = row.previous_hash == previous &&
                       row.hash == journal_hash(previous, row.when, row.action, row.detail);
    if (!sound) {
      return Error{Code::format_broken, database.subject(),
                   "the journal was changed by other means: entry " +
                       std::to_string(entries.size() + 1) + " does not match its seal",
                   "use a copy from before the change where the record matters"};
    }
    previous = row.hash;
    entries.push_back({row.when, row.action, row.detail, row.hash});
  }
  return entries;
}

}  // namespace rootstead::io
