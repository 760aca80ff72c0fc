// The choices a person makes about a project on the command line: title block, rules, soil, wind,
// climate, and what is advised by.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "engine/rootstead.hpp"

namespace rootstead::cli {

struct Choice {
  std::string key;    // "soil.rooting_depth"
  std::string takes;  // what may be given: "a depth, such as 0.6m"
  std::function<std::string(const Site&)> value;
  // Sets the value, or says that it is none of `takes`. An empty text takes the choice away.
  std::function<bool(Site&, const std::string&, const Tables&)> set;
  // What there is to choose from, where that is a table's to say; may be empty.
  std::function<std::vector<std::string>(const Tables&)> known = {};
};

// In the order in which they are listed.
const std::vector<Choice>& choices();

// Sets what "KEY=VALUE" says. Fails with wrong_use, unknown_name or value_invalid, naming what may
// be given.
Result<const Choice*> choose(const std::string& text, Site& site, const Tables& tables);

// Do the choices fit each other? To be asked when all of one command are made, because their order
// does not matter. Fails with value_invalid.
Outcome choices_fit(const Site& site);

}  // namespace rootstead::cli
