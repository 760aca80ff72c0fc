// SubmittalItem: one thing that authorities ask for in what is submitted to them; a row of
// data/submittal.csv. engine/submittal says of a site whether it is there.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/source.hpp"

namespace rootstead {

struct SubmittalItem {
  std::string id;     // "A4"
  std::string group;  // "tree schedule"
  std::string item;   // "stem diameter with the height at which it was measured"
  // How it is answered: decided from the data, by an output that was made, or by a person.
  enum class Answered { from_data, from_output, by_you };
  Answered answered = Answered::by_you;
  std::string check;                 // from_data: name of the check in engine/submittal
  std::string output;                // from_output: "protection plan"; from_data: where it is shown
  std::vector<std::string> sources;  // ids of data/sources.csv
  Status status = Status::published;
};

std::string_view to_text(SubmittalItem::Answered answered);  // "data", "output", "you"
std::optional<SubmittalItem::Answered> submittal_answer_from(std::string_view text);

}  // namespace rootstead
