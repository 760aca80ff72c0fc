#include "issue/revisions.hpp"

#include <algorithm>

#include "engine/base/text.hpp"
#include "io/project.hpp"
#include "io/revision_ledger.hpp"
#include "io/whole_file.hpp"

namespace rootstead::issue {
namespace {

namespace fs = std::filesystem;

// An issue taken out of the project, as a file in a folder that is gone with it.
struct TakenOut {
  io::PartFolder folder;
  fs::path file;
};

Result<TakenOut> taken_out(const io::RevisionLedger& ledger, const std::string& revision) {
  std::error_code ignored;
  ROOTSTEAD_TRY(io::PartFolder folder,
                io::PartFolder::beside(fs::temp_directory_path(ignored) / "issued.gpkg"));
  const fs::path file = folder.file();
  ROOTSTEAD_CHECK(ledger.take_out(revision, file));
  return TakenOut{std::move(folder), file};
}

Result<Site> site_in(const fs::path& file) {
  ROOTSTEAD_TRY(const io::Project project, io::Project::open(file));
  return project.read();
}

Result<State> assessed_issue(const io::RevisionLedger& ledger, const std::string& revision,
                             const Tables& tables, const Progress& progress) {
  ROOTSTEAD_TRY(const TakenOut taken, taken_out(ledger, revision));
  ROOTSTEAD_TRY(Site site, site_in(taken.file));
  ROOTSTEAD_TRY(State state, assessed(std::move(site), tables, progress));
  ROOTSTEAD_TRY(const io::RevisionLedger its, io::RevisionLedger::open(taken.file));
  ROOTSTEAD_TRY(state.history.plans, its.plans());
  ROOTSTEAD_TRY(state.history.comments, its.comments());
  return state;
}

std::string made_with(const IssueMade& issue, const Tables& tables, const Maker& maker) {
  if (issue.program == maker.program && issue.data_version == tables.version) return "";
  return "Revision " + issue.revision + " was made with program " + issue.program + " and data " +
         issue.data_version + "; this is program " + maker.program + " with data " +
         tables.version + ", so that figures may differ from those that were issued.";
}

// What changed since the last issue before this state.
Outcome compare_with(const io::RevisionLedger& ledger, const IssueMade& before,
                     const Tables& tables, const Maker& maker, State& state) {
  const Result<State> earlier = assessed_issue(ledger, before.revision, tables, maker.progress);
  if (!earlier && earlier.error().code == Code::unknown_name) {  // a copy that was taken out
    state.made_otherwise.push_back("Nothing is compared: " + earlier.error().sentence());
    return Nothing{};
  }
  if (!earlier) return earlier.error();
  const State& was = *earlier;
  state.history.since = before.revision;
  state.history.changes = compare({&was.site, &was.assessment}, {&state.site, &state.assessment},
                                  state.site.settings.units);
  const std::string otherwise = made_with(before, tables, maker);
  if (!otherwise.empty()) state.history.notes.push_back(otherwise);
  return Nothing{};
}

// Two states must not go by one letter.
void name_unissued(ProjectSettings& settings, const std::vector<IssueMade>& issues) {
  for (const IssueMade& issue : issues) {
    if (issue.revision != settings.revision) continue;
    settings.revision = "after " + issue.revision;
    settings.status = "draft, not issued";
  }
}

Result<State> state_of_issue(const io::RevisionLedger& ledger, std::vector<IssueMade> issues,
                             const std::string& revision, const Tables& tables,
                             const Maker& maker) {
  const auto at = std::find_if(issues.begin(), issues.end(),
                               [&](const IssueMade& one) { return one.revision == revision; });
  if (at == issues.end())
    return Error{Code::unknown_name, "revision " + revision, "the project has no such issue",
                 "list them: rootstead issue FILE"};
  issues.erase(at + 1, issues.end());
  ROOTSTEAD_TRY(State state, assessed_issue(ledger, revision, tables, maker.progress));
  if (const std::string otherwise = made_with(issues.back(), tables, maker); !otherwise.empty())
    state.made_otherwise.push_back(otherwise);
  if (issues.size() > 1)
    ROOTSTEAD_CHECK(compare_with(ledger, issues[issues.size() - 2], tables, maker, state));
  state.history.issues = std::move(issues);
  state.history.issued = true;
  return state;
}

std::optional<double> number_in(const ProjectSettings& settings, const char* key) {
  const auto found = settings.other.find(key);
  return found == settings.other.end() ? std::nullopt : number_from(found->second);
}

}  // namespace

RootSimulation simulation_of(const ProjectSettings& settings) {
  RootSimulation simulation;
  if (const auto seed = number_in(settings, "seed"))
    simulation.seed = static_cast<std::uint64_t>(*seed);
  if (const auto draws = number_in(settings, "draws")) simulation.draws = static_cast<int>(*draws);
  return simulation;
}

Result<State> assessed(Site site, const Tables& tables, const Progress& progress) {
  State state;
  std::optional<Error> no_level_works;
  if (auto with_levels = with_level_works(site, tables))
    state.site = std::move(with_levels).value();
  else
    no_level_works = with_levels.error(), state.site = std::move(site);
  AssessOptions options;
  options.simulation = simulation_of(state.site.settings);
  options.progress = progress;
  ROOTSTEAD_TRY(state.assessment, assess(state.site, tables, options));
  if (no_level_works) state.assessment.cautions.push_back(without_levels(*no_level_works));
  return state;
}

Result<State> present_state(const fs::path& file, const Tables& tables, const Maker& maker) {
  ROOTSTEAD_TRY(const io::RevisionLedger ledger, io::RevisionLedger::open(file));
  ROOTSTEAD_TRY(std::vector<IssueMade> issues, ledger.issues());
  ROOTSTEAD_TRY(const bool as_issued, ledger.stands_as_issued());
  if (as_issued && !issues.empty()) {
    const std::string last = issues.back().revision;
    return state_of_issue(ledger, std::move(issues), last, tables, maker);
  }
  ROOTSTEAD_TRY(Site site, site_in(file));
  if (claims_final(site.settings.status)) ROOTSTEAD_CHECK(ledger.check_final());
  name_unissued(site.settings, issues);
  ROOTSTEAD_TRY(State state, assessed(std::move(site), tables, maker.progress));
  ROOTSTEAD_TRY(state.history.plans, ledger.plans());
  ROOTSTEAD_TRY(state.history.comments, ledger.comments());
  if (!issues.empty()) ROOTSTEAD_CHECK(compare_with(ledger, issues.back(), tables, maker, state));
  state.history.issues = std::move(issues);
  return state;
}

Result<State> issued_state(const fs::path& file, const std::string& revision, const Tables& tables,
                           const Maker& maker) {
  ROOTSTEAD_TRY(const io::RevisionLedger ledger, io::RevisionLedger::open(file));
  ROOTSTEAD_TRY(std::vector<IssueMade> issues, ledger.issues());
  return state_of_issue(ledger, std::move(issues), revision, tables, maker);
}

Result<IssueMade> make_issue(const fs::path& file, const IssueAsked& asked, const Tables& tables,
                             const Maker& maker, const std::string& when) {
  ROOTSTEAD_TRY(const io::Project project, io::Project::open(file));
  ROOTSTEAD_TRY(const std::string version, project.version());
  ROOTSTEAD_TRY(const Site site, project.read());
  ROOTSTEAD_TRY(io::RevisionLedger ledger, io::RevisionLedger::open(file));
  if (asked.final) ROOTSTEAD_CHECK(ledger.check_final());
  ProjectSettings settings = site.settings;
  settings.revision = asked.revision;
  settings.date = asked.date.empty() ? when.substr(0, 10) : asked.date;
  if (asked.final)
    settings.status = "final";
  else if (settings.status.empty() || claims_final(settings.status))
    settings.status = "draft";
  IssueMade issue;
  issue.revision = settings.revision, issue.date = settings.date, issue.status = settings.status;
  issue.by = asked.by.empty() ? settings.author : asked.by;
  issue.note = asked.note;
  issue.program = maker.program, issue.data_version = tables.version;
  ROOTSTEAD_CHECK(ledger.make_issue(std::move(issue), settings, version, when));
  ROOTSTEAD_TRY(const std::vector<IssueMade> issues, ledger.issues());
  return issues.back();
}

}  // namespace rootstead::issue
