#include "engine/transplant/trail.hpp"

#include <algorithm>

#include "engine/base/text.hpp"

namespace rootstead {

Trail::Trail(std::string name, std::string unit) {
  figure_.name = std::move(name);
  figure_.unit = std::move(unit);
}

Trail& Trail::formula(std::string text) {
  figure_.formula = std::move(text);
  return *this;
}

Trail& Trail::given(std::string symbol, std::string meaning, std::string value) {
  figure_.inputs.push_back({std::move(symbol), std::move(meaning), std::move(value)});
  return *this;
}

Trail& Trail::length(std::string symbol, std::string meaning, Length value) {
  return given(std::move(symbol), std::move(meaning), fixed_number(value.millimetres(), 0) + " mm");
}

Trail& Trail::by(const Parameter& parameter, std::string symbol) {
  figure_.inputs.push_back(input_from(parameter, std::move(symbol)));
  return by(parameter.from);
}

Trail& Trail::by(const Citation& from) {
  if (!cited_ || from.status > figure_.from.status) figure_.from = from;
  cited_ = true;
  return *this;
}

Figure Trail::is(double value) {
  figure_.value = value;
  return figure_;
}

Figure Trail::is(const Range& range) {
  if (range.low < range.high) figure_.range = range;
  return is(range.best);
}

namespace {

std::string key_of(std::string_view text) {
  std::string key = lower_case(trimmed(text));
  std::replace(key.begin(), key.end(), ' ', '-');
  return key;
}

// "Quercus robur L." -> "quercus-robur"
std::string taxon_key(std::string_view botanical_name) {
  std::vector<std::string> words;
  for (const std::string& word : split(trimmed(botanical_name), ' '))
    if (!word.empty() && words.size() < 2) words.push_back(word);
  return key_of(joined(words, " "));
}

}  // namespace

const Parameter* taxon_row(const Tables& tables, std::string_view start,
                           std::string_view botanical_name) {
  const std::string taxon = taxon_key(botanical_name);
  if (taxon.empty()) return nullptr;
  for (const std::string& key : {taxon, taxon.substr(0, taxon.find('-'))}) {
    const std::string id = std::string(start) + "." + key;
    for (const Parameter& parameter : tables.parameters)
      if (parameter.id == id) return &parameter;
  }
  return nullptr;
}

}  // namespace rootstead
