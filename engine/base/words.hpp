// Words: the one list that turns an enum into words and back, so that both ways always agree.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/text.hpp"

namespace rootstead {

template <class Enum>
struct Word {
  Enum value;
  std::string_view text;
};

template <class Enum, std::size_t n>
using Words = std::array<Word<Enum>, n>;

// Requires: every value of the enum is in the list.
template <class Enum, std::size_t n>
constexpr std::string_view word_for(const Words<Enum, n>& words, Enum value) {
  for (const auto& word : words) {
    if (word.value == value) return word.text;
  }
  return words.front().text;
}

// Upper and lower case are alike; a hyphen or underscore reads as a blank.
template <class Enum, std::size_t n>
std::optional<Enum> value_for(const Words<Enum, n>& words, std::string_view text) {
  const auto plain = [](std::string_view raw) {
    std::string lower = lower_case(trimmed(raw));
    for (char& c : lower) {
      if (c == '-' || c == '_') c = ' ';
    }
    return lower;
  };
  const std::string wanted = plain(text);
  for (const auto& word : words) {
    if (plain(word.text) == wanted) return word.value;
  }
  return std::nullopt;
}

}  // namespace rootstead
