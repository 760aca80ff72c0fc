// Result<T>: a value, or the Error that says why there is none.
//
// Three kinds of trouble are never mixed: a bug of ours is an assert, an expected failure is a
// Result, a caution is a Note inside a result (note.hpp). The engine throws nothing.
#pragma once

#include <cassert>
#include <cstdint>
#include <string>
#include <utility>
#include <variant>

namespace rootstead {

// What went wrong, in numbers that never change meaning once released.
enum class Code : std::uint16_t {
  // reading and writing
  file_not_found = 100,
  file_unreadable = 101,
  file_unwritable = 102,
  format_unknown = 103,
  format_newer = 104,
  format_broken = 105,
  project_busy = 106,
  // what was asked for
  wrong_use = 200,
  unknown_name = 201,
  unit_unknown = 202,
  unit_missing = 203,
  crs_unknown = 204,
  crs_unsuitable = 205,
  column_missing = 206,
  value_invalid = 207,
  duplicate = 208,
  // geometry
  invalid_geometry = 300,
  empty_geometry = 301,
  // rules and models
  outside_rule_domain = 400,
  missing_measurement = 401,
  rule_invalid = 402,
  table_incoherent = 403,
};

// One sentence for a person: what, where, and what to do.
struct Error {
  Code code = Code::wrong_use;
  std::string subject;  // file, row, column, tree or entity: "survey.csv row 12", "tree T17"
  std::string message;  // what is wrong, without the subject: "the diameter is negative"
  std::string remedy;   // what to do: "enter the diameter as a positive number"

  // "survey.csv row 12: the diameter is negative; enter the diameter as a positive number."
  std::string sentence() const;
};

template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_(std::move(value)) {}      // NOLINT: a value is a result
  Result(Error error) : state_(std::move(error)) {}  // NOLINT: an error is a result

  bool ok() const { return state_.index() == 0; }
  explicit operator bool() const { return ok(); }

  // Requires: ok().
  const T& value() const& { return assert(ok()), std::get<0>(state_); }
  T& value() & { return assert(ok()), std::get<0>(state_); }
  T&& value() && { return assert(ok()), std::get<0>(std::move(state_)); }
  const T& operator*() const& { return value(); }
  T& operator*() & { return value(); }
  T&& operator*() && { return std::move(*this).value(); }
  const T* operator->() const { return &value(); }
  T* operator->() { return &value(); }

  // Requires: !ok().
  const Error& error() const { return assert(!ok()), std::get<1>(state_); }

 private:
  std::variant<T, Error> state_;
};

struct Nothing {
  friend bool operator==(Nothing, Nothing) = default;
};
using Outcome = Result<Nothing>;

}  // namespace rootstead

// ROOTSTEAD_TRY(auto site, read_site(path)); returns the error to the caller if there is one.
#define ROOTSTEAD_JOIN2(a, b) a##b
#define ROOTSTEAD_JOIN(a, b) ROOTSTEAD_JOIN2(a, b)
#define ROOTSTEAD_TRY(declaration, expression)                                              \
  auto ROOTSTEAD_JOIN(result_, __LINE__) = (expression);                                    \
  if (!ROOTSTEAD_JOIN(result_, __LINE__)) return ROOTSTEAD_JOIN(result_, __LINE__).error(); \
  declaration = std::move(ROOTSTEAD_JOIN(result_, __LINE__)).value()

// The same for a result whose value nobody needs.
#define ROOTSTEAD_CHECK(expression) \
  if (auto outcome = (expression); !outcome) return outcome.error()
