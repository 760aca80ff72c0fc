#include "io/toml_section.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/nearest.hpp"
#include "engine/base/text.hpp"

namespace rootstead::io {

void Mistakes::add(toml::source_index line, std::string message, std::string remedy) {
  found_.emplace_back(line, Error{Code::rule_invalid, file_ + " line " + std::to_string(line),
                                  std::move(message), std::move(remedy)});
}

std::vector<Error> Mistakes::in_line_order() && {
  std::stable_sort(found_.begin(), found_.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<Error> errors;
  for (auto& [line, error] : found_) errors.push_back(std::move(error));
  return errors;
}

const toml::node* Section::take(const std::string& key) {
  asked_.push_back(key);
  return table_.get(key);
}

bool Section::was_asked(std::string_view key) const {
  return std::find(asked_.begin(), asked_.end(), key) != asked_.end();
}

toml::source_index Section::line_of(std::string_view key) const {
  const toml::node* node = table_.get(key);
  const auto line = node != nullptr ? node->source().begin.line : 0;
  return line != 0 ? line : table_.source().begin.line;
}

void Section::mistake(const std::string& key, std::string message, std::string remedy) {
  reported_.insert(key);
  mistakes_.add(line_of(key), std::move(message), std::move(remedy));
}

std::string Section::text(const std::string& key) {
  const toml::node* node = take(key);
  if (node == nullptr) return {};
  if (const auto value = node->value_exact<std::string>()) return std::string(trimmed(*value));
  mistake(key, key + " is not a text", "put it in quotes, e.g. " + key + " = \"...\"");
  return {};
}

std::optional<double> Section::number(const std::string& key) {
  const toml::node* node = take(key);
  if (node == nullptr) return std::nullopt;
  const auto value = node->is_number() ? node->value<double>() : std::nullopt;
  if (value && std::isfinite(*value)) return value;
  mistake(key, key + " is not a number", "write it as a bare number, e.g. " + key + " = 12");
  return std::nullopt;
}

std::optional<double> Section::share(const std::string& key) {
  const toml::node* node = take(key);
  if (node == nullptr) return std::nullopt;
  if (node->is_number()) return node->value<double>();
  const auto written = node->value_exact<std::string>().value_or("");
  const auto percentage = leading_number(written);
  if (percentage && trimmed(percentage->rest) == "%") return percentage->value / 100;
  mistake(key, key + " is not a share", "write e.g. 0.2 or \"20 %\"");
  return std::nullopt;
}

std::optional<int> Section::whole_number(const std::string& key) {
  const toml::node* node = take(key);
  if (node == nullptr) return std::nullopt;
  if (const auto value = node->value_exact<std::int64_t>()) return static_cast<int>(*value);
  mistake(key, key + " is not a whole number", "write it without a point, e.g. " + key + " = 5");
  return std::nullopt;
}

std::optional<bool> Section::flag(const std::string& key) {
  const toml::node* node = take(key);
  if (node == nullptr) return std::nullopt;
  if (const auto value = node->value_exact<bool>()) return value;
  mistake(key, key + " is neither true nor false", "write " + key + " = true or false");
  return std::nullopt;
}

std::optional<EnteredLength> Section::length(const std::string& key) {
  const toml::node* node = take(key);
  if (node == nullptr) return std::nullopt;
  const auto written = node->value_exact<std::string>();
  if (node->is_number() || (written && number_from(*written))) {
    mistake(key, key + " has no unit",
            "write it as text with its unit, e.g. \"1.5 m\" or \"8 ft\"");
    return std::nullopt;
  }
  const auto entered = written ? entered_length_from(*written) : std::nullopt;
  if (!entered) mistake(key, key + " is no length", "write e.g. \"1.5 m\", \"300 mm\" or \"8 ft\"");
  return entered;
}

std::vector<std::string> Section::texts(const std::string& key) {
  const toml::node* node = take(key);
  if (node == nullptr) return {};
  if (const auto one = node->value_exact<std::string>()) return {*one};
  std::vector<std::string> all;
  if (const toml::array* array = node->as_array()) {
    for (const toml::node& element : *array) {
      if (const auto value = element.value_exact<std::string>()) all.push_back(*value);
    }
    if (all.size() == array->size()) return all;
  }
  mistake(key, key + " is not a list of texts", "write e.g. " + key + " = [\"one\", \"two\"]");
  return {};
}

const toml::table* Section::table(const std::string& key) {
  const toml::node* node = take(key);
  if (node == nullptr) return nullptr;
  if (node->is_table()) return node->as_table();
  mistake(key, key + " is not a table", "write it in braces, e.g. " + key + " = { ... }");
  return nullptr;
}

const toml::array* Section::list(const std::string& key) {
  const toml::node* node = take(key);
  if (node == nullptr) return nullptr;
  if (node->is_array()) return node->as_array();
  mistake(key, key + " is not a list", "write it in brackets, e.g. " + key + " = [ ... ]");
  return nullptr;
}

std::vector<const toml::table*> Section::tables(const std::string& key) {
  const toml::node* node = take(key);
  if (node == nullptr) return {};
  std::vector<const toml::table*> all;
  if (const toml::array* array = node->as_array()) {
    for (const toml::node& element : *array) {
      if (element.is_table()) all.push_back(element.as_table());
    }
    if (all.size() == array->size()) return all;
  }
  mistake(key, key + " is not a list of tables", "begin each with a line [[" + key + "]]");
  return {};
}

void Section::unknown_word(const std::string& key, const std::string& written,
                           const std::vector<std::string>& known) {
  mistake(key, "\"" + written + "\" is not known as " + key, suggestion(written, known));
}

void Section::finish() {
  for (const auto& [key, node] : table_) {
    const std::string name(key.str());
    if (was_asked(name)) continue;
    mistakes_.add(key.source().begin.line, "the key \"" + name + "\" is not known here",
                  suggestion(name, asked_));
  }
}

}  // namespace rootstead::io
