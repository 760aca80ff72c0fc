#include "engine/submittal/submittal.hpp"

#include "engine/base/words.hpp"
#include "engine/submittal/checks.hpp"

namespace rootstead {
namespace {

using State = SubmittalState;

constexpr Words<State, 4> kStates{{
    {State::present, "present"},
    {State::not_applicable, "does not apply"},
    {State::missing, "missing"},
    {State::yours, "to be answered by you"},
}};

// What stands in the data still has to be in an output of this submittal.
CheckAnswer by_output(const std::string& output, const std::set<std::string>& made,
                      const CheckAnswer& data) {
  const std::string before = data.text.empty() ? "" : data.text + " ";
  if (made.contains(output)) return {State::present, before + "In the " + output + ".", {}};
  return {State::missing, before + "Make the " + output + ".", {}};
}

CheckAnswer by_data(const SubmittalItem& item, const SubmittalData& data,
                    const std::set<std::string>& made) {
  const SubmittalCheck check = submittal_check(item.check);
  if (check == nullptr)
    return {State::yours, "This program has no check \"" + item.check + "\": look yourself.", {}};
  CheckAnswer answer = check(data);
  const bool only_applies = answer.state == State::yours && answer.text.empty();
  if (answer.state != State::present && !only_applies) return answer;
  if (!item.output.empty()) return by_output(item.output, made, answer);
  if (only_applies) answer.text = "It applies here; the answer is yours.";
  return answer;
}

CheckAnswer answer_to(const SubmittalItem& item, const SubmittalData& data,
                      const std::set<std::string>& made) {
  switch (item.answered) {
    case SubmittalItem::Answered::from_data:
      return by_data(item, data, made);
    case SubmittalItem::Answered::from_output:
      return by_output(item.output, made, {});
    case SubmittalItem::Answered::by_you:
      break;
  }
  return {State::yours, "Nothing in the project answers this.", {}};
}

}  // namespace

std::string_view to_text(SubmittalState state) {
  return word_for(kStates, state);
}

std::vector<SubmittalLine> submittal_checklist(const Site& site, const Tables& tables,
                                               const Assessment& assessment,
                                               const std::set<std::string>& made) {
  std::vector<SubmittalLine> lines;
  for (const SubmittalItem& item : tables.submittal_items) {
    CheckAnswer answer = answer_to(item, {site, assessment}, made);
    lines.push_back({item.id, item.group, item.item, answer.state, std::move(answer.text),
                     std::move(answer.subjects), item.sources, item.status});
  }
  return lines;
}

std::vector<std::string> submittal_outputs(const Tables& tables) {
  std::set<std::string> names;
  for (const SubmittalItem& item : tables.submittal_items)
    if (!item.output.empty()) names.insert(item.output);
  return {names.begin(), names.end()};
}

}  // namespace rootstead
