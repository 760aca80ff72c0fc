#include "io/team_address.hpp"

#include <algorithm>
#include <array>

#include "engine/base/text.hpp"

namespace rootstead::io {
namespace {

constexpr std::string_view kMark = "pg:";
constexpr const char* kForm =
    "write pg:HOST/DATABASE/PROJECT, pg:USER@HOST:PORT/DATABASE/PROJECT or "
    "\"pg:host=... dbname=... project=...\"";
constexpr std::size_t kLongestName = 63;  // of PostgreSQL, bytes

constexpr std::array<std::string_view, 13> kWords{
    "host",    "hostaddr", "port",        "dbname",          "user",    "project", "sslmode",
    "sslcert", "sslkey",   "sslrootcert", "connect_timeout", "service", "passfile"};

// Never repeats the text: somebody may have written a password into it.
Error malformed(const std::string& what, const std::string& remedy = kForm) {
  return {Code::wrong_use, "the pg: address", what, remedy};
}

bool is_small_letter(char c) {
  return c >= 'a' && c <= 'z';
}

// Letters that need no quoting anywhere, so that a name is the same in every tool.
Outcome check_project(const std::string& name) {
  const bool fine = !name.empty() && name.size() <= kLongestName && is_small_letter(name.front()) &&
                    std::all_of(name.begin(), name.end(), [](char c) {
                      return is_small_letter(c) || (c >= '0' && c <= '9') || c == '_';
                    });
  const bool taken = name == "public" || name == "information_schema" || name.starts_with("pg_");
  if (fine && !taken) return Nothing{};
  return malformed(name.empty() ? "it names no project"
                                : "\"" + name + "\" cannot be the name of a project on a server",
                   name.empty() ? std::string(kForm)
                                : "take small letters, digits and _, beginning with a letter (not "
                                  "public, not pg_...)");
}

std::string value_of(const TeamAddress& address, std::string_view key) {
  for (const auto& [word, value] : address.words)
    if (word == key) return value;
  return "";
}

Result<TeamAddress> finished(TeamAddress address) {
  ROOTSTEAD_CHECK(check_project(address.project));
  const std::string host = value_of(address, "host"), port = value_of(address, "port");
  const std::string database = value_of(address, "dbname");
  address.subject = std::string(kMark) + (host.empty() ? "localhost" : host) +
                    (port.empty() ? "" : ":" + port) + "/" + (database.empty() ? "-" : database) +
                    "/" + address.project;
  return address;
}

// Key words as libpq writes them: key=value or key='value with spaces'.
Result<TeamAddress> from_words(std::string_view text) {
  TeamAddress address;
  while (!(text = trimmed(text)).empty()) {
    const auto equals = text.find('=');
    if (equals == std::string_view::npos) return malformed("a key word has no value");
    const std::string key(trimmed(text.substr(0, equals)));
    text.remove_prefix(equals + 1);
    const bool quoted = text.starts_with('\'');
    if (quoted) text.remove_prefix(1);
    const auto end = text.find(quoted ? '\'' : ' ');
    if (quoted && end == std::string_view::npos) return malformed("a quote is not closed");
    const std::string value(text.substr(0, end));
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    if (key == "password")
      return malformed("an address takes no password", "put it into PGPASSWORD or ~/.pgpass");
    if (std::find(kWords.begin(), kWords.end(), key) == kWords.end())
      return malformed("it has a key word that is not known",
                       "take some of " + joined({kWords.begin(), kWords.end()}, ", "));
    key == "project" ? void(address.project = value) : void(address.words.push_back({key, value}));
  }
  return finished(std::move(address));
}

bool is_port(std::string_view text) {
  return !text.empty() && text.size() <= 5 &&
         std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

// [USER@]HOST[:PORT]; a host of colons stands in brackets.
Outcome read_server(std::string_view text, TeamAddress& address) {
  if (const auto at = text.rfind('@'); at != std::string_view::npos) {
    const std::string_view user = text.substr(0, at);
    if (user.find(':') != std::string_view::npos)
      return malformed("an address takes no password", "put it into PGPASSWORD or ~/.pgpass");
    address.words.push_back({"user", std::string(user)});
    text.remove_prefix(at + 1);
  }
  std::string_view host = text, port;
  const auto bracket = text.starts_with('[') ? text.find(']') : std::string_view::npos;
  const auto colon = text.find(':', bracket == std::string_view::npos ? 0 : bracket);
  if (colon != std::string_view::npos) {
    host = text.substr(0, colon);
    port = text.substr(colon + 1);
    if (!is_port(port)) return malformed("its port is not a number");
  }
  if (bracket != std::string_view::npos) host = text.substr(1, bracket - 1);
  if (host.empty()) return malformed("it names no host");
  address.words.push_back({"host", std::string(host)});
  if (!port.empty()) address.words.push_back({"port", std::string(port)});
  return Nothing{};
}

Result<TeamAddress> from_path(const std::string& text) {
  const auto parts = split(text, '/');
  if (parts.size() != 3) return malformed("it does not have the three parts of an address");
  TeamAddress address;
  ROOTSTEAD_CHECK(read_server(parts[0], address));
  if (parts[1].empty()) return malformed("it names no database");
  address.words.push_back({"dbname", std::string(parts[1])});
  address.project = parts[2];
  return finished(std::move(address));
}

}  // namespace

bool is_team_address(std::string_view text) {
  return text.starts_with(kMark);
}

Result<TeamAddress> team_address(const std::string& text) {
  const std::string rest = text.substr(std::min(kMark.size(), text.size()));
  const bool words = rest.find('=') != std::string::npos;
  return words ? from_words(rest) : from_path(rest);
}

}  // namespace rootstead::io
