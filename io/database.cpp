#include "io/database.hpp"

#include <cmath>
#include <utility>

namespace rootstead::io {

Error Database::broken(const std::string& what) const {
  return {Code::format_broken, subject_, what, "correct it where it was changed, or use a copy"};
}

Statement::Statement(const Database& database, const std::string& command)
    : database_(&database), command_(database.connection().prepare(command)) {}

void Statement::object(Error error) {
  if (!objection_) objection_ = std::move(error);
}

void Statement::put(double number) {
  if (!std::isfinite(number)) {
    object({Code::value_invalid, database_->subject(), "a number to be stored is not finite",
            "correct it at its source"});
  }
  check(command_->put(at_++, number));
}

Outcome Statement::run() {
  at_ = 0;
  if (objection_) return *objection_;
  const Result<bool> stepped = command_->step();
  command_->rest();
  if (!stepped) object(stepped.error());
  if (objection_) return *objection_;
  return Nothing{};
}

Result<bool> Statement::next() {
  at_ = 0;
  if (objection_) return *objection_;
  const Result<bool> row = command_->step();
  if (row && *row) return true;
  if (!row) object(row.error());
  command_->rest();
  if (objection_) return *objection_;
  return false;
}

std::optional<std::string> Statement::bytes() {
  if (null()) return skip(), std::nullopt;
  return command_->bytes(at_++);
}

std::optional<std::string> Statement::geometry() {
  if (null()) return skip(), std::nullopt;
  return command_->geometry(at_++);
}

Result<Transaction> Transaction::begin(const Database& database) {
  ROOTSTEAD_CHECK(database.connection().begin());
  return Transaction(database);
}

Result<Transaction> Transaction::begin_reading(const Database& database) {
  ROOTSTEAD_CHECK(database.connection().begin_reading());
  return Transaction(database);
}

Outcome Transaction::commit() {
  ROOTSTEAD_CHECK(database_->connection().commit());
  database_ = nullptr;
  return Nothing{};
}

Transaction::Transaction(Transaction&& other) noexcept
    : database_(std::exchange(other.database_, nullptr)) {}

Transaction::~Transaction() {
  if (database_ != nullptr) database_->connection().roll_back();
}

}  // namespace rootstead::io
