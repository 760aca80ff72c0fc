// Inside engine/site only: how problems are gathered, by the checks that problems_of() runs.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "engine/site/site.hpp"

namespace rootstead {

// "survey.csv row 12, tree T17", as much of it as is known.
std::string subject_of(const Origin& origin, std::string_view noun, const std::string& label);
std::string subject_of(const Tree& tree);
std::string subject_of(const Work& work);
std::string subject_of(const Barrier& barrier);
std::string subject_of(const Surface& surface);

// "4.57 m" for messages: at most two decimals.
std::string metres_text(Length length);

// Collects problems in the order they are found, and folds what a whole file lacks into one.
class ProblemList {
 public:
  void add(Problem problem) { entries_.push_back({std::move(problem), {}, {}}); }

  // The problem is that something is absent. `many` is the plural of what lacks it: "trees".
  void add_absent(Problem problem, const Origin& origin, std::string_view many);
  // One more of the things named by `many` was looked at, whether or not anything is absent.
  void count(const Origin& origin, std::string_view many);

  // Everything, summaries in place of the first problem they stand for.
  std::vector<Problem> take() &&;

 private:
  struct Group {  // things of one file that lack the same
    std::string file, many;
    NoteCode code = NoteCode::position_missing;
    auto operator<=>(const Group&) const = default;
  };
  struct Entry {
    Problem problem;
    std::string file, many;  // of an absence; `many` is empty for other problems
  };
  std::vector<Entry> entries_;
  std::map<std::pair<std::string, std::string>, std::size_t> counted_;  // file, many
  std::map<Group, std::size_t> absent_;
};

void check_trees(const Site& site, ProblemList& problems);
void check_flares(const Site& site, ProblemList& problems);
void check_works(const Site& site, ProblemList& problems);
// What drives over works, what lies under it, and when existing works were done.
void check_records_of_works(const Site& site, ProblemList& problems);
void check_barriers_and_surfaces(const Site& site, ProblemList& problems);
void check_evidence(const Site& site, ProblemList& problems);
void check_soil(const Site& site, ProblemList& problems);
void check_wind(const Site& site, ProblemList& problems);
void check_climate(const Site& site, ProblemList& problems);
// Boundary and gates, and what lies outside them.
void check_boundary(const Site& site, ProblemList& problems);

// A date that is none, or lies after the date of the report.
void check_date(const std::string& date, std::string_view what, const Site& site,
                const std::string& subject, ProblemList& problems);
// Where things are: trees in buildings and paving, vague positions, things far from all others.
void check_surroundings(const Site& site, ProblemList& problems);
void check_remoteness(const Site& site, ProblemList& problems);

}  // namespace rootstead
