#include "engine/site/problem_list.hpp"

#include <cmath>
#include <utility>

#include "engine/base/text.hpp"
#include "engine/site/dates.hpp"
#include "engine/site/plausible.hpp"

namespace rootstead {

std::string subject_of(const Origin& origin, std::string_view noun, const std::string& label) {
  std::string text = origin.file;
  if (!origin.place.empty()) text += (text.empty() ? "" : " ") + origin.place;
  if (!text.empty()) text += ", ";
  text += noun;
  return label.empty() ? text + " without a name" : text + " " + label;
}

std::string subject_of(const Tree& tree) {
  return subject_of(tree.origin, "tree", tree.label());
}

std::string subject_of(const Work& work) {
  return subject_of(work.origin, to_text(work.kind), work.id.empty() ? work.name : work.id);
}

std::string subject_of(const Barrier& barrier) {
  const std::string& label = barrier.id.empty() ? barrier.name : barrier.id;
  return subject_of(barrier.origin, to_text(barrier.kind), label);
}

std::string subject_of(const Surface& surface) {
  return subject_of(surface.origin, "surface", surface.id.empty() ? surface.name : surface.id);
}

std::string metres_text(Length length) {
  constexpr double kCentimetres = 100;
  const double rounded = std::round(length.metres() * kCentimetres) / kCentimetres;
  return shortest_number(rounded) + " m";
}

void ProblemList::add_absent(Problem problem, const Origin& origin, std::string_view many) {
  ++absent_[{origin.file, std::string(many), problem.code}];
  entries_.push_back({std::move(problem), origin.file, std::string(many)});
}

void ProblemList::count(const Origin& origin, std::string_view many) {
  ++counted_[{origin.file, std::string(many)}];
}

std::vector<Problem> ProblemList::take() && {
  std::vector<Problem> problems;
  std::map<Group, bool> summarised;
  for (Entry& entry : entries_) {
    const Group group{entry.file, entry.many, entry.problem.code};
    const std::size_t all = entry.many.empty() ? 0 : counted_[{entry.file, entry.many}];
    if (all < plausible::kSummaryFrom || absent_[group] != all) {
      problems.push_back(std::move(entry.problem));
      continue;
    }
    if (std::exchange(summarised[group], true)) continue;
    const std::string whose = "all " + std::to_string(all) + " " + entry.many;
    entry.problem.subject = entry.file.empty() ? whose : entry.file + ", " + whose;
    problems.push_back(std::move(entry.problem));
  }
  return problems;
}

void check_date(const std::string& date, std::string_view what, const Site& site,
                const std::string& subject, ProblemList& problems) {
  if (date.empty()) return;
  const std::string said = "the " + std::string(what) + " \"" + date + "\"";
  if (!is_date(date)) {
    problems.add(
        {false, NoteCode::date_doubtful, subject, said + " is no date", "write it as 2026-11-25"});
  } else if (certainly_after(date, site.settings.date)) {
    problems.add({false, NoteCode::date_doubtful, subject,
                  said + " is later than the date of the report, " + site.settings.date,
                  "correct one of the two"});
  }
}

std::vector<Problem> problems_of(const Site& site) {
  ProblemList problems;
  check_trees(site, problems);
  check_flares(site, problems);
  check_works(site, problems);
  check_records_of_works(site, problems);
  check_barriers_and_surfaces(site, problems);
  check_evidence(site, problems);
  check_soil(site, problems);
  check_wind(site, problems);
  check_climate(site, problems);
  check_boundary(site, problems);
  check_surroundings(site, problems);
  check_remoteness(site, problems);
  return std::move(problems).take();
}

}  // namespace rootstead
