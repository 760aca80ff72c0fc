// The register of a project's revisions: plans reviewed, issues made, comments answered.
#include "engine/base/text.hpp"
#include "report/book.hpp"

namespace rootstead {

using layout::Flow;
using layout::Row;

namespace {

bool tells_register(const Book& book) {
  return book.history != nullptr &&
         (!book.history->plans.empty() || !book.history->issues.empty() ||
          !book.history->comments.empty());
}

std::string or_dash(const std::string& text) {
  return text.empty() ? "–" : text;
}

// In groups of eight, so that two people can compare them and lines can break.
std::string in_groups(const std::string& sum) {
  if (sum.empty()) return "not taken";
  std::string text;
  for (std::size_t i = 0; i < sum.size(); i += 8) text += (i == 0 ? "" : " ") + sum.substr(i, 8);
  return text;
}

void add_plans(Flow& flow, const std::vector<PlanReviewed>& plans) {
  flow.heading(2, "Plans reviewed: " + std::to_string(plans.size()), "plans-reviewed");
  if (plans.empty()) {
    flow.paragraph("No plan of works or ground was loaded.");
    return;
  }
  std::vector<Row> rows;
  for (const PlanReviewed& plan : plans) {
    const std::string file = plan.file + (plan.read_in ? "" : "\nlooked at, not read in");
    rows.push_back({{{std::to_string(plan.number)},
                     {plan.title, layout::kTableBold},
                     {or_dash(plan.author)},
                     {or_dash(plan.date)},
                     {or_dash(plan.revision)},
                     {file},
                     {plan.loaded_at.substr(0, 10)},
                     {in_groups(plan.sha256)}}});
  }
  table(flow,
        {{"No.", 0.6},
         {"Title", 3},
         {"Author", 2.4},
         {"Date", 1.3},
         {"Revision", 1},
         {"File", 2.6},
         {"Loaded", 1.3},
         {"SHA-256 of the file", 4.6}},
        rows);
}

void add_issues(Flow& flow, const std::vector<IssueMade>& issues) {
  if (issues.empty()) return;
  flow.heading(2, "Issues made: " + std::to_string(issues.size()), "issues-made");
  flow.paragraph(
      "With each issue the whole project was kept as it was; its checksum stands here and is "
      "sealed "
      "in the journal. The report of an issue can be made again from it, byte for byte with the "
      "same program and data.",
      layout::kSmallGrey);
  std::vector<Row> rows;
  for (const IssueMade& issue : issues)
    rows.push_back({{{issue.revision, layout::kTableBold},
                     {issue.date},
                     {or_dash(issue.by)},
                     {or_dash(issue.status)},
                     {or_dash(issue.note)},
                     {issue.program + ", data " + issue.data_version},
                     {in_groups(issue.sha256)}}});
  table(flow,
        {{"Rev", 0.7},
         {"Date", 1.4},
         {"By", 2},
         {"Status", 1.8},
         {"Note", 3.6},
         {"Made with", 2},
         {"SHA-256 of the project", 4.6}},
        rows);
}

void add_comments(Flow& flow, const std::vector<ReviewComment>& comments) {
  if (comments.empty()) return;
  flow.heading(2, "Comments and answers: " + std::to_string(comments.size()), "comments");
  std::vector<Row> rows;
  for (const ReviewComment& comment : comments)
    rows.push_back({{{std::to_string(comment.number)},
                     {comment.from + (comment.date.empty() ? "" : "\n" + comment.date)},
                     {or_dash(comment.revision)},
                     {comment.text},
                     {comment.answer.empty() ? "not answered yet" : comment.answer,
                      comment.answer.empty() ? layout::kTableBold : layout::kTableText},
                     {or_dash(comment.where)}}});
  table(flow,
        {{"No.", 0.6},
         {"From", 2},
         {"On rev", 0.9},
         {"Comment", 4.6},
         {"Answer", 4.6},
         {"Seen where", 2}},
        rows);
}

}  // namespace

std::size_t chapters_of_revisions(const Book& book) {
  const bool changes = book.history != nullptr && book.history->changes.has_value();
  return (changes ? 1U : 0U) + (tells_register(book) ? 1U : 0U);
}

void add_register(Book& book) {
  if (!tells_register(book)) return;
  const RevisionHistory& history = *book.history;
  Flow flow = book.landscape();
  book.open_chapter(flow, "Plans reviewed, issues and comments", "register");
  add_plans(flow, history.plans);
  add_issues(flow, history.issues);
  add_comments(flow, history.comments);
}

}  // namespace rootstead
