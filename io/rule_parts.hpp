// Parts that every file of rules has: where it comes from, and which trees it is for. Private to
// io.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/source.hpp"
#include "engine/tables/zone_rule.hpp"
#include "io/toml_section.hpp"

namespace rootstead::io {

// The words of an enum in order, read off its own to_text.
template <class Enum>
std::vector<std::string> words_of(std::initializer_list<Enum> values) {
  std::vector<std::string> words;
  for (const Enum value : values) words.emplace_back(to_text(value));
  return words;
}

// One word or a list of words, each read by `value_of`; `known` are all of them, for the message.
template <class Value>
std::vector<Value> read_words(Section& section, const std::string& key,
                              std::optional<Value> (*value_of)(std::string_view),
                              const std::vector<std::string>& known) {
  std::vector<Value> values;
  for (const std::string& written : section.texts(key)) {
    const auto value = value_of(written);
    if (value) values.push_back(*value);
    if (!value) section.unknown_word(key, written, known);
  }
  return values;
}

std::vector<std::string> stem_conventions();

std::optional<Status> read_status(Section& section, const std::string& key);

// One of the [[sources]] of a rule's own file.
Source read_rule_source(const toml::table& table, Mistakes& mistakes);

// Source, place and status of the whole rule, which must be there.
Citation read_head_citation(Section& head, const std::vector<Source>& own_sources);

// The same of a part; what it does not say, it takes from the head.
Citation read_citation(Section& section, const Citation& head,
                       const std::vector<Source>& own_sources);

// Which trees a part of a rule is for.
Applies read_applies(const toml::table& table, Mistakes& mistakes);

}  // namespace rootstead::io
