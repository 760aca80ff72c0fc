#include "report/advice_pages.hpp"

#include <algorithm>

#include "engine/base/text.hpp"

namespace rootstead {

namespace {

constexpr double kLeastRoom = 75;  // mm for a chapter to begin on a page that is begun
constexpr double kBetween = 9;

std::string span_of(const std::string& low, const std::string& high) {
  return low == high ? low : low + " to " + high;
}

}  // namespace

layout::Flow& AdvicePages::open(const std::string& title, const std::string& target) {
  if (!flow_) {
    flow_.emplace(book.portrait());
  } else if (flow_->room() < kLeastRoom) {
    flow_->new_page();
  } else {
    flow_->space(kBetween);
  }
  book.open_chapter(*flow_, title, target);
  return *flow_;
}

void add_advice(Book& book) {
  if (book.plan.advice == nullptr) return;
  AdvicePages pages(book);
  add_method_statement(pages);
  add_ground_advice(pages);
  add_tree_advice(pages);
  add_monitoring(pages);
  add_replacement(pages);
  add_checklist(pages);
}

std::string AdvicePages::label(const std::string& id) const {
  const Tree* tree = book.site().tree(id);
  return tree == nullptr ? id : tree->label();
}

std::string AdvicePages::labels(const std::vector<std::string>& ids) const {
  std::vector<std::string> all;
  for (const std::string& id : ids) all.push_back(label(id));
  return joined(all, ", ");
}

std::string AdvicePages::lengths(const Range& metres) const {
  return span_of(amounts().length(Length::metres(metres.low)),
                 amounts().length(Length::metres(metres.high)));
}

std::string AdvicePages::small_lengths(const Range& metres) const {
  return span_of(amounts().small_length(Length::metres(metres.low)),
                 amounts().small_length(Length::metres(metres.high)));
}

std::string number_span(const Range& range, int decimals) {
  return span_of(fixed_number(range.low, decimals), fixed_number(range.high, decimals));
}

std::string note_texts(const std::vector<Note>& notes) {
  std::vector<std::string> texts;
  for (const Note& note : notes) {
    const std::string text = sentence_case(note.text);
    if (std::find(texts.begin(), texts.end(), text) == texts.end()) texts.push_back(text);
  }
  return joined(texts, " · ");
}

}  // namespace rootstead
