// A project on a server: PostgreSQL with PostGIS as a store. Values go and come as text, which is
// exact: numbers in their shortest form that reads back the same, geometries as the bytes of
// extended well-known binary in hexadecimal.
#include <libpq-fe.h>

#include <algorithm>
#include <bit>
#include <charconv>
#include <chrono>
#include <cstring>
#include <map>
#include <optional>
#include <thread>
#include <utility>
#include <vector>

#include "io/database.hpp"
#include "io/dialect.hpp"
#include "io/team_address.hpp"

namespace rootstead::io {
namespace {

// How long to wait for a server that has gone away and may come back: our assumption.
constexpr std::chrono::seconds kPatience{15};
constexpr std::chrono::milliseconds kBetweenTries{100};
constexpr const char* kConnectSeconds = "10";

struct Finish {
  void operator()(PGconn* connection) const { PQfinish(connection); }
};
struct Clear {
  void operator()(PGresult* result) const { PQclear(result); }
};
using Link = std::unique_ptr<PGconn, Finish>;
using Answer = std::unique_ptr<PGresult, Clear>;

// ---- values as text

constexpr std::string_view kDigits = "0123456789abcdef";

std::string hex_of(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size() * 2);
  for (const char byte : bytes) {
    const auto value = static_cast<unsigned char>(byte);
    text += kDigits[value >> 4];
    text += kDigits[value & 15];
  }
  return text;
}

int digit_of(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  return (c | 0x20) - 'a' + 10;
}

std::string bytes_of_hex(std::string_view text) {
  std::string bytes;
  bytes.reserve(text.size() / 2);
  for (std::size_t i = 0; i + 1 < text.size(); i += 2)
    bytes.push_back(static_cast<char>(digit_of(text[i]) * 16 + digit_of(text[i + 1])));
  return bytes;
}

template <class Number>
std::string shortest(Number number) {
  char text[40];
  const auto end = std::to_chars(text, text + sizeof text, number).ptr;
  return {text, end};
}

// ---- geometries: the blob of a GeoPackage is a header and well-known binary; the extended binary
// of PostGIS has the number of the system behind its first word. Both little-endian.

static_assert(std::endian::native == std::endian::little, "geometries are little-endian");
constexpr std::size_t kPlainHeader = 8, kWkbHead = 5;
constexpr std::uint32_t kHasSystem = 0x20000000;

std::optional<std::string> extended_of_blob(std::string_view blob) {
  constexpr std::size_t kEnvelopes[] = {0, 32, 48, 48, 64};
  if (blob.size() < kPlainHeader || blob.substr(0, 2) != "GP") return std::nullopt;
  const auto envelope = (static_cast<unsigned char>(blob[3]) >> 1) & 7U;
  if (envelope >= std::size(kEnvelopes)) return std::nullopt;
  const std::size_t header = kPlainHeader + kEnvelopes[envelope];
  if (blob.size() < header + kWkbHead || blob[header] != 1) return std::nullopt;
  std::uint32_t type = 0;
  std::memcpy(&type, blob.data() + header + 1, sizeof type);
  type |= kHasSystem;
  std::string bytes("\1", 1);
  bytes.append(reinterpret_cast<const char*>(&type), sizeof type);
  bytes.append(blob.substr(4, 4));  // the number of the system, as the header has it
  bytes.append(blob.substr(header + kWkbHead));
  return bytes;
}

std::string blob_of_extended(std::string_view bytes) {
  std::uint32_t type = 0;
  if (bytes.size() < kWkbHead || bytes[0] != 1) return {};
  std::memcpy(&type, bytes.data() + 1, sizeof type);
  const bool has_system = (type & kHasSystem) != 0 && bytes.size() >= kWkbHead + 4;
  type &= ~kHasSystem;
  std::string blob("GP\0\1", 4);
  blob.append(has_system ? bytes.substr(kWkbHead, 4) : std::string_view("\0\0\0\0", 4));
  blob.append("\1", 1);
  blob.append(reinterpret_cast<const char*>(&type), sizeof type);
  blob.append(bytes.substr(kWkbHead + (has_system ? 4 : 0)));
  return blob;
}

// "a = ? AND b = ?" as "a = $1 AND b = $2". No text of ours has a question mark in quotes.
std::string with_numbered_places(const std::string& command) {
  std::string text;
  int number = 0;
  for (const char c : command) {
    text += c == '?' ? "$" + std::to_string(++number) : std::string(1, c);
  }
  return text;
}

std::string first_line(std::string text) {
  while (!text.empty() && (text.back() == '\n' || text.back() == ' ')) text.pop_back();
  const auto end = text.find('\n');
  return end == std::string::npos ? text : text.substr(0, end);
}

// ---- what goes wrong

Error went_away(const std::string& subject) {
  return {
      Code::file_unreadable, subject, "the server went away",
      "check that it runs and that the network holds, then do it again; nothing is half-written"};
}

// By the first letters of SQLSTATE (PostgreSQL, appendix A).
Error sentence_for(std::string_view state, const std::string& subject, const std::string& said) {
  const auto is = [&](std::string_view code) { return state.starts_with(code); };
  if (is("40") || is("55P03"))
    return {Code::project_busy, subject, "somebody else is writing to the project",
            "try again in a moment"};
  if (is("42501"))
    return {Code::file_unwritable, subject,
            "this user may not do that on the server (" + said + ")",
            "ask who keeps the server for the right to it"};
  if (is("25006"))
    return {Code::file_unwritable, subject, "the server only lets read",
            "use the server that takes changes"};
  if (is("53"))
    return {Code::file_unwritable, subject, "the server has no room left (" + said + ")",
            "ask who keeps the server; the project is as it was"};
  if (is("22021") || is("22P05"))
    return {Code::value_invalid, subject, "a text to be stored is not UTF-8",
            "save its source as UTF-8"};
  if (is("22023") || is("XX000") || is("22P02"))
    return {Code::invalid_geometry, subject, "the server refused a value (" + said + ")",
            "correct it at its source"};
  if (is("3F000") || is("42P06"))
    return {Code::file_unwritable, subject, "there is a project of this name already",
            "choose another name"};
  return {Code::format_broken, subject, "the project on the server is damaged (" + said + ")",
          "use the last good copy"};
}

Error not_connected(PGconn* connection, const std::string& subject) {
  const std::string said = first_line(PQerrorMessage(connection));
  if (PQconnectionNeedsPassword(connection) != 0)
    return {Code::file_unreadable, subject, "the server wants a password for this user",
            "put it into PGPASSWORD or ~/.pgpass"};
  const bool answered = said.find("FATAL") != std::string::npos;
  for (const char* words : {"starting up", "shutting down", "recovery mode", "not yet accepting"})
    if (answered && said.find(words) != std::string::npos)
      return {Code::file_unreadable, subject, "the server is just starting or stopping",
              "try again in a moment"};
  if (answered && said.find("database") != std::string::npos &&
      said.find("does not exist") != std::string::npos)
    return {Code::file_not_found, subject, "the server has no database of this name",
            "check the name, or ask who keeps the server to make it"};
  if (answered)
    return {Code::file_unreadable, subject, "the server does not let this user in (" + said + ")",
            "check user and password (pg:USER@HOST/...; PGPASSWORD or ~/.pgpass)"};
  return {Code::file_unreadable, subject, "no server answers there (" + said + ")",
          "check host and port, and that the server runs"};
}

class ServerConnection;

class ServerCommand : public Command {
 public:
  ServerCommand(ServerConnection& connection, const std::string& command)
      : connection_(connection), command_(with_numbered_places(command)) {}

  Outcome put(int place, std::string_view text) override;
  Outcome put(int place, std::int64_t number) override { return keep(place, shortest(number)); }
  Outcome put(int place, double number) override { return keep(place, shortest(number)); }
  Outcome put_bytes(int place, std::string_view bytes) override {
    return keep(place, "\\x" + hex_of(bytes));
  }
  Outcome put_geometry(int place, std::string_view blob) override;
  Outcome put_null(int place) override { return keep(place, std::nullopt); }

  Result<bool> step() override;
  void rest() override {
    answer_.reset();
    values_.clear();
  }
  std::int64_t changed() const override { return changed_; }

  bool null(int column) const override { return PQgetisnull(answer_.get(), row_, column) != 0; }
  std::string text(int column) const override { return std::string(value(column)); }
  std::int64_t integer(int column) const override;
  double number(int column) const override;
  std::string bytes(int column) const override {
    const std::string_view text = value(column);
    return bytes_of_hex(text.substr(std::min<std::size_t>(2, text.size())));
  }
  std::string geometry(int column) const override {
    return blob_of_extended(bytes_of_hex(value(column)));
  }

 private:
  Outcome keep(int place, std::optional<std::string> value) {
    const auto at = static_cast<std::size_t>(place);
    if (values_.size() <= at) values_.resize(at + 1);
    values_[at] = std::move(value);
    return Nothing{};
  }
  std::string_view value(int column) const {
    return {PQgetvalue(answer_.get(), row_, column),
            static_cast<std::size_t>(PQgetlength(answer_.get(), row_, column))};
  }

  ServerConnection& connection_;
  std::string command_;
  std::vector<std::optional<std::string>> values_;
  Answer answer_;
  int row_ = 0;
  std::int64_t changed_ = 0;
};

class ServerConnection : public Connection {
 public:
  explicit ServerConnection(const TeamAddress& address) : address_(address) {}

  // Once; the other ways in wait for a server that starts anew.
  Outcome connect();

  std::unique_ptr<Command> prepare(const std::string& command) override {
    return std::make_unique<ServerCommand>(*this, command);
  }
  Outcome run(const char* commands) override { return sent(commands); }
  Outcome begin() override;
  Outcome begin_reading() override {
    return begin_with("BEGIN ISOLATION LEVEL REPEATABLE READ, READ ONLY");
  }
  Outcome commit() override;
  void roll_back() override {
    if (!std::exchange(inside_, false)) return;
    [[maybe_unused]] const Outcome undone = sent("ROLLBACK");
  }
  bool worth_again() const override { return lost_ || clashed_; }
  bool on_server() const override { return true; }
  bool write_protected() const override { return false; }
  std::string image() const override { return {}; }

  const std::string& subject() const { return address_.subject; }
  Result<Answer> ask(const std::string& command,
                     const std::vector<std::optional<std::string>>& values);

 private:
  Outcome sent(const char* commands);
  Outcome begin_with(const char* command);
  Outcome connect_again();
  Result<Answer> ask_once(const std::string& command,
                          const std::vector<std::optional<std::string>>& values);
  Result<std::string> name_of(const std::string& command);
  Result<Answer> sound(PGresult* result);

  TeamAddress address_;
  Link link_;
  std::map<std::string, std::string> prepared_;  // command and its name on this link
  bool inside_ = false;                          // of a transaction
  bool lost_ = false;
  bool clashed_ = false;  // with somebody else, as the server puts it
};

// ---- the connection

Outcome ServerConnection::connect() {
  std::vector<const char*> keys, values;
  const auto word = [&](const char* key, const char* value) {
    keys.push_back(key);
    values.push_back(value);
  };
  for (const auto& [key, value] : address_.words) word(key.c_str(), value.c_str());
  word("client_encoding", "UTF8");
  word("application_name", "rootstead");
  const auto has = [&](std::string_view key) {
    return std::any_of(address_.words.begin(), address_.words.end(),
                       [&](const auto& one) { return one.first == key; });
  };
  if (!has("connect_timeout")) word("connect_timeout", kConnectSeconds);
  word(nullptr, nullptr);
  prepared_.clear();
  inside_ = false;
  link_.reset(PQconnectdbParams(keys.data(), values.data(), 0));
  if (PQstatus(link_.get()) != CONNECTION_OK) return not_connected(link_.get(), subject());
  PQsetNoticeProcessor(
      link_.get(), [](void*, const char*) {}, nullptr);
  Answer where(PQexec(link_.get(), kWherePostgis));
  if (PQresultStatus(where.get()) != PGRES_TUPLES_OK) return went_away(subject());
  if (PQntuples(where.get()) == 0)
    return Error{Code::format_unknown, subject(), "the database has no PostGIS",
                 "ask who keeps the server to run CREATE EXTENSION postgis in it"};
  const std::string set = session_commands(address_.project, PQgetvalue(where.get(), 0, 0));
  Answer done(PQexec(link_.get(), set.c_str()));
  if (PQresultStatus(done.get()) != PGRES_COMMAND_OK) return went_away(subject());
  lost_ = false;
  return Nothing{};
}

// A server that was killed takes a moment to put its house in order.
Outcome ServerConnection::connect_again() {
  const auto end = std::chrono::steady_clock::now() + kPatience;
  while (true) {
    const Outcome connected = connect();
    if (connected) return connected;
    if (std::chrono::steady_clock::now() > end) {
      lost_ = false;  // enough was waited
      return connected;
    }
    std::this_thread::sleep_for(kBetweenTries);
  }
}

Result<Answer> ServerConnection::sound(PGresult* result) {
  Answer answer(result);
  const auto status = PQresultStatus(result);
  if (status == PGRES_COMMAND_OK || status == PGRES_TUPLES_OK) return answer;
  const char* found = PQresultErrorField(result, PG_DIAG_SQLSTATE);
  const std::string state = found == nullptr ? "" : found;
  // Without a state it is not the server that speaks: the line broke, whatever the link says yet.
  if (state.empty() || state.starts_with("57P") || state.starts_with("08") ||
      PQstatus(link_.get()) != CONNECTION_OK) {
    lost_ = true;
    inside_ = false;
    return went_away(subject());
  }
  clashed_ = state == "40001" || state == "40P01";
  const char* said = PQresultErrorField(result, PG_DIAG_MESSAGE_PRIMARY);
  return sentence_for(state, subject(), said == nullptr ? "no reason given" : first_line(said));
}

Outcome ServerConnection::sent(const char* commands) {
  ROOTSTEAD_CHECK(sound(PQexec(link_.get(), commands)));
  return Nothing{};
}

// Outside a transaction nothing was begun, so that it may be asked again of a server that is back.
Result<Answer> ServerConnection::ask(const std::string& command,
                                     const std::vector<std::optional<std::string>>& values) {
  const bool inside = inside_;
  lost_ = false;
  Result<Answer> answer = ask_once(command, values);
  if (answer || inside || !lost_) return answer;
  ROOTSTEAD_CHECK(connect_again());
  return ask_once(command, values);
}

Result<std::string> ServerConnection::name_of(const std::string& command) {
  if (const auto known = prepared_.find(command); known != prepared_.end()) return known->second;
  std::string name = "c" + std::to_string(prepared_.size());
  ROOTSTEAD_CHECK(sound(PQprepare(link_.get(), name.c_str(), command.c_str(), 0, nullptr)));
  prepared_[command] = name;
  return name;
}

Result<Answer> ServerConnection::ask_once(const std::string& command,
                                          const std::vector<std::optional<std::string>>& values) {
  ROOTSTEAD_TRY(const std::string name, name_of(command));
  std::vector<const char*> texts;
  texts.reserve(values.size());
  for (const auto& value : values) texts.push_back(value ? value->c_str() : nullptr);
  return sound(PQexecPrepared(link_.get(), name.c_str(), static_cast<int>(texts.size()),
                              texts.data(), nullptr, nullptr, 0));
}

Outcome ServerConnection::begin_with(const char* command) {
  lost_ = clashed_ = false;
  Outcome begun = sent(command);
  if (!begun && lost_) {
    ROOTSTEAD_CHECK(connect_again());
    begun = sent(command);
  }
  inside_ = begun.ok();
  return begun;
}

// Whoever writes holds the row of `project_lock` until the end: writers come one after the other,
// and each reads what the one before has sealed. Where the row is not yet, the project is not
// either.
Outcome ServerConnection::begin() {
  ROOTSTEAD_CHECK(begin_with("BEGIN ISOLATION LEVEL READ COMMITTED"));
  Result<Answer> exists =
      ask("SELECT to_regclass(current_schema() || '.project_lock') IS NOT NULL", {});
  if (exists && *PQgetvalue(exists->get(), 0, 0) == 't')
    exists = ask("SELECT one FROM project_lock FOR UPDATE", {});
  if (exists) return Nothing{};
  const bool lost = lost_;
  roll_back();
  lost_ = lost;
  return exists.error();
}

Outcome ServerConnection::commit() {
  lost_ = false;
  const Result<Answer> sealed = sound(PQexec(link_.get(), "COMMIT"));
  inside_ = false;
  if (!sealed) return sealed.error();
  // What had failed before is undone by COMMIT, as the server says in one word.
  if (std::string_view(PQcmdStatus(sealed->get())) == "COMMIT") return Nothing{};
  return Error{Code::format_broken, subject(), "the server did not take the change",
               "try again; nothing was changed"};
}

// ---- the command

Outcome ServerCommand::put(int place, std::string_view text) {
  if (text.find('\0') != std::string_view::npos)
    return Error{Code::value_invalid, connection_.subject(), "a text to be stored has a zero byte",
                 "correct it at its source"};
  return keep(place, std::string(text));
}

Outcome ServerCommand::put_geometry(int place, std::string_view blob) {
  const auto extended = extended_of_blob(blob);
  if (!extended)
    return Error{Code::invalid_geometry, connection_.subject(), "a geometry to be stored is none",
                 "correct it at its source"};
  return keep(place, hex_of(*extended));
}

Result<bool> ServerCommand::step() {
  if (answer_) return ++row_ < PQntuples(answer_.get());
  auto answer = connection_.ask(command_, values_);
  values_.clear();
  if (!answer) return answer.error();
  answer_ = std::move(answer).value();
  row_ = 0;
  changed_ = 0;
  const std::string_view count = PQcmdTuples(answer_.get());
  std::from_chars(count.data(), count.data() + count.size(), changed_);
  return PQntuples(answer_.get()) > 0;
}

std::int64_t ServerCommand::integer(int column) const {
  const std::string_view text = value(column);
  if (text == "t") return 1;
  std::int64_t number = 0;
  std::from_chars(text.data(), text.data() + text.size(), number);
  return number;
}

double ServerCommand::number(int column) const {
  const std::string_view text = value(column);
  double number = 0;
  std::from_chars(text.data(), text.data() + text.size(), number);
  return number;
}

}  // namespace

Result<Database> Database::connect(const TeamAddress& address) {
  auto connection = std::make_unique<ServerConnection>(address);
  ROOTSTEAD_CHECK(connection->connect());
  return Database(std::move(connection), address.subject);
}

}  // namespace rootstead::io
