#include "cli/revision_commands.hpp"

#include <algorithm>

#include "engine/base/text.hpp"

namespace rootstead::cli {
namespace {

bool is_number(const std::string& word) {
  return !word.empty() && word.size() < 10 &&
         word.find_first_not_of("0123456789") == std::string::npos;
}

}  // namespace

issue::Maker this_program(issue::Progress progress) {
  return {ROOTSTEAD_VERSION, std::move(progress)};
}

Result<Told> told_in(const std::vector<std::string>& words, const std::vector<std::string>& keys) {
  Told told;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i == 0 && is_number(words[i])) {
      told.number = std::stoll(words[i]);
      continue;
    }
    const auto equals = words[i].find('=');
    const std::string key(trimmed(words[i].substr(0, equals)));
    const bool known = std::find(keys.begin(), keys.end(), key) != keys.end();
    if (equals == std::string::npos || !known)
      return Error{Code::wrong_use, words[i], "this is no KEY=VALUE that is known here",
                   "give one of " + joined(keys, ", ") + ", such as " + keys.front() + "=..."};
    told.pairs.emplace_back(key, trimmed(words[i].substr(equals + 1)));
  }
  return told;
}

}  // namespace rootstead::cli
