// The store of a project with errors as values: a file (SQLite) or a project on a server
// (PostgreSQL). A Database is one open store; a Statement is one prepared command whose values go
// in, and come out, in the order of their columns. Where the two speak SQL differently:
// io/dialect.hpp.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "engine/base/result.hpp"
#include "io/connection.hpp"

namespace rootstead::io {

struct TeamAddress;

class Database {
 public:
  // Opens an existing file for reading and writing (reading only where it is write-protected).
  static Result<Database> open(const std::filesystem::path& file);
  static Result<Database> in_memory(const std::filesystem::path& subject);
  // A project on a server, whether it is there yet or not. Fails with file_unreadable where no
  // server answers or it does not let us in, and with format_unknown where the database has no
  // PostGIS.
  static Result<Database> connect(const TeamAddress& address);

  Outcome run(const char* commands) { return connection_->run(commands); }
  Error broken(const std::string& what) const;
  bool on_server() const { return connection_->on_server(); }
  bool write_protected() const { return connection_->write_protected(); }
  std::string image() const { return connection_->image(); }

  Connection& connection() const { return *connection_; }
  const std::string& subject() const { return subject_; }

 private:
  Database(std::unique_ptr<Connection> connection, std::string subject)
      : connection_(std::move(connection)), subject_(std::move(subject)) {}
  std::unique_ptr<Connection> connection_;
  std::string subject_;  // names the store in messages
};

class Statement {
 public:
  // A mistake in `command` (a table that is missing, say) is reported by run() or next().
  Statement(const Database& database, const std::string& command);

  void put(std::string_view text) { check(command_->put(at_++, text)); }
  void put(std::int64_t number) { check(command_->put(at_++, number)); }
  void put(double number);  // not finite: run() fails
  void put_bytes(std::string_view bytes) { check(command_->put_bytes(at_++, bytes)); }
  void put_geometry(std::string_view blob) { check(command_->put_geometry(at_++, blob)); }
  void put_null() { check(command_->put_null(at_++)); }
  Outcome run();  // a command without rows; ready for the next values afterwards
  std::int64_t changed() const { return command_->changed(); }  // rows, by the last run()

  Result<bool> next();  // is there another row? run() or the end of rows starts afresh
  std::string text() { return command_->text(at_++); }  // empty for NULL
  std::int64_t integer() { return command_->integer(at_++); }
  double number() { return command_->number(at_++); }
  std::optional<std::string> bytes();
  std::optional<std::string> geometry();       // as a blob of a GeoPackage, wherever it lies
  bool null() { return command_->null(at_); }  // is the next column NULL? Does not move on.
  void skip() { ++at_; }

  // Notes that a value could not be put or was not understood; run() or next() then fails with it.
  void object(Error error);

 private:
  void check(Outcome outcome) {
    if (!outcome) object(outcome.error());
  }
  const Database* database_;
  std::unique_ptr<Command> command_;
  std::optional<Error> objection_;
  int at_ = 0;
};

// All or nothing: what was written since begin() is undone unless commit() succeeds.
class Transaction {
 public:
  // Fails with project_busy where another program is writing and does not end in time.
  static Result<Transaction> begin(const Database& database);
  // What is read until it goes out of scope belongs to one state of the project.
  static Result<Transaction> begin_reading(const Database& database);
  Outcome commit();
  Transaction(Transaction&& other) noexcept;
  Transaction& operator=(Transaction&&) = delete;
  ~Transaction();

 private:
  explicit Transaction(const Database& database) : database_(&database) {}
  const Database* database_;
};

}  // namespace rootstead::io
