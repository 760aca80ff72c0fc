// Published values as text cases: see README.md.
#include <gtest/gtest.h>

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <set>

#include "engine/base/text.hpp"
#include "io/tables.hpp"
#include "tests/conformance/run_case.hpp"
#include "tests/support/shared_data.hpp"

namespace rootstead::conformance {
namespace {

constexpr std::size_t kFewestCases = 100;  // fewer means that files were not found

const Tables& tables() {
  static const Tables loaded = io::load_tables().value();
  return loaded;
}

const CaseFile& case_files() {
  static const CaseFile files = read_case_files(test::source_dir() / "tests" / "conformance");
  return files;
}

struct Total {
  int held = 0, failed = 0, excluded = 0;
};
std::map<std::string, Total>& totals() {
  static std::map<std::string, Total> all;
  return all;
}

class PrintTotals : public ::testing::Environment {
 public:
  void TearDown() override {
    Total sum;
    for (const auto& [standard, total] : totals()) {
      std::cout << "conformance " << standard << ": " << total.held << " held, " << total.failed
                << " failed, " << total.excluded << " excluded with reason\n";
      sum.held += total.held;
      sum.failed += total.failed;
      sum.excluded += total.excluded;
    }
    std::cout << "conformance, all: " << sum.held << " held, " << sum.failed << " failed, "
              << sum.excluded << " excluded with reason\n";
  }
};
const auto* const kPrintTotals = ::testing::AddGlobalTestEnvironment(new PrintTotals);

class Conformance : public ::testing::TestWithParam<Case> {};

TEST_P(Conformance, Holds) {
  const Case& one = GetParam();
  Total& total = totals()[one.standard];
  if (!one.excluded.empty()) {
    ++total.excluded;
    GTEST_SKIP() << one.place << ", " << one.name << ": " << one.excluded;
  }
  const auto wrong = run(one, tables());
  ++(wrong.empty() ? total.held : total.failed);
  EXPECT_TRUE(wrong.empty()) << one.place << ", " << one.name << ": " << joined(wrong, "; ")
                             << " (source: " << one.source << ")";
}

GTEST_ALLOW_UNINSTANTIATED_PARAMETERIZED_TEST(Conformance);
INSTANTIATE_TEST_SUITE_P(Cases, Conformance, ::testing::ValuesIn(case_files().cases),
                         [](const auto& one) { return std::to_string(one.index); });

TEST(ConformanceFiles, AreReadWithoutMistakes) {
  for (const std::string& mistake : case_files().mistakes) ADD_FAILURE() << mistake;
}

TEST(ConformanceFiles, AreThere) {
  EXPECT_GE(case_files().cases.size(), kFewestCases);
}

TEST(ConformanceFiles, NameOnlyKnownSources) {
  for (const Case& one : case_files().cases) {
    const std::string id = one.source.substr(0, one.source.find(' '));
    EXPECT_NE(tables().source(id), nullptr) << one.place << ": no source " << id;
  }
}

// A rule that no published value speaks for may compute anything.
TEST(ConformanceFiles, SpeakOfEveryShippedRule) {
  std::set<std::string> spoken_of;
  for (const Case& one : case_files().cases) {
    if (!one.excluded.empty()) continue;
    spoken_of.insert(one.rule);
    for (const ZoneRule& rule : tables().rules) {
      if (one.figure.starts_with(rule.id + ".")) spoken_of.insert(rule.id);
    }
  }
  for (const ZoneRule& rule : tables().rules) {
    EXPECT_TRUE(spoken_of.contains(rule.id)) << "no case for the rule " << rule.id;
  }
}

TEST(ConformanceReader, RefusesWhatItDoesNotKnow) {
  const auto folder = std::filesystem::temp_directory_path() /
                      ("rootstead-conformance-" + std::to_string(::getpid()));
  std::filesystem::create_directories(folder);
  {
    std::ofstream out(folder / "wrong.case");
    out << "case: a\nfigure: x\nexpekt: radius 3\nexpect: radius three\nno colon\n";
  }
  const CaseFile file = read_case_files(folder);
  std::filesystem::remove_all(folder);
  EXPECT_EQ(file.cases.size(), 1u);
  // no colon; two lines not understood; nothing expected; no source, status, value
  EXPECT_EQ(file.mistakes.size(), 7u);
}

TEST(ConformanceRunner, SeesAWrongValueAWrongStatusAndAMissingFailure) {
  Case one;
  one.figure = "bs5837-2012.zone stem=500mm";
  one.status = "published";
  one.expected = {{"radius", 6.0, "m", 0.005}};
  EXPECT_TRUE(run(one, tables()).empty());
  one.expected[0].value = 6.02;
  EXPECT_EQ(run(one, tables()).size(), 1u);
  one.status = "from memory";
  EXPECT_EQ(run(one, tables()).size(), 2u);
  one.fails = "palm";
  EXPECT_EQ(run(one, tables()).size(), 1u);
}

}  // namespace
}  // namespace rootstead::conformance
