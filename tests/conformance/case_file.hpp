// A conformance case: one published value, as an arborist writes it down. README.md in this folder
// describes the text.
#pragma once

#include <filesystem>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

namespace rootstead::conformance {

struct Expectation {
  std::string name;      // "radius", "tree-protection-zone.area", "share"
  double value = 0;      // in `unit`
  std::string unit;      // "m", "ft", "m2", "ft2", "%"; empty for a bare number
  double tolerance = 0;  // in `unit`; half of the last digit written, or as stated by "within"
};

struct Case {
  std::string standard;  // the folder
  std::string place;     // "bs5837-2012/single-stem.case line 12"
  std::string name;
  std::string figure;  // "bs5837-2012.zone stem=500mm"; or rule and tree
  std::string rule, tree, barrier;
  std::vector<std::string> works;
  std::vector<Expectation> expected;
  std::vector<std::string> limits;  // exactly the limits that are passed
  bool tells_limits = false;
  std::string fails;     // what the error must say
  std::string source;    // of the value
  std::string status;    // of the rule
  std::string value;     // "printed" in the source, or "computed" from its rule by hand
  std::string excluded;  // why it is not run; empty: it is
};

inline void PrintTo(const Case& one, std::ostream* out) {
  *out << one.place << ", " << one.name;
}

struct CaseFile {
  std::vector<Case> cases;
  std::vector<std::string> mistakes;  // unknown keys, missing parts; each with place
};

CaseFile read_case_file(const std::filesystem::path& file);

// Every case below `folder`, in the order of the file names.
CaseFile read_case_files(const std::filesystem::path& folder);

// "stem=300mm,400mm crown=4m" as key and text.
std::vector<std::pair<std::string, std::string>> arguments_of(const std::string& text);

}  // namespace rootstead::conformance
