// plans: the register of plans reviewed; and comments: what reviewers said, and what was answered.
#include <ostream>

#include "cli/job.hpp"
#include "cli/revision_commands.hpp"
#include "engine/base/text.hpp"
#include "io/revision_ledger.hpp"

namespace rootstead::cli {
namespace {

struct PlansCommand {
  std::string project, file;
  std::vector<std::string> words;
};

struct CommentsCommand {
  std::string project;
  std::vector<std::string> words;
};

Error no_such(const std::string& what, std::int64_t number, const std::string& command) {
  return {Code::unknown_name, what + " " + std::to_string(number),
          "the project has no such " + what, "list them: rootstead " + command + " FILE"};
}

std::string or_dash(const std::string& text) {
  return text.empty() ? "-" : text;
}

void list_plans(const std::vector<PlanReviewed>& plans, std::int64_t assessed, std::ostream& out) {
  if (plans.empty()) {
    out << "No plan of works or ground was loaded.\n";
    return;
  }
  std::vector<TableRow> rows{
      {"no.", "title", "author", "date", "revision", "file", "loaded", "sha256"}};
  for (const PlanReviewed& plan : plans)
    rows.push_back({std::to_string(plan.number), plan.title, or_dash(plan.author),
                    or_dash(plan.date), or_dash(plan.revision),
                    plan.file + (plan.read_in ? "" : " (looked at)"), plan.loaded_at.substr(0, 10),
                    plan.sha256.empty() ? "not taken" : plan.sha256});
  out << text_table(rows);
  for (const PlanReviewed& plan : plans)
    if (plan.entry > assessed)
      out << "Plan " << plan.number << ", " << name_of(plan)
          << ", was loaded after the last assessment.\n";
}

void set_text(const std::string& key, const std::string& value, PlanReviewed& plan) {
  if (key == "title") plan.title = value;
  if (key == "author") plan.author = value;
  if (key == "date") plan.date = value;
  if (key == "revision") plan.revision = value;
}

Result<Exit> tell_plans(const PlansCommand& options, const Console& console) {
  ROOTSTEAD_TRY(const Told told, told_in(options.words, {"title", "author", "date", "revision"}));
  ROOTSTEAD_TRY(io::RevisionLedger ledger, io::RevisionLedger::open(options.project));
  ROOTSTEAD_TRY(auto plans, ledger.plans());
  ROOTSTEAD_TRY(const std::int64_t assessed, ledger.last_assessed());
  const bool looked_at = told.number == 0 && !options.file.empty();
  if (told.number == 0 && !looked_at && !told.pairs.empty())
    return Error{Code::wrong_use, told.pairs.front().first, "it is not said of which plan",
                 "give its number first: rootstead plans FILE 2 title=..."};
  if (told.number > static_cast<std::int64_t>(plans.size()))
    return no_such("plan", told.number, "plans");
  if (told.number == 0 && !looked_at) {
    list_plans(plans, assessed, console.out);
    return Exit::done;
  }
  PlanReviewed plan;
  if (told.number > 0) plan = plans[static_cast<std::size_t>(told.number) - 1];
  for (const auto& [key, value] : told.pairs) set_text(key, value, plan);
  if (looked_at) {
    ROOTSTEAD_CHECK(ledger.look_at(plan, options.file, io::utc_now()));
  } else {
    if (!options.file.empty()) {
      ROOTSTEAD_TRY(plan.sha256, io::checksum_of(options.file));
    }
    ROOTSTEAD_CHECK(ledger.describe_plan(plan, io::utc_now()));
  }
  ROOTSTEAD_TRY(plans, ledger.plans());
  list_plans(plans, assessed, console.out);
  return Exit::done;
}

void list_comments(const std::vector<ReviewComment>& comments, std::ostream& out) {
  if (comments.empty()) out << "No comment was entered.\n";
  for (const ReviewComment& comment : comments) {
    out << comment.number << ". " << comment.from
        << (comment.date.empty() ? "" : ", " + comment.date)
        << (comment.revision.empty() ? "" : ", on revision " + comment.revision) << ": "
        << comment.text << "\n   "
        << (comment.answer.empty() ? "Not answered yet." : "Answer: " + comment.answer)
        << (comment.where.empty() ? "" : " (" + comment.where + ")") << '\n';
  }
}

void set_text(const std::string& key, const std::string& value, ReviewComment& comment) {
  if (key == "from") comment.from = value;
  if (key == "date") comment.date = value;
  if (key == "text") comment.text = value;
  if (key == "revision") comment.revision = value;
  if (key == "answer") comment.answer = value;
  if (key == "where") comment.where = value;
}

Result<Exit> tell_comments(const CommentsCommand& options, const Console& console) {
  ROOTSTEAD_TRY(const Told told,
                told_in(options.words, {"from", "date", "text", "revision", "answer", "where"}));
  ROOTSTEAD_TRY(io::RevisionLedger ledger, io::RevisionLedger::open(options.project));
  ROOTSTEAD_TRY(auto comments, ledger.comments());
  if (told.number > static_cast<std::int64_t>(comments.size()))
    return no_such("comment", told.number, "comments");
  if (!told.pairs.empty()) {
    ReviewComment comment;
    if (told.number > 0) comment = comments[static_cast<std::size_t>(told.number) - 1];
    for (const auto& [key, value] : told.pairs) set_text(key, value, comment);
    if (comment.from.empty() || comment.text.empty())
      return Error{Code::wrong_use, "the comment", "it has no words or nobody who said them",
                   "give from=... and text=..."};
    ROOTSTEAD_CHECK(ledger.save_comment(comment, io::utc_now()));
    ROOTSTEAD_TRY(comments, ledger.comments());
  }
  list_comments(comments, console.out);
  return Exit::done;
}

}  // namespace

void add_plans(CLI::App& app, Job& chosen) {
  CLI::App& command =
      declare(app, "plans", "List the plans reviewed, say more of one, or add one only looked at",
              "rootstead plans mill-lane.gpkg\n"
              "  rootstead plans mill-lane.gpkg 2 title=\"Drainage layout\" revision=P02\n"
              "  rootstead plans mill-lane.gpkg --file landscape.pdf author=\"The designer\"");
  auto options = std::make_shared<PlansCommand>();
  take_project(command, options->project);
  command.add_option("WORDS", options->words,
                     "Number of a plan, then KEY=VALUE: title, author, date, revision");
  command.add_option("--file", options->file,
                     "With a number: the file its checksum is taken of. Without: a plan that was "
                     "looked at and not read in");
  when_parsed(command, options, chosen, tell_plans);
}

void add_comments(CLI::App& app, Job& chosen) {
  CLI::App& command = declare(
      app, "comments", "List what reviewers said, add a comment, or answer one",
      "rootstead comments mill-lane.gpkg\n"
      "  rootstead comments mill-lane.gpkg from=\"Town\" revision=A text=\"Why a trench?\"\n"
      "  rootstead comments mill-lane.gpkg 1 answer=\"It is bored now.\" where=\"plan\"");
  auto options = std::make_shared<CommentsCommand>();
  take_project(command, options->project);
  command.add_option("WORDS", options->words,
                     "Number of a comment to change, then KEY=VALUE: from, date, text, revision, "
                     "answer, where");
  when_parsed(command, options, chosen, tell_comments);
}

}  // namespace rootstead::cli
