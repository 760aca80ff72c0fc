// issue: freezes a project as a revision, lists the issues made, gives one back as a file.
#include <ostream>

#include "cli/job.hpp"
#include "cli/revision_commands.hpp"
#include "io/revision_ledger.hpp"
#include "io/tables.hpp"
#include "io/whole_file.hpp"

namespace rootstead::cli {
namespace {

struct IssueCommand {
  ProjectOptions project;
  issue::IssueAsked asked;
  std::string take_out, out;
};

Result<Exit> list_issues(const IssueCommand& options, const Console& console) {
  ROOTSTEAD_TRY(const io::RevisionLedger ledger, io::RevisionLedger::open(options.project.file));
  ROOTSTEAD_TRY(const auto issues, ledger.issues());
  if (issues.empty()) {
    console.out << "No issue was made. Make one: rootstead issue " << options.project.file
                << " --revision A\n";
    return Exit::done;
  }
  std::vector<TableRow> rows{{"rev", "date", "by", "status", "note", "sha256 of the project"}};
  for (const IssueMade& one : issues)
    rows.push_back({one.revision, one.date, one.by, one.status, one.note, one.sha256});
  console.out << text_table(rows);
  return Exit::done;
}

Result<Exit> take_out(const IssueCommand& options, const Console& console) {
  if (options.out.empty())
    return Error{Code::wrong_use, "--take-out", "it needs a file to write", "add --out FILE.gpkg"};
  ROOTSTEAD_TRY(const io::RevisionLedger ledger, io::RevisionLedger::open(options.project.file));
  ROOTSTEAD_TRY(io::PartFolder part, io::PartFolder::beside(options.out));
  ROOTSTEAD_CHECK(ledger.take_out(options.take_out, part.file()));
  ROOTSTEAD_CHECK(part.publish_new());
  console.out << "Made " << options.out << ", the project as revision " << options.take_out
              << " was issued\n";
  return Exit::done;
}

Result<Exit> issue_project(const IssueCommand& options, const Console& console) {
  if (!options.take_out.empty()) return take_out(options, console);
  if (options.asked.revision.empty()) return list_issues(options, console);
  ROOTSTEAD_TRY(const Tables tables, io::load_tables(options.project.rules_dir));
  ROOTSTEAD_TRY(const IssueMade made, issue::make_issue(options.project.file, options.asked, tables,
                                                        this_program(), io::utc_now()));
  console.out << "Issued revision " << made.revision << " of " << made.date << ", " << made.status
              << ".\nThe project as it is now is kept with it, sha256 " << made.sha256
              << ".\nIts report, now and later: rootstead report " << options.project.file
              << " --of " << made.revision << " --out FILE.pdf\n";
  return Exit::done;
}

}  // namespace

void add_issue(CLI::App& app, Job& chosen) {
  CLI::App& command =
      declare(app, "issue", "Freeze the project as a revision; without one, list the issues made",
              "rootstead issue mill-lane.gpkg --revision A --note \"for planning\"\n"
              "  rootstead issue mill-lane.gpkg --revision B --final\n"
              "  rootstead issue mill-lane.gpkg --take-out A --out mill-lane-A.gpkg\n"
              "  rootstead issue mill-lane.gpkg");
  auto options = std::make_shared<IssueCommand>();
  take_project(command, options->project.file);
  command.add_option("--revision", options->asked.revision, "What it goes by: A, B, P02 ...");
  command.add_flag("--final", options->asked.final,
                   "Its status is final; refused while a plan was loaded and not assessed");
  command.add_option("--note", options->asked.note, "What the issue is for, or what is new in it");
  command.add_option("--by", options->asked.by, "Who issues it; the author if not given");
  command.add_option("--date", options->asked.date, "Date of the issue; today if not given");
  command.add_option("--take-out", options->take_out, "Revision to give back as a project file");
  command.add_option("--out", options->out, "Project file to write for --take-out");
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, issue_project);
}

}  // namespace rootstead::cli
