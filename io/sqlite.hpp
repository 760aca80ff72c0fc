// SQLite with errors as values. A Database is one open file; a Statement is one prepared command
// whose values go in, and come out, in the order of their columns.
#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "engine/base/result.hpp"

namespace rootstead::io {

class Database {
 public:
  // Opens an existing file for reading and writing (reading only where it is write-protected).
  static Result<Database> open(const std::filesystem::path& file);
  static Result<Database> in_memory(const std::filesystem::path& subject);

  Outcome run(const char* commands);
  // The error SQLite last reported, as one sentence about this file.
  Error error() const;
  Error broken(const std::string& what) const;
  bool write_protected() const;
  std::string image() const;  // the whole database as the bytes of its file

  sqlite3* handle() const { return handle_.get(); }
  const std::string& subject() const { return subject_; }

 private:
  struct Close {
    void operator()(sqlite3* handle) const { sqlite3_close_v2(handle); }
  };
  Database(sqlite3* handle, std::string subject) : handle_(handle), subject_(std::move(subject)) {}
  std::unique_ptr<sqlite3, Close> handle_;
  std::string subject_;  // names the file in messages
};

class Statement {
 public:
  // A mistake in `command` (a table that is missing, say) is reported by run() or next().
  Statement(const Database& database, const std::string& command);

  void put(std::string_view text);
  void put(std::int64_t number);
  void put(double number);  // not finite: run() fails
  void put_bytes(std::string_view bytes);
  void put_null();
  Outcome run();  // a command without rows; ready for the next values afterwards

  Result<bool> next();  // is there another row? run() or the end of rows starts afresh
  std::string text();   // empty for NULL
  std::int64_t integer();
  double number();
  std::optional<std::string> bytes();
  bool null();  // is the next column NULL? Does not move on.
  void skip() { ++at_; }

  // Notes that a value could not be put or was not understood; run() or next() then fails with it.
  void object(Error error);

 private:
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
  };
  void check(int status);
  const Database* database_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
  std::optional<Error> objection_;
  int at_ = 0;
};

// All or nothing: what was written since begin() is undone unless commit() succeeds.
class Transaction {
 public:
  // Fails with project_busy where another program is writing.
  static Result<Transaction> begin(Database& database);
  Outcome commit();
  Transaction(Transaction&& other) noexcept;
  Transaction& operator=(Transaction&&) = delete;
  ~Transaction();

 private:
  explicit Transaction(Database& database) : database_(&database) {}
  Database* database_;
};

}  // namespace rootstead::io
