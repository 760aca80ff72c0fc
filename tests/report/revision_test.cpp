// Revisions on the page: the chapter of changes, clouds and table on the sheet, the register.
#include <gtest/gtest.h>

#include "engine/geom/overlay.hpp"
#include "report/report.hpp"
#include "report/sheet.hpp"
#include "tests/report/pages.hpp"
#include "tests/report/sample_plan.hpp"

namespace rootstead::test {
namespace {

IssueMade issue(const char* revision, const char* note) {
  IssueMade made;
  made.revision = revision, made.date = "2026-11-18", made.by = "R. Alder", made.status = "draft";
  made.note = note, made.program = "0.1.0", made.data_version = "2026.11-sample";
  made.sha256 = std::string(64, 'a');
  return made;
}

// The sample, and how it stood before its drain was moved and deepened.
struct Revised {
  Sample now = sample();
  Site before = now.site;
  RevisionHistory history;

  explicit Revised(bool issued = true) {
    Work& drain = before.works.front();
    for (Line& line : drain.shape.lines)
      for (Point& point : line) point.y -= 9;
    drain.depth = EnteredLength{0.9, LengthUnit::metre};
    now.site.settings.revision = issued ? "B" : "after A";
    const Assessment was = invented_assessment(before, now.tables);
    history.issues = {issue("A", "for comment")};
    if (issued) history.issues.push_back(issue("B", "drain moved"));
    history.issued = issued;
    history.since = "A";
    history.changes = compare({&before, &was}, {&now.site, &now.assessment});
    PlanReviewed plan;
    plan.number = 1, plan.title = "Drainage layout", plan.file = "drain.dxf";
    plan.loaded_at = "2026-11-20T10:00:00Z", plan.sha256 = std::string(64, 'c');
    history.plans = {plan};
    ReviewComment comment;
    comment.number = 1, comment.from = "Town", comment.text = "Why so near the oak?";
    history.comments = {comment};
  }
};

layout::Document report_of(const Revised& revised, SheetSize size) {
  const auto meter = layout::pango_meter();
  auto made = make_report(revised.now.plan(), {size, 0}, *meter, {}, &revised.history);
  EXPECT_TRUE(made) << (made ? "" : made.error().sentence());
  return std::move(made).value();
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

class RevisedReport : public ::testing::TestWithParam<SheetSize> {};

TEST_P(RevisedReport, TellsWhatChangedTheRegisterAndTheAnswers) {
  const Revised revised;
  const layout::Document document = report_of(revised, GetParam());
  const std::string text = text_of(document);
  for (const char* part :
       {"What changed since revision A", "Storm drain (W1)", "lies elsewhere, by up to 9.00",
        "depth: 0.90 m → 1.40 m", "Trees whose answers changed", "Limits passed in one",
        "Plans reviewed: 1", "Drainage layout", "cccccccc cccccccc", "Issues made: 2",
        "drain moved", "Why so near the oak?", "not answered yet"})
    EXPECT_TRUE(holds(text, part)) << part;
  for (const layout::Page& page : document.pages) {
    EXPECT_EQ(overlapping_texts(page), std::vector<std::string>{}) << text_of(page).substr(0, 60);
    EXPECT_EQ(texts_off_sheet(page), std::vector<std::string>{});
  }
}

TEST_P(RevisedReport, HasCloudsWithTheirMarkAndATableOnTheSheet) {
  const Revised revised;
  const auto meter = layout::pango_meter();
  const auto sheet = make_sheet(revised.now.plan(), {GetParam(), 0}, *meter, &revised.history);
  ASSERT_TRUE(sheet);
  const auto clouds = all_of<layout::Path>(sheet->page, "cloud");
  ASSERT_FALSE(clouds.empty());
  const auto letters = all_of<layout::Text>(sheet->page, "revision-letter");
  ASSERT_EQ(letters.size(), clouds.size());
  EXPECT_EQ(letters.front()->text, "B");
  EXPECT_FALSE(all_of<layout::Text>(sheet->page, "revision-row").empty());
  EXPECT_TRUE(holds(text_of(sheet->page), "Clouds: changed since revision A"));
  EXPECT_TRUE(holds(text_of(sheet->page), "2026-11-18"));
}

INSTANTIATE_TEST_SUITE_P(Sheets, RevisedReport,
                         ::testing::Values(SheetSize::a3, SheetSize::letter));

TEST(RevisedReport, OfAStateThatIsNotIssuedSaysSo) {
  const Revised working(false);
  const std::string text = text_of(report_of(working, SheetSize::a3));
  EXPECT_TRUE(holds(text, "the project as it is now, which is not issued"));
  EXPECT_TRUE(holds(text, "after A"));
}

TEST(RevisedReport, WithoutChangesHasNoCloudsAndNoChapterOfThem) {
  Revised first;
  first.history.changes.reset();
  first.history.issues.resize(1);
  const layout::Document document = report_of(first, SheetSize::a3);
  EXPECT_FALSE(holds(text_of(document), "What changed since"));
  for (const layout::Page& page : document.pages)
    EXPECT_TRUE(all_of<layout::Path>(page, "cloud").empty());
}

// The bows bulge outward: the scalloped line holds more ground than the ring it follows.
TEST(Cloud, BulgesOutward) {
  const Revised revised;
  const auto meter = layout::pango_meter();
  const auto sheet = make_sheet(revised.now.plan(), {SheetSize::a1, 0}, *meter, &revised.history);
  ASSERT_TRUE(sheet);
  for (const auto* cloud : all_of<layout::Path>(sheet->page, "cloud")) {
    Ring all, corners;
    const auto& ring = cloud->rings.front();
    for (std::size_t i = 0; i < ring.size(); ++i) {
      all.push_back({ring[i].x, ring[i].y});
      if (i % 6 == 0) corners.push_back({ring[i].x, ring[i].y});
    }
    const auto size = [](const Ring& r) {
      double twice = 0;
      for (std::size_t i = 0; i < r.size(); ++i) {
        const Point &a = r[i], &b = r[(i + 1) % r.size()];
        twice += a.x * b.y - b.x * a.y;
      }
      return std::abs(twice) / 2;
    };
    EXPECT_GT(size(all), size(corners));
  }
}

}  // namespace
}  // namespace rootstead::test
