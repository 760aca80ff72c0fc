#include "report/alike_lines.hpp"

#include <algorithm>
#include <array>
#include <sstream>

namespace rootstead {
namespace {

constexpr std::size_t kMostAlike = 60;   // a row must fit on a page
constexpr std::size_t kMostFigures = 7;  // more of them nobody can tell apart without their words

bool holds_figure(const std::string& word) {
  return std::any_of(word.begin(), word.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::vector<std::string> words_of(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> words;
  for (std::string word; stream >> word;) words.push_back(std::move(word));
  return words;
}

bool same_frame(const std::string& a, const std::string& b) {
  const auto first = words_of(a), second = words_of(b);
  return std::equal(first.begin(), first.end(), second.begin(), second.end(),
                    [](const std::string& x, const std::string& y) {
                      return x == y || (holds_figure(x) && holds_figure(y));
                    });
}

std::size_t differences(const std::string& a, const std::string& b) {
  const auto first = words_of(a), second = words_of(b);
  std::size_t count = 0;
  for (std::size_t i = 0; i < first.size(); ++i) count += first[i] != second[i];
  return count;
}

}  // namespace

bool same_but_for_figures(const Prescription& a, const Prescription& b) {
  return a.from == b.from && same_frame(a.text, b.text) && same_frame(a.reason, b.reason);
}

namespace {

bool are_alike(const MethodLine& a, const MethodLine& b) {
  const Prescription &p = a.prescription, &q = b.prescription;
  return a.trees.empty() == b.trees.empty() && same_but_for_figures(p, q) &&
         differences(p.text, q.text) <= kMostFigures;
}

std::string without_stop(std::string word) {
  while (!word.empty() && std::string_view(",:;.)").find(word.back()) != std::string_view::npos)
    word.pop_back();
  if (word.starts_with('(')) word.erase(0, 1);
  return word;
}

template <std::size_t N>
bool is_one_of(const std::array<std::string_view, N>& known, const std::string& word) {
  return std::find(known.begin(), known.end(), word) != known.end();
}

// A figure with what makes it one: "E 480113.5", "3.42 m".
std::string figure_at(const std::vector<std::string>& words, std::size_t i) {
  constexpr std::array<std::string_view, 2> kBefore{"E", "N"};
  constexpr std::array<std::string_view, 13> kUnits{"m",  "mm", "m²", "ft",     "in",  "ft²", "%",
                                                    "kg", "lb", "L",  "months", "gal", "days"};
  std::string text = without_stop(words[i]);
  if (i > 0 && is_one_of(kBefore, words[i - 1])) text = words[i - 1] + " " + text;
  if (i + 1 < words.size() && is_one_of(kUnits, without_stop(words[i + 1])))
    text += " " + without_stop(words[i + 1]);
  return text;
}

// Of each text the figures at places where any two of them differ.
std::vector<std::vector<std::string>> what_differs(const std::vector<std::string>& texts) {
  std::vector<std::vector<std::string>> words;
  for (const std::string& text : texts) words.push_back(words_of(text));
  std::vector<std::vector<std::string>> figures(texts.size());
  for (std::size_t i = 0; i < words.front().size(); ++i) {
    const bool differs = std::any_of(words.begin(), words.end(),
                                     [&](const auto& w) { return w[i] != words.front()[i]; });
    if (!differs) continue;
    for (std::size_t k = 0; k < words.size(); ++k) figures[k].push_back(figure_at(words[k], i));
  }
  return figures;
}

void say_what_differs(MethodLine& line) {
  if (line.alike.empty()) return;
  std::vector<std::string> texts{line.prescription.text}, reasons{line.prescription.reason};
  for (const AlikeLine& one : line.alike) {
    texts.push_back(one.prescription.text);
    reasons.push_back(one.prescription.reason);
  }
  const auto in_text = what_differs(texts), in_reason = what_differs(reasons);
  line.figures = in_text[0];
  line.reason_figures = in_reason[0];
  for (std::size_t i = 0; i < line.alike.size(); ++i) {
    line.alike[i].figures = in_text[i + 1];
    line.alike[i].reason_figures = in_reason[i + 1];
  }
}

}  // namespace

void fold_alike(std::vector<MethodLine>& lines) {
  std::vector<MethodLine> folded;
  for (MethodLine& line : lines) {
    const auto first = std::find_if(folded.begin(), folded.end(), [&](const MethodLine& one) {
      return one.alike.size() < kMostAlike && are_alike(one, line);
    });
    if (first == folded.end()) {
      folded.push_back(std::move(line));
    } else {
      first->alike.push_back({std::move(line.trees), std::move(line.prescription), {}, {}});
    }
  }
  for (MethodLine& line : folded) say_what_differs(line);
  lines = std::move(folded);
}

}  // namespace rootstead
