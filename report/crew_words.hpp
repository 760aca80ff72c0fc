// What the crew's sheet says, from the plan's own advice. Private to the report room.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/result.hpp"
#include "report/plan.hpp"

namespace rootstead {

struct CrewRule {
  std::string rule;    // in large type: one short command
  std::string detail;  // below it
};

// One thing the crew finds on the ground and on the small plan.
struct CrewStretch {
  std::string id;                  // "D1"; a work's where it is of the whole work
  std::string work;                // id
  std::string method;              // "dig by hand", "cut roots by hand first"
  std::string span;                // "12.4 m to 23.1 m"; empty: the whole work
  std::vector<std::string> trees;  // ids
};

class CrewWords {
 public:
  // Fails with unknown_name where the project names a cut standard that is not known.
  static Result<CrewWords> of(const Plan& plan);

  std::vector<CrewRule> rules() const;  // three
  std::vector<CrewStretch> stretches() const;
  std::string where(const CrewStretch& stretch) const;  // "Storm drain, 12.4 m to 23.1 m"
  // By name, with the id where two works of the plan share one.
  std::string work(const std::string& id) const;
  std::vector<std::string> stop_signs() const;
  std::string basis() const;  // what the thickness rests on

 private:
  CrewWords(const Plan& plan, CutStandard standard);
  CrewRule fence_rule() const;
  CrewRule dig_rule() const;
  CrewRule cut_rule() const;
  std::string palms() const;
  std::string thickness() const;  // "25 mm", with the mark of its status
  std::string length(Length length) const;

  const Plan* plan_;
  CutStandard standard_;
};

// Whole inches or millimetres without decimals, others with one: "25 mm", "0.8 in".
std::string thickness_in_words(Length thickness, UnitSystem units);

}  // namespace rootstead
