#include "io/sqlite.hpp"

#include <cmath>
#include <utility>

namespace rootstead::io {
namespace {

// How long to wait for another program before saying that it is busy.
constexpr int kPatienceMilliseconds = 1000;

Error sentence_for(int status, const std::string& subject, const std::string& detail) {
  switch (status & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {Code::project_busy, subject, "another program is using the project",
              "close it there, or try again in a moment"};
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_AUTH:
      return {Code::file_unwritable, subject, "the file is write-protected",
              "allow writing to it and to its folder, or work on a copy"};
    case SQLITE_FULL:
    case SQLITE_IOERR:
      return {Code::file_unwritable, subject,
              "the disk refused to store the change (" + detail + ")",
              "free some space or choose another disk; the project is as it was"};
    case SQLITE_CANTOPEN:
      return {Code::file_unreadable, subject, "the file cannot be opened",
              "check that it is a file you may read and write"};
    case SQLITE_NOTADB:
      return {Code::format_unknown, subject, "this is not a project file",
              "make one with `rootstead new` and add this file to it with `rootstead add`"};
    default:
      return {Code::format_broken, subject, "the project file is damaged (" + detail + ")",
              "use the last good copy"};
  }
}

}  // namespace

Result<Database> Database::open(const std::filesystem::path& file) {
  sqlite3* handle = nullptr;
  const int status = sqlite3_open_v2(file.c_str(), &handle, SQLITE_OPEN_READWRITE, nullptr);
  Database database(handle, file.filename().string());
  if (status != SQLITE_OK) return sentence_for(status, database.subject(), sqlite3_errstr(status));
  sqlite3_busy_timeout(handle, kPatienceMilliseconds);
  sqlite3_extended_result_codes(handle, 1);
  return database;
}

Result<Database> Database::in_memory(const std::filesystem::path& subject) {
  sqlite3* handle = nullptr;
  const int status = sqlite3_open(":memory:", &handle);
  Database database(handle, subject.filename().string());
  if (status != SQLITE_OK) return sentence_for(status, database.subject(), sqlite3_errstr(status));
  return database;
}

Outcome Database::run(const char* commands) {
  if (sqlite3_exec(handle(), commands, nullptr, nullptr, nullptr) != SQLITE_OK) return error();
  return Nothing{};
}

Error Database::error() const {
  return sentence_for(sqlite3_errcode(handle()), subject_, sqlite3_errmsg(handle()));
}

Error Database::broken(const std::string& what) const {
  return {Code::format_broken, subject_, what, "correct it where it was changed, or use a copy"};
}

bool Database::write_protected() const {
  return sqlite3_db_readonly(handle(), "main") == 1;
}

std::string Database::image() const {
  sqlite3_int64 size = 0;
  unsigned char* bytes = sqlite3_serialize(handle(), "main", &size, 0);
  std::string copy(reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(size));
  sqlite3_free(bytes);
  return copy;
}

Statement::Statement(const Database& database, const std::string& command) : database_(&database) {
  sqlite3_stmt* statement = nullptr;
  check(sqlite3_prepare_v2(database.handle(), command.c_str(), -1, &statement, nullptr));
  statement_.reset(statement);
}

void Statement::check(int status) {
  if (status != SQLITE_OK && !objection_) objection_ = database_->error();
}

void Statement::object(Error error) {
  if (!objection_) objection_ = std::move(error);
}

void Statement::put(std::string_view text) {
  const char* begin = text.empty() ? "" : text.data();
  check(sqlite3_bind_text64(statement_.get(), ++at_, begin, text.size(), SQLITE_TRANSIENT,
                            SQLITE_UTF8));
}

void Statement::put(std::int64_t number) {
  check(sqlite3_bind_int64(statement_.get(), ++at_, number));
}

void Statement::put(double number) {
  if (!std::isfinite(number)) {
    object({Code::value_invalid, database_->subject(), "a number to be stored is not finite",
            "correct it at its source"});
  }
  check(sqlite3_bind_double(statement_.get(), ++at_, number));
}

void Statement::put_bytes(std::string_view bytes) {
  check(sqlite3_bind_blob64(statement_.get(), ++at_, bytes.data(), bytes.size(), SQLITE_TRANSIENT));
}

void Statement::put_null() {
  check(sqlite3_bind_null(statement_.get(), ++at_));
}

Outcome Statement::run() {
  at_ = 0;
  if (objection_) return *objection_;
  const int status = sqlite3_step(statement_.get());
  if (status != SQLITE_DONE && status != SQLITE_ROW) object(database_->error());
  sqlite3_reset(statement_.get());
  if (objection_) return *objection_;
  return Nothing{};
}

Result<bool> Statement::next() {
  at_ = 0;
  if (objection_) return *objection_;
  const int status = sqlite3_step(statement_.get());
  if (status == SQLITE_ROW) return true;
  if (status != SQLITE_DONE) object(database_->error());
  sqlite3_reset(statement_.get());
  if (objection_) return *objection_;
  return false;
}

std::string Statement::text() {
  const auto* text = sqlite3_column_text(statement_.get(), at_);
  const int size = sqlite3_column_bytes(statement_.get(), at_++);
  if (text == nullptr) return {};
  return {reinterpret_cast<const char*>(text), static_cast<std::size_t>(size)};
}

std::int64_t Statement::integer() {
  return sqlite3_column_int64(statement_.get(), at_++);
}

double Statement::number() {
  return sqlite3_column_double(statement_.get(), at_++);
}

std::optional<std::string> Statement::bytes() {
  if (null()) return skip(), std::nullopt;
  const void* bytes = sqlite3_column_blob(statement_.get(), at_);
  const int size = sqlite3_column_bytes(statement_.get(), at_++);
  return std::string(static_cast<const char*>(bytes), static_cast<std::size_t>(size));
}

bool Statement::null() {
  return sqlite3_column_type(statement_.get(), at_) == SQLITE_NULL;
}

Result<Transaction> Transaction::begin(Database& database) {
  ROOTSTEAD_CHECK(database.run("BEGIN IMMEDIATE"));
  return Transaction(database);
}

Outcome Transaction::commit() {
  ROOTSTEAD_CHECK(database_->run("COMMIT"));
  database_ = nullptr;
  return Nothing{};
}

Transaction::Transaction(Transaction&& other) noexcept
    : database_(std::exchange(other.database_, nullptr)) {}

Transaction::~Transaction() {
  if (database_ == nullptr) return;
  // A failed ROLLBACK means that SQLite has rolled back already.
  sqlite3_exec(database_->handle(), "ROLLBACK", nullptr, nullptr, nullptr);
}

}  // namespace rootstead::io
