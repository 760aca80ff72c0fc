#include "engine/revisions/record.hpp"

#include "engine/base/text.hpp"

namespace rootstead {

bool claims_final(const std::string& status) {
  const std::string word = lower_case(trimmed(status));
  return word == "final" || word.starts_with("final ");
}

std::string name_of(const PlanReviewed& plan) {
  const bool titled = !plan.title.empty() && plan.title != plan.file;
  std::string name = titled ? plan.title + " (" + plan.file + ")" : plan.file;
  if (!plan.revision.empty()) name += ", revision " + plan.revision;
  return name;
}

Outcome may_be_final(const std::vector<PlanReviewed>& plans, std::int64_t assessed) {
  if (assessed == 0)
    return Error{Code::wrong_use, "the status final", "the project was never assessed",
                 "assess it first: rootstead assess FILE"};
  const PlanReviewed* newest = nullptr;
  for (const PlanReviewed& plan : plans) {
    if (plan.entry > assessed && (newest == nullptr || plan.entry > newest->entry)) newest = &plan;
  }
  if (newest == nullptr) return Nothing{};
  return Error{Code::wrong_use, "the status final",
               "plan " + std::to_string(newest->number) + ", " + name_of(*newest) +
                   ", was loaded after the last assessment",
               "assess it first: rootstead assess FILE"};
}

}  // namespace rootstead
