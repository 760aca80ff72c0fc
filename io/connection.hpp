// What a store of projects must be able to do: the file (io/sqlite.cpp) and the server
// (io/postgres.cpp) do it each in its own way; all above speaks through io/database.hpp.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

#include "engine/base/result.hpp"

namespace rootstead::io {

// One prepared command. Places and columns count from zero.
class Command {
 public:
  virtual ~Command() = default;

  virtual Outcome put(int place, std::string_view text) = 0;
  virtual Outcome put(int place, std::int64_t number) = 0;
  virtual Outcome put(int place, double number) = 0;
  virtual Outcome put_bytes(int place, std::string_view bytes) = 0;
  virtual Outcome put_geometry(int place, std::string_view blob) = 0;  // of a GeoPackage
  virtual Outcome put_null(int place) = 0;

  virtual Result<bool> step() = 0;  // is there another row? Runs the command where it rests.
  virtual void rest() = 0;          // ready for other values
  virtual std::int64_t changed() const = 0;  // rows that the last run touched

  virtual bool null(int column) const = 0;
  virtual std::string text(int column) const = 0;
  virtual std::int64_t integer(int column) const = 0;
  virtual double number(int column) const = 0;
  virtual std::string bytes(int column) const = 0;
  virtual std::string geometry(int column) const = 0;  // as a blob of a GeoPackage
};

class Connection {
 public:
  virtual ~Connection() = default;

  // A mistake in `command` is reported when it is put into or run.
  virtual std::unique_ptr<Command> prepare(const std::string& command) = 0;
  virtual Outcome run(const char* commands) = 0;

  virtual Outcome begin() = 0;          // to write: one writer at a time
  virtual Outcome begin_reading() = 0;  // what is read belongs together
  virtual Outcome commit() = 0;
  virtual void roll_back() = 0;  // nothing to do where nothing was begun, or it is undone already

  // Did what failed last fail by bad luck, such as a server that went away, so that it may be tried
  // again from the beginning of its transaction?
  virtual bool worth_again() const = 0;
  virtual bool on_server() const = 0;
  virtual bool write_protected() const = 0;
  virtual std::string image() const = 0;  // the bytes of the file; of a server: empty
};

}  // namespace rootstead::io
