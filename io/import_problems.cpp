#include "io/import_problems.hpp"

namespace rootstead::io {

std::string on_one_line(std::string text) {
  for (char& c : text) {
    if (c == '\n' || c == '\r' || c == '\t') c = ' ';
  }
  return text;
}

void ProblemLog::add_repeated(NoteCode code, const std::string& place, const std::string& message,
                              const std::string& remedy) {
  Repeated& repeated = repeated_[{code, message}];
  if (repeated.count++ == 0) {
    repeated.first_place = place;
    repeated.remedy = remedy;
  }
}

std::vector<Problem> ProblemLog::take() {
  for (const auto& [key, repeated] : repeated_) {
    std::string message = key.second;
    if (repeated.count > 1)
      message += " (here and " + std::to_string(repeated.count - 1) + " times more)";
    add(key.first, repeated.first_place, message, repeated.remedy);
  }
  repeated_.clear();
  return std::exchange(problems_, {});
}

}  // namespace rootstead::io
