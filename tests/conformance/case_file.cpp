#include "tests/conformance/case_file.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <optional>

#include "engine/base/text.hpp"

namespace rootstead::conformance {
namespace {

using Fields = std::vector<std::pair<std::string, std::string>>;

struct Block {
  std::size_t line = 0;
  Fields fields;
};

// "9.00": half of the last digit, 0.005.
double half_of_last_digit(const std::string& number) {
  const auto point = number.find('.');
  const auto decimals = point == std::string::npos ? 0 : number.size() - point - 1;
  return 0.5 * std::pow(10.0, -static_cast<double>(decimals));
}

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  for (const std::string& word : split(text, ' ')) {
    if (!trimmed(word).empty()) words.emplace_back(trimmed(word));
  }
  return words;
}

// "radius 3.60 m" or "area 254 m2 within 1".
std::optional<Expectation> expectation_from(const std::string& text) {
  const auto words = words_of(text);
  if (words.size() < 2) return std::nullopt;
  const auto value = number_from(words[1]);
  if (!value) return std::nullopt;
  Expectation expectation{words[0], *value, "", half_of_last_digit(words[1])};
  std::size_t next = 2;
  if (next < words.size() && words[next] != "within") expectation.unit = words[next++];
  if (next == words.size()) return expectation;
  if (words[next] != "within" || next + 2 != words.size()) return std::nullopt;
  const auto tolerance = number_from(words[next + 1]);
  if (!tolerance || *tolerance <= 0) return std::nullopt;
  expectation.tolerance = *tolerance;
  return expectation;
}

class Reader {
 public:
  Reader(std::string standard, std::string name)
      : standard_(std::move(standard)), name_(std::move(name)) {}

  CaseFile read(std::istream& in) {
    Block block;
    std::string line;
    for (std::size_t number = 1; std::getline(in, line); ++number) {
      const std::string text(trimmed(line));
      if (text.starts_with('#')) continue;
      if (text.empty()) {
        finish(block);
        block = {};
        continue;
      }
      if (block.fields.empty()) block.line = number;
      const auto colon = text.find(':');
      if (colon == std::string::npos)
        mistake(number, "a line without a colon: " + text);
      else
        block.fields.emplace_back(trimmed(text.substr(0, colon)), trimmed(text.substr(colon + 1)));
    }
    finish(block);
    return std::move(file_);
  }

 private:
  std::string place(std::size_t line) const {
    return standard_ + "/" + name_ + " line " + std::to_string(line);
  }
  void mistake(std::size_t line, const std::string& text) {
    file_.mistakes.push_back(place(line) + ": " + text);
  }

  // A block with rows is one case for each row: $1, $2 ... stand for its cells.
  void finish(const Block& block) {
    if (block.fields.empty()) return;
    Fields shared;
    std::vector<std::pair<std::string, std::string>> rows;  // cells, reason of exclusion
    for (const auto& [key, text] : block.fields) {
      if (key == "row") {
        rows.emplace_back(text, "");
      } else if (key == "excluded row") {
        const auto because = text.find(" because ");
        if (because == std::string::npos)
          mistake(block.line, "an excluded row must say because ...");
        else
          rows.emplace_back(text.substr(0, because), text.substr(because + 9));
      } else {
        shared.emplace_back(key, text);
      }
    }
    if (rows.empty()) return add(block.line, shared, "");
    for (const auto& [cells, reason] : rows) {
      Fields filled = shared;
      for (auto& [key, text] : filled) text = with_cells(text, words_of(cells));
      add(block.line, filled, reason);
    }
  }

  static std::string with_cells(std::string text, const std::vector<std::string>& cells) {
    for (std::size_t i = cells.size(); i > 0; --i) {
      const std::string mark = "$" + std::to_string(i);
      for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark)) {
        text.replace(at, mark.size(), cells[i - 1]);
      }
    }
    return text;
  }

  void add(std::size_t line, const Fields& fields, const std::string& excluded) {
    Case one;
    one.standard = standard_;
    one.place = place(line);
    one.excluded = excluded;
    for (const auto& [key, text] : fields) {
      if (!take(one, key, text))
        mistake(line, "the line \"" + key + ": " + text + "\" is not understood");
    }
    check(one, line);
    file_.cases.push_back(std::move(one));
  }

  static bool take(Case& one, const std::string& key, const std::string& text) {
    const std::map<std::string, std::string*> texts{
        {"case", &one.name},        {"figure", &one.figure},   {"rule", &one.rule},
        {"tree", &one.tree},        {"barrier", &one.barrier}, {"fails", &one.fails},
        {"source", &one.source},    {"status", &one.status},   {"value", &one.value},
        {"excluded", &one.excluded}};
    if (const auto found = texts.find(key); found != texts.end()) {
      *found->second = text;
      return !text.empty();
    }
    if (key == "work") {
      one.works.push_back(text);
      return true;
    }
    if (key == "limits passed") {
      one.tells_limits = true;
      if (text != "none") one.limits = words_of(text);
      return true;
    }
    if (key != "expect") return false;
    const auto expectation = expectation_from(text);
    if (expectation) one.expected.push_back(*expectation);
    return expectation.has_value();
  }

  void check(const Case& one, std::size_t line) {
    if (one.name.empty()) mistake(line, "the case has no name");
    if (one.figure.empty() && (one.rule.empty() || one.tree.empty())) {
      mistake(line, "a case needs a figure, or a rule and a tree");
    }
    if (one.expected.empty() && one.fails.empty() && !one.tells_limits) {
      mistake(line, "the case expects nothing");
    }
    if (one.source.empty()) mistake(line, "the case has no source");
    if (one.status.empty()) mistake(line, "the case has no status");
    if (one.value != "printed" && one.value != "computed") {
      mistake(line, "value must be printed or computed");
    }
  }

  std::string standard_, name_;
  CaseFile file_;
};

}  // namespace

CaseFile read_case_file(const std::filesystem::path& file) {
  std::ifstream in(file);
  return Reader(file.parent_path().filename().string(), file.filename().string()).read(in);
}

CaseFile read_case_files(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> files;
  if (std::filesystem::exists(folder)) {
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
      if (entry.path().extension() == ".case") files.push_back(entry.path());
    }
  }
  std::sort(files.begin(), files.end());
  CaseFile all;
  for (const auto& file : files) {
    CaseFile one = read_case_file(file);
    all.cases.insert(all.cases.end(), one.cases.begin(), one.cases.end());
    all.mistakes.insert(all.mistakes.end(), one.mistakes.begin(), one.mistakes.end());
  }
  return all;
}

std::vector<std::pair<std::string, std::string>> arguments_of(const std::string& text) {
  std::vector<std::pair<std::string, std::string>> arguments;
  for (const std::string& word : words_of(text)) {
    const auto equals = word.find('=');
    // Blanks inside a value are written as underscores: species=Sabal_palmetto.
    std::string value = equals == std::string::npos ? "" : word.substr(equals + 1);
    std::replace(value.begin(), value.end(), '_', ' ');
    arguments.emplace_back(word.substr(0, equals), value);
  }
  return arguments;
}

}  // namespace rootstead::conformance
