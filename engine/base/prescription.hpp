// Prescription: one thing that somebody must do, as it is printed in a method statement.
#pragma once

#include <string>
#include <vector>

#include "engine/base/figure.hpp"

namespace rootstead {

struct Prescription {
  std::string topic;            // "root cut", "irrigation", "lifting"; lower case, few in number
  std::string tree;             // id; empty: of the whole site
  std::string work;             // id; empty: of no one work
  std::string text;             // one sentence that says what to do
  std::string reason;           // one sentence that says why; may be empty
  std::vector<Figure> figures;  // the numbers in it, each with its trail
  Citation from;
};

}  // namespace rootstead
