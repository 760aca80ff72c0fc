// A Section reads one TOML table key by key, and reports everything that is wrong with it: a wrong
// type, a missing unit, an unknown word, a key that nobody asked for. Nothing stops at the first
// mistake.
#pragma once

#include <toml++/toml.h>

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/base/result.hpp"
#include "engine/base/units.hpp"

namespace rootstead::io {

// The mistakes of one file, each with its line.
class Mistakes {
 public:
  explicit Mistakes(std::string file) : file_(std::move(file)) {}
  void add(toml::source_index line, std::string message, std::string remedy);
  std::vector<Error> in_line_order() &&;

 private:
  std::string file_;
  std::vector<std::pair<toml::source_index, Error>> found_;
};

class Section {
 public:
  Section(const toml::table& table, Mistakes& mistakes) : table_(table), mistakes_(mistakes) {}

  std::string text(const std::string& key);  // empty where absent
  std::optional<double> number(const std::string& key);
  std::optional<double> share(const std::string& key);  // 0.2 or "20 %"
  std::optional<int> whole_number(const std::string& key);
  std::optional<bool> flag(const std::string& key);
  std::optional<EnteredLength> length(const std::string& key);  // "1.5 m"
  std::vector<std::string> texts(const std::string& key);       // one text or a list of texts
  const toml::table* table(const std::string& key);
  const toml::array* list(const std::string& key);
  std::vector<const toml::table*> tables(const std::string& key);  // [[key]]

  // A word that `read` knows; `known` are all of them, for the message.
  template <class Value>
  std::optional<Value> word(const std::string& key,
                            const std::function<std::optional<Value>(std::string_view)>& read,
                            const std::vector<std::string>& known) {
    const std::string written = text(key);
    if (written.empty()) return std::nullopt;
    const auto value = read(written);
    if (!value) unknown_word(key, written, known);
    return value;
  }
  void unknown_word(const std::string& key, const std::string& written,
                    const std::vector<std::string>& known);

  bool has(const std::string& key) { return take(key) != nullptr; }
  bool was_asked(std::string_view key) const;
  void mistake(const std::string& key, std::string message, std::string remedy);
  void mark(const std::string& key) { reported_.insert(key); }  // as reported, elsewhere
  bool reported(const std::string& key) const { return reported_.contains(key); }
  toml::source_index line_of(std::string_view key) const;  // of the table where there is no key
  void finish();                                           // reports the keys that nobody asked for

 private:
  const toml::node* take(const std::string& key);
  std::optional<EnteredLength> length_of(const std::string& key, const toml::node& node);

  const toml::table& table_;
  Mistakes& mistakes_;
  std::vector<std::string> asked_;
  std::set<std::string> reported_;
};

}  // namespace rootstead::io
