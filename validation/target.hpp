// One published observation beside what the program says: a line of docs/validation.md.
#pragma once

#include <string>
#include <vector>

#include "engine/base/source.hpp"

namespace rootstead::validation {

struct Target {
  std::string id;                     // "T12", "V3"
  std::string observation;            // in words, with its unit
  std::string source;                 // id in sources.csv
  Status status = Status::published;  // of the observation
  std::string published;              // as published: "54.5, 39, 32.3, 25, 18.8"
  std::string model;                  // what the program says, computed now
  std::string tolerance;              // in words: "each within 30 %"
  bool hit = false;
  bool calibrated = false;  // was the model shaped on it?
  std::string remark;       // a miss is explained; an assumption is named
};

struct Plot {
  std::string file;  // "depth.svg"
  std::string title;
  std::string svg;
};

struct Findings {
  std::vector<Target> targets;
  std::vector<Plot> plots;
};

// Each area adds its own in a file of its own: roots.cpp, thick_roots.cpp, palms.cpp, anchorage.cpp
// ...
Findings root_findings();
Findings thick_root_findings();
Findings anchorage_findings();

}  // namespace rootstead::validation
