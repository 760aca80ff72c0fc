// RFC 5545: folding (3.1), text (3.3.11), and a calendar that is the same on every run.
#include "engine/aftercare/calendar.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <set>

#include "engine/base/text.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using namespace std::chrono_literals;

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines(1);
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text.substr(i).starts_with("\r\n")) {
      lines.emplace_back();
      ++i;
    } else {
      lines.back() += text[i];
    }
  }
  if (lines.back().empty()) lines.pop_back();
  return lines;
}

std::string unescaped(std::string_view text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\') {
      plain += text[i];
      continue;
    }
    ++i;
    plain += text[i] == 'n' || text[i] == 'N' ? '\n' : text[i];
  }
  return plain;
}

// ---- the rules of the format
// ----------------------------------------------------------------------

TEST(CalendarText, EscapesAsTheStandardSays) {
  EXPECT_EQ(calendar_text("a\\b;c,d\ne"), "a\\\\b\\;c\\,d\\ne");
  EXPECT_EQ(calendar_text("a\r\nb\rc"), "a\\nb\\nc");
  EXPECT_EQ(calendar_text("a:b\"c"), "a:b\"c");  // neither needs it in a text
  EXPECT_EQ(calendar_text(std::string_view("a\0b\x07\tc", 6)), "a b \tc");
}

TEST(FoldedLine, LeavesSeventyFiveOctetsAndFoldsOneMore) {
  const std::string fits(75, 'x');
  EXPECT_EQ(folded_line(fits), fits + "\r\n");
  EXPECT_EQ(folded_line(fits + "y"), fits + "\r\n y\r\n");
  EXPECT_EQ(folded_line(""), "\r\n");
}

TEST(FoldedLine, NeverPartsACharacter) {
  const std::string line = std::string(74, 'x') + "\xC3\xA4" + "y";  // a with two dots
  EXPECT_EQ(folded_line(line), std::string(74, 'x') + "\r\n \xC3\xA4y\r\n");
}

std::string any_text() {
  static const std::vector<std::string> kPieces = {
      "a", " ", ";", ",", "\\", "\n", ":", "\xC3\xA9", "\xE2\x82\xAC", "\xF0\x9F\x8C\xB3", "tree"};
  std::string text;
  const int pieces = *rc::gen::inRange(0, 200);
  for (int i = 0; i < pieces; ++i)
    text +=
        kPieces[static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(kPieces.size())))];
  return text;
}

RC_GTEST_PROP(CalendarTextAlways, ReadsBackToWhatItWas, ()) {
  const std::string text = any_text();
  const std::string escaped = calendar_text(text);
  RC_ASSERT(unescaped(escaped) == text);
  RC_ASSERT(escaped.find('\n') == std::string::npos);
}

RC_GTEST_PROP(FoldedLineAlways, HasShortLinesOfWholeCharactersAndUnfolds, ()) {
  const std::string line = "DESCRIPTION:" + calendar_text(any_text());
  const std::string folded = folded_line(line);
  RC_ASSERT(unfolded_lines(folded) == line + "\r\n");
  const auto lines = lines_of(folded);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    RC_ASSERT(lines[i].size() <= 75u);
    if (i == 0) continue;
    RC_ASSERT(lines[i].size() > 1u);
    RC_ASSERT(lines[i][0] == ' ');
    RC_ASSERT((static_cast<unsigned char>(lines[i][1]) & 0xC0) != 0x80);
  }
}

RC_GTEST_PROP(FoldedLineAlways, TakesAnyBytes, ()) {
  const auto bytes = *rc::gen::arbitrary<std::vector<unsigned char>>();
  std::string line;
  for (const unsigned char byte : bytes)
    if (byte != '\r' && byte != '\n') line += static_cast<char>(byte);
  while (line.size() < 160) line += '\x80';  // never a first byte
  RC_ASSERT(unfolded_lines(folded_line(line)) == line + "\r\n");
}

// ---- a calendar
// -----------------------------------------------------------------------------------

MonitoringPlan small_plan() {
  MonitoringPlan plan;
  Visit before;
  before.id = "before-works";
  before.title = "Before the works begin";
  before.day = std::chrono::sys_days(2026y / 2 / 28);
  before.trees = {{"T1", "record, with photographs; see plan"}};
  before.look_at = {"crown, trunk and base"};
  before.from = {"as4970-practice", "", Status::published};
  Visit hold = before;
  hold.id = "hold-W1";
  hold.kind = VisitKind::hold_point;
  hold.day.reset();
  plan.visits = {before, hold};
  return plan;
}

CalendarIdentity identity() {
  return {"Elm Court", std::chrono::sys_days(2026y / 1 / 5)};
}

Site small_site() {
  Site site = test::SiteBuilder().tree("T1", {0, 0}, 0.5).site();
  site.settings.title = "Elm Court";
  site.settings.address = "1 Elm Court, Anytown";
  return site;
}

TEST(Calendar, HasTheComponentsAndPropertiesThatTheStandardAsksFor) {
  const std::string text = calendar_of(small_plan(), small_site(), identity());
  const auto lines = lines_of(unfolded_lines(text));
  EXPECT_EQ(lines.front(), "BEGIN:VCALENDAR");
  EXPECT_EQ(lines[1], "VERSION:2.0");
  EXPECT_EQ(lines.back(), "END:VCALENDAR");
  EXPECT_TRUE(text.ends_with("\r\n"));
  int events = 0, tasks = 0, uids = 0, stamps = 0, open = 0;
  for (const std::string& line : lines) {
    events += line == "BEGIN:VEVENT";
    tasks += line == "BEGIN:VTODO";
    uids += line.starts_with("UID:");
    stamps += line == "DTSTAMP:20260105T000000Z";
    open += line.starts_with("BEGIN:") - line.starts_with("END:");
  }
  EXPECT_EQ(events, 1);
  EXPECT_EQ(tasks, 1);
  EXPECT_EQ(uids, 2);
  EXPECT_EQ(stamps, 2);
  EXPECT_EQ(open, 0);
  EXPECT_NE(text.find("DTSTART;VALUE=DATE:20260228\r\n"), std::string::npos);
  EXPECT_NE(text.find("DTEND;VALUE=DATE:20260301\r\n"), std::string::npos);
  EXPECT_NE(text.find("LOCATION:1 Elm Court\\, Anytown\r\n"), std::string::npos);
  for (const std::string& line : lines_of(text)) EXPECT_LE(line.size(), 75u);
}

std::set<std::string> uids_of(const std::string& text) {
  std::set<std::string> uids;
  for (const std::string& line : lines_of(unfolded_lines(text)))
    if (line.starts_with("UID:")) uids.insert(line);
  return uids;
}

TEST(Calendar, IsTheSameOnEveryRunAndKeepsItsNamesWhenMoved) {
  const std::string text = calendar_of(small_plan(), small_site(), identity());
  EXPECT_EQ(calendar_of(small_plan(), small_site(), identity()), text);
  MonitoringPlan later = small_plan();
  later.visits.front().day = std::chrono::sys_days(2026y / 3 / 14);
  CalendarIdentity reissued = identity();
  reissued.made = std::chrono::sys_days(2026y / 2 / 1);
  EXPECT_EQ(uids_of(calendar_of(later, small_site(), reissued)), uids_of(text));
  CalendarIdentity other = identity();
  other.project = "Elm Close";
  for (const std::string& uid : uids_of(calendar_of(small_plan(), small_site(), other)))
    EXPECT_FALSE(uids_of(text).contains(uid));
  EXPECT_EQ(uids_of(text).size(), 2u);
}

TEST(Calendar, MarksInventedData) {
  Site site = small_site();
  site.settings.demo = true;
  EXPECT_NE(calendar_of(small_plan(), site, identity()).find("SUMMARY:Invented example"),
            std::string::npos);
}

}  // namespace
}  // namespace rootstead
