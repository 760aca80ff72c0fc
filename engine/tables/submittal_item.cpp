#include "engine/tables/submittal_item.hpp"

#include "engine/base/words.hpp"

namespace rootstead {
namespace {

using Answered = SubmittalItem::Answered;
constexpr Words<Answered, 3> kAnswers{{
    {Answered::from_data, "data"},
    {Answered::from_output, "output"},
    {Answered::by_you, "you"},
}};

}  // namespace

std::string_view to_text(SubmittalItem::Answered answered) {
  return word_for(kAnswers, answered);
}
std::optional<SubmittalItem::Answered> submittal_answer_from(std::string_view text) {
  return value_for(kAnswers, text);
}

}  // namespace rootstead
