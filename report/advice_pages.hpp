// The chapters of written advice, which follow one another on their pages. Private to the report
// room. Each says nothing, and opens no chapter, where there is nothing to say.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/amount_text.hpp"
#include "report/book.hpp"
#include "report/method_lines.hpp"

namespace rootstead {

// The pages of written advice: a flow that begins with the first chapter that has something to say.
class AdvicePages {
 public:
  explicit AdvicePages(Book& made) : book(made), groups(method_lines(made.plan)) {}

  Book& book;
  const std::vector<MethodGroup> groups;

  const Advice& advice() const { return *book.plan.advice; }
  AmountText amounts() const { return {book.words.units()}; }
  std::string label(const std::string& tree) const;  // its tag, or its id
  std::string labels(const std::vector<std::string>& trees) const;
  std::string lengths(const Range& metres) const;        // "1.00 m to 1.20 m"
  std::string small_lengths(const Range& metres) const;  // "600 mm to 800 mm"
  // A chapter goes on where the one before it ended, if enough of it fits there.
  layout::Flow& open(const std::string& title, const std::string& target);

 private:
  std::optional<layout::Flow> flow_;
};

void add_method_statement(AdvicePages& pages);
void add_ground_advice(AdvicePages& pages);
void add_tree_advice(AdvicePages& pages);
void add_monitoring(AdvicePages& pages);
void add_replacement(AdvicePages& pages);
void add_checklist(AdvicePages& pages);

std::string number_span(const Range& range, int decimals);  // "3 to 8"
std::string note_texts(const std::vector<Note>& notes);     // each once, in one line

}  // namespace rootstead
