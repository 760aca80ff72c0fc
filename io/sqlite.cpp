// A project file: SQLite as a store.
#include <sqlite3.h>

#include <optional>
#include <utility>

#include "io/database.hpp"

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

struct Close {
  void operator()(sqlite3* handle) const { sqlite3_close_v2(handle); }
};
struct Finalize {
  void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
};
using Handle = std::unique_ptr<sqlite3, Close>;

class FileCommand : public Command {
 public:
  FileCommand(sqlite3* handle, std::string subject, const std::string& command)
      : handle_(handle), subject_(std::move(subject)) {
    sqlite3_stmt* statement = nullptr;
    const auto prepared =
        checked(sqlite3_prepare_v2(handle, command.c_str(), -1, &statement, nullptr));
    if (!prepared) mistake_ = prepared.error();
    statement_.reset(statement);
  }

  Outcome put(int place, std::string_view text) override {
    const char* begin = text.empty() ? "" : text.data();
    return checked(sqlite3_bind_text64(statement_.get(), place + 1, begin, text.size(),
                                       SQLITE_TRANSIENT, SQLITE_UTF8));
  }
  Outcome put(int place, std::int64_t number) override {
    return checked(sqlite3_bind_int64(statement_.get(), place + 1, number));
  }
  Outcome put(int place, double number) override {
    return checked(sqlite3_bind_double(statement_.get(), place + 1, number));
  }
  Outcome put_bytes(int place, std::string_view bytes) override {
    return checked(sqlite3_bind_blob64(statement_.get(), place + 1, bytes.data(), bytes.size(),
                                       SQLITE_TRANSIENT));
  }
  Outcome put_geometry(int place, std::string_view blob) override { return put_bytes(place, blob); }
  Outcome put_null(int place) override {
    return checked(sqlite3_bind_null(statement_.get(), place + 1));
  }

  Result<bool> step() override {
    if (mistake_) return *mistake_;
    const int status = sqlite3_step(statement_.get());
    if (status == SQLITE_ROW) return true;
    if (status == SQLITE_DONE) return false;
    return error();
  }
  void rest() override { sqlite3_reset(statement_.get()); }
  std::int64_t changed() const override { return sqlite3_changes64(handle_); }

  bool null(int column) const override {
    return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL;
  }
  std::string text(int column) const override {
    const auto* text = sqlite3_column_text(statement_.get(), column);
    const int size = sqlite3_column_bytes(statement_.get(), column);
    if (text == nullptr) return {};
    return {reinterpret_cast<const char*>(text), static_cast<std::size_t>(size)};
  }
  std::int64_t integer(int column) const override {
    return sqlite3_column_int64(statement_.get(), column);
  }
  double number(int column) const override {
    return sqlite3_column_double(statement_.get(), column);
  }
  std::string bytes(int column) const override {
    const void* bytes = sqlite3_column_blob(statement_.get(), column);
    const int size = sqlite3_column_bytes(statement_.get(), column);
    return {static_cast<const char*>(bytes), static_cast<std::size_t>(size)};
  }
  std::string geometry(int column) const override { return bytes(column); }

 private:
  Error error() const {
    return sentence_for(sqlite3_errcode(handle_), subject_, sqlite3_errmsg(handle_));
  }
  Outcome checked(int status) const {
    if (mistake_) return *mistake_;
    return status == SQLITE_OK ? Outcome(Nothing{}) : Outcome(error());
  }

  sqlite3* handle_;
  std::string subject_;
  std::optional<Error> mistake_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

class FileConnection : public Connection {
 public:
  FileConnection(Handle handle, std::string subject)
      : handle_(std::move(handle)), subject_(std::move(subject)) {}

  std::unique_ptr<Command> prepare(const std::string& command) override {
    return std::make_unique<FileCommand>(handle_.get(), subject_, command);
  }
  Outcome run(const char* commands) override {
    if (sqlite3_exec(handle_.get(), commands, nullptr, nullptr, nullptr) == SQLITE_OK)
      return Nothing{};
    return sentence_for(sqlite3_errcode(handle_.get()), subject_, sqlite3_errmsg(handle_.get()));
  }
  Outcome begin() override { return run("BEGIN IMMEDIATE"); }
  Outcome begin_reading() override { return run("BEGIN"); }
  Outcome commit() override { return run("COMMIT"); }
  // A failed ROLLBACK means that SQLite has rolled back already.
  void roll_back() override { sqlite3_exec(handle_.get(), "ROLLBACK", nullptr, nullptr, nullptr); }
  bool worth_again() const override { return false; }
  bool on_server() const override { return false; }
  bool write_protected() const override { return sqlite3_db_readonly(handle_.get(), "main") == 1; }
  std::string image() const override {
    sqlite3_int64 size = 0;
    unsigned char* bytes = sqlite3_serialize(handle_.get(), "main", &size, 0);
    std::string copy(reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(size));
    sqlite3_free(bytes);
    return copy;
  }

 private:
  Handle handle_;
  std::string subject_;
};

}  // namespace

Result<Database> Database::open(const std::filesystem::path& file) {
  sqlite3* opened = nullptr;
  const int status = sqlite3_open_v2(file.c_str(), &opened, SQLITE_OPEN_READWRITE, nullptr);
  Handle handle(opened);
  std::string subject = file.filename().string();
  if (status != SQLITE_OK) return sentence_for(status, subject, sqlite3_errstr(status));
  sqlite3_busy_timeout(opened, kPatienceMilliseconds);
  sqlite3_extended_result_codes(opened, 1);
  return Database(std::make_unique<FileConnection>(std::move(handle), subject), subject);
}

Result<Database> Database::in_memory(const std::filesystem::path& subject) {
  sqlite3* opened = nullptr;
  const int status = sqlite3_open(":memory:", &opened);
  Handle handle(opened);
  std::string name = subject.filename().string();
  if (status != SQLITE_OK) return sentence_for(status, name, sqlite3_errstr(status));
  return Database(std::make_unique<FileConnection>(std::move(handle), name), name);
}

}  // namespace rootstead::io
