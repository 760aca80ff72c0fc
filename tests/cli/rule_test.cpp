// rule: list, show and check.
#include <gtest/gtest.h>

#include "tests/cli/command_line.hpp"

namespace rootstead::test {
namespace {

TEST(RuleCommand, ListsTheShippedRulesWithTheirWeakestStatus) {
  const Ran ran = run({"rule", "list"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  for (const char* part : {"bs5837-2012", "as4970-2009", "from memory", "United Kingdom"}) {
    EXPECT_NE(ran.out.find(part), std::string::npos) << part;
  }
  EXPECT_GE(run({"rule", "list", "--json"}).json().size(), 10U);
}

TEST(RuleCommand, ShowsZonesLimitsAndSources) {
  const Ran ran = run({"rule", "show", "bs5837-2012"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  for (const char* part : {"12 D", "at most   15 m", "source", "[published]", "limit "}) {
    EXPECT_NE(ran.out.find(part), std::string::npos) << part << " in " << ran.out;
  }
  const nlohmann::json rule = run({"rule", "show", "bs5837-2012", "--json"}).json();
  EXPECT_EQ(rule.value("id", ""), "bs5837-2012");
  EXPECT_FALSE(rule.at("zones").empty());
}

TEST(RuleCommand, CheckExplainsEveryMistakeAtOnce) {
  const OwnFolder folder;
  const std::string file = folder.write("town.toml",
                                        "id = \"our-town\"\n"
                                        "title = 7\n"
                                        "measured_at = \"1.3 parsecs\"\n"
                                        "wibble = true\n");
  const Ran ran = run({"rule", "check", file});
  EXPECT_EQ(ran.exit, 1);
  for (const char* part : {"title", "measured_at", "wibble"}) {
    EXPECT_NE(ran.out.find(part), std::string::npos) << part << " in " << ran.out;
  }
  EXPECT_GE(run({"rule", "check", file, "--json"}).json().at("mistakes").size(), 3U);
}

TEST(RuleCommand, CheckOfATextThatIsNoTomlNamesTheLine) {
  const OwnFolder folder;
  const Ran ran = run({"rule", "check", folder.write("broken.toml", "id = \"a\"\nzone = [[[\n")});
  EXPECT_EQ(ran.exit, 1);
  EXPECT_NE(ran.out.find("line"), std::string::npos) << ran.out;
}

}  // namespace
}  // namespace rootstead::test
