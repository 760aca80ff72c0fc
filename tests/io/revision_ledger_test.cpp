// Plans, issues and comments of a project, and the project frozen with each issue.
#include "io/revision_ledger.hpp"

#include <gtest/gtest.h>
#include <sqlite3.h>

#include <cstdlib>
#include <fstream>
#include <iterator>

#include "tests/io/sample_site.hpp"
#include "tests/support/temp_folder.hpp"

namespace rootstead::io {
namespace {

using test::TempFolder;

constexpr const char* kWhen = "2026-11-28T09:30:00Z";

std::filesystem::path new_project(const TempFolder& folder) {
  const auto file = folder / "job.gpkg";
  const auto project = Project::create(file, *reference_system("EPSG:27700"), {}, kWhen);
  EXPECT_TRUE(project) << project.error().sentence();
  return file;
}

RevisionLedger ledger_of(const std::filesystem::path& file) {
  auto ledger = RevisionLedger::open(file);
  EXPECT_TRUE(ledger) << ledger.error().sentence();
  return std::move(ledger).value();
}

std::filesystem::path written(const TempFolder& folder, const char* name, const char* text) {
  std::ofstream(folder / name) << text;
  return folder / name;
}

Import works_of(const char* source, std::uint64_t seed) {
  Import import = test::random_import(seed, 0, 2);
  import.source = source;
  import.kind = "works";
  return import;
}

Outcome issue_as(const std::filesystem::path& file, const char* revision) {
  const auto project = Project::open(file);
  IssueMade issue;
  issue.revision = revision, issue.date = "2026-11-28", issue.status = "draft";
  issue.program = "0.1.0", issue.data_version = "test";
  ProjectSettings settings = project->read()->settings;
  settings.revision = revision;
  RevisionLedger ledger = ledger_of(file);
  return ledger.make_issue(issue, settings, *project->version(), kWhen);
}

// What the sum of no bytes and of "abc" is, FIPS 180-4 examples.
TEST(Checksum, IsSha256OfTheBytes) {
  const TempFolder folder;
  EXPECT_EQ(*checksum_of(written(folder, "abc.txt", "abc")),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_FALSE(checksum_of(folder / "nothing"));
}

TEST(Plans, AreTheSourcesOfWorksAndGroundInTheOrderTheyCame) {
  const TempFolder folder;
  const auto file = new_project(folder);
  auto project = Project::open(file);
  Import trees = test::random_import(1, 3, 0);
  trees.source = "trees.csv", trees.kind = "trees";
  ASSERT_TRUE(project->add(trees, kWhen));
  ASSERT_TRUE(project->add(works_of("works.csv", 2), kWhen));
  ASSERT_TRUE(ledger_of(file).keep_checksum(written(folder, "works.csv", "abc"), kWhen));
  ASSERT_TRUE(ledger_of(file).keep_checksum(written(folder, "trees.csv", "abc"), kWhen));
  PlanReviewed looked;
  looked.title = "Planting";
  ASSERT_TRUE(ledger_of(file).look_at(looked, written(folder, "p.pdf", "x"), kWhen));
  const auto plans = ledger_of(file).plans();
  ASSERT_TRUE(plans) << plans.error().sentence();
  ASSERT_EQ(plans->size(), 2U);
  EXPECT_EQ((*plans)[0].file, "works.csv");
  EXPECT_EQ((*plans)[0].sha256.substr(0, 8), "ba7816bf");
  EXPECT_TRUE((*plans)[0].read_in);
  EXPECT_EQ((*plans)[1].title, "Planting");
  EXPECT_FALSE((*plans)[1].read_in);
  EXPECT_LT((*plans)[0].entry, (*plans)[1].entry);
  const auto journal = project->journal();
  ASSERT_TRUE(journal) << journal.error().sentence();
  EXPECT_EQ(journal->at(static_cast<std::size_t>((*plans)[1].entry) - 1).action, "plan");
  EXPECT_EQ(journal->at(static_cast<std::size_t>((*plans)[0].entry) - 1).action, "add");
}

TEST(Plans, KeepWhatAPersonSaysOfThem) {
  const TempFolder folder;
  const auto file = new_project(folder);
  auto project = Project::open(file);
  ASSERT_TRUE(project->add(works_of("works.csv", 2), kWhen));
  PlanReviewed plan = ledger_of(file).plans()->front();
  plan.title = "Drains", plan.revision = "P02";
  ASSERT_TRUE(ledger_of(file).describe_plan(plan, kWhen));
  plan.author = "Somebody";
  ASSERT_TRUE(ledger_of(file).describe_plan(plan, kWhen));
  const auto plans = ledger_of(file).plans();
  ASSERT_EQ(plans->size(), 1U);
  EXPECT_EQ(plans->front().title + plans->front().author + plans->front().revision,
            "DrainsSomebodyP02");
  plan.number = 9;
  EXPECT_FALSE(ledger_of(file).describe_plan(plan, kWhen));
}

TEST(Final, IsRefusedUntilWhatWasLoadedIsAssessed) {
  const TempFolder folder;
  const auto file = new_project(folder);
  auto project = Project::open(file);
  EXPECT_FALSE(ledger_of(file).check_final());
  ASSERT_TRUE(project->add(works_of("works.csv", 2), kWhen));
  const Site site = *project->read();
  ASSERT_TRUE(project->save_assessment(site, Assessment{}, kWhen));
  EXPECT_TRUE(ledger_of(file).check_final());
  ASSERT_TRUE(project->add(works_of("late.csv", 3), kWhen));
  const Outcome refused = ledger_of(file).check_final();
  ASSERT_FALSE(refused);
  EXPECT_NE(refused.error().message.find("late.csv"), std::string::npos);
}

TEST(Issue, KeepsTheProjectAsItWasWhateverComesAfter) {
  const TempFolder folder;
  const auto file = new_project(folder);
  auto project = Project::open(file);
  ASSERT_TRUE(project->add(test::random_import(5, 4, 3), kWhen));
  const Outcome issued = issue_as(file, "A");
  ASSERT_TRUE(issued) << issued.error().sentence();
  EXPECT_TRUE(*ledger_of(file).stands_as_issued());
  const Site as_issued = *project->read();
  ASSERT_TRUE(project->add(works_of("late.csv", 6), kWhen));
  EXPECT_FALSE(*ledger_of(file).stands_as_issued());
  ASSERT_TRUE(issue_as(file, "B"));

  ASSERT_TRUE(ledger_of(file).take_out("A", folder / "a.gpkg"));
  const auto a = Project::open(folder / "a.gpkg");
  ASSERT_TRUE(a) << a.error().sentence();
  const auto again = a->read();
  ASSERT_TRUE(again) << again.error().sentence();
  EXPECT_EQ(test::difference(*again, as_issued), "");
  EXPECT_EQ(again->settings.revision, "A");
  EXPECT_TRUE(a->journal()) << "the chain is whole";
  ASSERT_TRUE(ledger_of(file).take_out("B", folder / "b.gpkg"));
  EXPECT_EQ(ledger_of(folder / "b.gpkg").issues()->size(), 1U) << "B knows of A";
  EXPECT_FALSE(ledger_of(folder / "b.gpkg").take_out("A", folder / "c.gpkg"));
}

TEST(Issue, IsNeverMadeTwiceChangedOrRemoved) {
  const TempFolder folder;
  const auto file = new_project(folder);
  ASSERT_TRUE(issue_as(file, "A"));
  const Outcome twice = issue_as(file, "A");
  ASSERT_FALSE(twice);
  EXPECT_EQ(twice.error().code, Code::duplicate);
  EXPECT_EQ(issue_as(file, " ").error().code, Code::wrong_use);
  sqlite3* handle = nullptr;
  sqlite3_open(file.c_str(), &handle);
  EXPECT_NE(sqlite3_exec(handle, "UPDATE issues_made SET note = 'x'", nullptr, nullptr, nullptr),
            SQLITE_OK);
  EXPECT_NE(sqlite3_exec(handle, "DELETE FROM issues_made", nullptr, nullptr, nullptr), SQLITE_OK);
  sqlite3_close(handle);
  ASSERT_EQ(ledger_of(file).issues()->size(), 1U);
}

TEST(Issue, IsRefusedWhereItsFrozenProjectWasExchanged) {
  const TempFolder folder;
  const auto file = new_project(folder);
  ASSERT_TRUE(issue_as(file, "A"));
  sqlite3* handle = nullptr;
  sqlite3_open(file.c_str(), &handle);
  sqlite3_exec(handle,
               "DROP TRIGGER issues_are_never_changed;"
               "UPDATE issues_made SET frozen = substr(frozen, 1, 40)",
               nullptr, nullptr, nullptr);
  sqlite3_close(handle);
  const Outcome refused = ledger_of(file).take_out("A", folder / "a.gpkg");
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, Code::format_broken);
}

TEST(Issue, IsRefusedWhereTheProjectWasChangedMeanwhile) {
  const TempFolder folder;
  const auto file = new_project(folder);
  auto project = Project::open(file);
  const std::string version = *project->version();
  ASSERT_TRUE(project->add(works_of("works.csv", 2), kWhen));
  IssueMade issue;
  issue.revision = "A";
  const Outcome refused = ledger_of(file).make_issue(issue, {}, version, kWhen);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, Code::project_busy);
  EXPECT_TRUE(ledger_of(file).issues()->empty());
}

TEST(Comments, AreKeptInTheirOrderAndAnswered) {
  const TempFolder folder;
  const auto file = new_project(folder);
  ReviewComment one;
  one.from = "Town", one.text = "Why?", one.revision = "A";
  ASSERT_TRUE(ledger_of(file).save_comment(one, kWhen));
  one.text = "How deep?";
  ASSERT_TRUE(ledger_of(file).save_comment(one, kWhen));
  ReviewComment first = ledger_of(file).comments()->front();
  first.answer = "Because.";
  ASSERT_TRUE(ledger_of(file).save_comment(first, kWhen));
  const auto comments = ledger_of(file).comments();
  ASSERT_EQ(comments->size(), 2U);
  EXPECT_EQ((*comments)[0].answer, "Because.");
  EXPECT_EQ((*comments)[0].text, "Why?");
  EXPECT_EQ((*comments)[1].text, "How deep?");
  first.number = 3;
  EXPECT_FALSE(ledger_of(file).save_comment(first, kWhen));
}

}  // namespace
}  // namespace rootstead::io
