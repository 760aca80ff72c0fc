#include "io/tables.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>

#include "engine/rules/zone.hpp"
#include "io/embedded.hpp"
#include "io/table_files.hpp"
#include "tests/support/shared_data.hpp"

namespace rootstead::io {
namespace {

constexpr const char* kSound = R"(id = "my-town"
title = "My town, root zone"
measured_at = "4.5 ft"
source = "my-code"
status = "published"

[[sources]]
id = "my-code"
title = "My town, municipal code 12.3"

[[zone]]
id = "root-zone"
name = "Root zone"
largest_of = [{ stem_feet_per_inch = 1 }, { crown_outline_plus = "5 ft" }]
at_least = "8 ft"

[[limit]]
id = "quarter"
zone = "root-zone"
counts = "share of area"
more_than = "25 %"
weight = "justify"
triggers = "more than a quarter of the root zone"
)";

std::string with(const std::string& from, const std::string& to) {
  std::string text = kSound;
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}

// A folder of its own for each test.
class ExtraRules : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ =
        std::filesystem::temp_directory_path() / ("rootstead-rules-" + std::to_string(::getpid()));
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  void write(const std::string& name, const std::string& text) {
    std::ofstream(folder_ / name) << text;
  }
  std::filesystem::path folder_;
};

TEST(ShippedTables, LoadAndAreCoherent) {
  const auto tables = load_tables();
  ASSERT_TRUE(tables.ok()) << tables.error().sentence();
  EXPECT_GE(tables->rules.size(), 40u);
  EXPECT_FALSE(tables->version.empty());
  for (const Error& error : coherence(*tables)) ADD_FAILURE() << error.sentence();
}

TEST(ShippedTables, AreThoseOfTheSourceTree) {
  for (const EmbeddedFile& file : embedded_files()) {
    std::ifstream in(test::source_dir() / "data" / file.name, std::ios::binary);
    const std::string on_disk((std::istreambuf_iterator<char>(in)), {});
    EXPECT_EQ(on_disk, file.text) << file.name;
  }
}

TEST(ShippedRules, HaveNoMistakes) {
  int rules = 0;
  for (const EmbeddedFile& file : embedded_files()) {
    if (!file.name.starts_with("rules/") || !file.name.ends_with(".toml")) continue;
    ++rules;
    const RuleReading reading = read_rule(file.text, file.name);
    for (const Error& mistake : reading.mistakes) ADD_FAILURE() << mistake.sentence();
    EXPECT_EQ("rules/" + reading.rule.id + ".toml", file.name);
  }
  EXPECT_GE(rules, 40);
}

// Palms and other monocots never go through stem-diameter rules.
TEST(ShippedRules, NeverDrawAPalmByItsStem) {
  const Tables tables = load_tables().value();
  Tree palm;
  palm.id = "P";
  palm.form = GrowthForm::palm;
  palm.crown.emplace().radius.fill({2.5, LengthUnit::metre});
  palm.height = EnteredLength{10, LengthUnit::metre};
  const EnteredLength thin{20, LengthUnit::centimetre}, thick{90, LengthUnit::centimetre};
  for (const ZoneRule& rule : tables.rules) {
    palm.stems = {{Stem::Read::diameter, thin, {}}};
    palm.basal_diameter = thin;
    const auto with_thin = zones_of(palm, rule, tables);
    palm.stems[0].size = thick;
    palm.basal_diameter = thick;
    const auto with_thick = zones_of(palm, rule, tables);
    ASSERT_EQ(with_thin.ok(), with_thick.ok()) << rule.id;
    if (!with_thin) continue;
    for (std::size_t i = 0; i < with_thin->size(); ++i) {
      const Zone &a = (*with_thin)[i], &b = (*with_thick)[i];
      // From the bark the trunk itself still counts.
      const double trunk = (b.diameter - a.diameter).metres() / 2;
      EXPECT_NEAR(b.radius.metres() - a.radius.metres(), trunk, 1e-9) << rule.id << " " << a.zone;
    }
  }
}

TEST(ReadRule, ReadsASoundRule) {
  const RuleReading reading = read_rule(kSound, "my-town.toml");
  for (const Error& mistake : reading.mistakes) ADD_FAILURE() << mistake.sentence();
  const ZoneRule& rule = reading.rule;
  EXPECT_EQ(rule.id, "my-town");
  EXPECT_EQ(rule.measured_at, (EnteredLength{4.5, LengthUnit::foot}));
  ASSERT_EQ(rule.zones.size(), 1u);
  ASSERT_EQ(rule.zones[0].terms.size(), 2u);
  EXPECT_EQ(rule.zones[0].terms[0].factor, 12);
  EXPECT_EQ(rule.zones[0].from, (Citation{"my-code", "", Status::published}));
  ASSERT_EQ(rule.limits.size(), 1u);
  EXPECT_EQ(rule.limits[0].threshold, 0.25);
  EXPECT_FALSE(rule.limits[0].inclusive);
}

TEST(ReadRule, ReportsAllMistakesAtOnceInTheOrderOfTheirLines) {
  const RuleReading reading = read_rule(
      "id = 5\ntitel = 'x'\nmeasured_at = 1.5\nstatus = 'read'\nstems = 'summ'\nsource = 'crz-us'\n"
      "[[zone]]\nid = 'a b'\nlargest_of = [{ stem_tims = 12 }, { fixed = '3' }]\nat_most = '3 m'\n"
      "at_least = '4 m'\n[[limit]]\nid = 'x'\nzone = 'rpaa'\ncounts = 'share of area'\n"
      "more_than = 3\n",
      "t.toml");
  EXPECT_GE(reading.mistakes.size(), 14u);
  for (const Error& mistake : reading.mistakes) {
    EXPECT_TRUE(mistake.subject.starts_with("t.toml line ")) << mistake.sentence();
    EXPECT_FALSE(mistake.remedy.empty()) << mistake.sentence();
  }
}

TEST(ReadRule, SaysWhereATextIsNoToml) {
  const RuleReading reading = read_rule(with("title = \"My", "title = My"), "t.toml");
  ASSERT_EQ(reading.mistakes.size(), 1u);
  const std::string sentence = reading.mistakes[0].sentence();
  EXPECT_TRUE(sentence.starts_with("t.toml line 2: this is not TOML: ")) << sentence;
  EXPECT_TRUE(sentence.ends_with("compare the line with the example in docs/formats/rules.md."));
}

// Found by fuzzing: the parser takes for granted that neither occurs.
TEST(ReadRule, RefusesTextsThatTheParserCannotBear) {
  for (const char* text : {"id = \"a\"\n[%x]\n", "id = \"a\"\nH\u00f6he = 1\n"}) {
    const RuleReading reading = read_rule(text, "t.toml");
    ASSERT_EQ(reading.mistakes.size(), 1u);
    EXPECT_TRUE(reading.mistakes[0].sentence().starts_with("t.toml line 2: "));
  }
}

struct Mistake {
  const char* what;
  const char* from;
  const char* to;
  const char* sentence;  // what it must say
};
class RuleMistakes : public ::testing::TestWithParam<Mistake> {};

TEST_P(RuleMistakes, GetOneClearSentence) {
  const RuleReading reading = read_rule(with(GetParam().from, GetParam().to), "t.toml");
  ASSERT_EQ(reading.mistakes.size(), 1u)
      << GetParam().what << ": "
      << (reading.mistakes.empty() ? "no mistake" : reading.mistakes[1].sentence());
  EXPECT_EQ(reading.mistakes[0].sentence(), GetParam().sentence);
}

INSTANTIATE_TEST_SUITE_P(
    OfEachKind, RuleMistakes,
    ::testing::Values(
        Mistake{
            "unknown key", "source = \"my-code\"", "source = \"my-code\"\njuristiction = \"x\"",
            "t.toml line 5: the key \"juristiction\" is not known here; perhaps \"jurisdiction\" "
            "is meant."},
        Mistake{"id is a number", "id = \"my-town\"", "id = 5",
                "t.toml line 1: id is not a text; put it in quotes, e.g. id = \"...\"."},
        Mistake{
            "id with a blank", "my-town\"\n", "my town\"\n",
            "t.toml line 1: \"my town\" is no id; write it in small letters, digits, hyphens and "
            "points, e.g. \"springboro-oh\"."},
        Mistake{
            "no unit", "\"4.5 ft\"", "4.5",
            "t.toml line 3: measured_at has no unit; write it as text with its unit, e.g. \"1.5 "
            "m\" or \"8 ft\"."},
        Mistake{
            "no unit in the text", "\"4.5 ft\"", "\"4.5\"",
            "t.toml line 3: measured_at has no unit; write it as text with its unit, e.g. \"1.5 "
            "m\" or \"8 ft\"."},
        Mistake{
            "measured too high", "\"4.5 ft\"", "\"45 ft\"",
            "t.toml line 3: a stem measured at 45 ft is unlikely; give the height above ground, "
            "e.g. \"4.5 ft\"."},
        Mistake{
            "no measuring height", "measured_at = \"4.5 ft\"\n", "",
            "t.toml line 1: the height at which the stem is measured is missing; add it with its "
            "unit, e.g. measured_at = \"1.5 m\"."},
        Mistake{"unknown convention", "source = \"my-code\"",
                "source = \"my-code\"\nstems = \"larges\"",
                "t.toml line 5: \"larges\" is not known as stems; perhaps \"largest\" is meant."},
        Mistake{"unknown status", "\"published\"", "\"read\"",
                "t.toml line 5: \"read\" is not known as status; known are: published, common "
                "practice, from memory, our assumption."},
        Mistake{"no status", "status = \"published\"\n", "",
                "t.toml line 1: the status of the rule is missing; say whether it was read "
                "(\"published\"), is \"common practice\", is given \"from memory\" or is \"our "
                "assumption\"."},
        Mistake{"no source", "source = \"my-code\"\n", "",
                "t.toml line 1: the source of the rule is missing; name a source of "
                "data/sources.csv, or add one as [[sources]]."},
        Mistake{
            "unknown source", "source = \"my-code\"", "source = \"town-hall-files\"",
            "t.toml line 4: the source \"town-hall-files\" is not known; add it to this file as "
            "[[sources]] with id and title."},
        Mistake{"no size",
                "largest_of = [{ stem_feet_per_inch = 1 }, { crown_outline_plus = \"5 ft\" }]\n",
                "",
                "t.toml line 11: the zone has no size; add one, e.g. largest_of = [{ stem_times = "
                "12 }]."},
        Mistake{"two sizes in one", "1 }, { crown", "1, crown",
                "t.toml line 14: 2 sizes in one pair of braces; give each size braces of its own, "
                "e.g. { stem_times = 12 }."},
        Mistake{"unknown size", "stem_feet_per_inch", "stem_feets_per_inch",
                "t.toml line 14: the key \"stem_feets_per_inch\" is not known here; perhaps "
                "\"stem_feet_per_inch\" is meant."},
        Mistake{
            "size is text", "stem_feet_per_inch = 1", "stem_feet_per_inch = \"1\"",
            "t.toml line 14: stem_feet_per_inch is not a number; write it as a bare number, e.g. "
            "stem_feet_per_inch = 12."},
        Mistake{
            "size far too large", "stem_feet_per_inch = 1 ", "stem_feet_per_inch = 12 ",
            "t.toml line 14: 144 stem diameters is more than any rule asks; check the number: 1 "
            "foot per inch is 12 diameters."},
        Mistake{
            "size below zero", "stem_feet_per_inch = 1 ", "stem_feet_per_inch = -1 ",
            "t.toml line 14: stem times has a factor that is not above zero; give a number above "
            "zero."},
        Mistake{"crown shrunk", "\"5 ft\"", "\"-5 ft\"",
                "t.toml line 14: a crown cannot be shrunk by an offset; use crown_times below 1."},
        Mistake{"bound of zero", "at_least = \"8 ft\"", "at_least = \"0 ft\"",
                "t.toml line 15: at_least is not above zero; give a length, or leave the key out."},
        Mistake{"outline capped", "at_least = \"8 ft\"", "at_most = \"15 m\"",
                "t.toml line 15: a crown outline cannot be cut back to a radius; use "
                "crown_circle_plus, or leave at_most out."},
        Mistake{"unknown form", "at_least = \"8 ft\"", "for = { forms = [\"plam\"] }",
                "t.toml line 15: \"plam\" is not known as forms; perhaps \"palm\" is meant."},
        Mistake{
            "unknown condition of a zone", "at_least = \"8 ft\"", "for = { column = true }",
            "t.toml line 15: the key \"column\" is not known here; perhaps \"columnar\" is meant."},
        Mistake{"flag as text", "at_least = \"8 ft\"", "redraw_at_barriers = \"yes\"",
                "t.toml line 15: redraw_at_barriers is neither true nor false; write "
                "redraw_at_barriers = true or false."},
        Mistake{
            "unknown place of counting", "at_least = \"8 ft\"", "counted_from = \"barck\"",
            "t.toml line 15: \"barck\" is not known as counted_from; perhaps \"bark\" is meant."},
        Mistake{"limit on no zone", "zone = \"root-zone\"", "zone = \"rootzone\"",
                "t.toml line 19: the limit names the zone \"rootzone\", which the rule does not "
                "have; perhaps \"root-zone\" is meant."},
        Mistake{"unknown count", "\"share of area\"", "\"share of aera\"",
                "t.toml line 20: \"share of aera\" is not known as counts; perhaps \"share of "
                "area\" is meant."},
        Mistake{
            "percent without sign", "\"25 %\"", "25",
            "t.toml line 21: the threshold 25 is not a share; give a share above 0 and up to 1, "
            "or a percentage as text, e.g. \"20 %\"."},
        Mistake{"no threshold", "more_than = \"25 %\"\n", "",
                "t.toml line 17: the limit has no threshold; add e.g. more_than = \"20 %\", or "
                "reaching where 20 % itself is too much."},
        Mistake{"two thresholds", "more_than = \"25 %\"",
                "more_than = \"25 %\"\nreaching = \"25 %\"",
                "t.toml line 22: both more_than and reaching are given; keep one of them."},
        Mistake{
            "threshold of another count", "more_than = \"25 %\"",
            "more_than = \"25 %\"\nnearer_than = 0.5",
            "t.toml line 22: counts = \"share of area\" has no use for nearer_than; leave it out, "
            "or change what the limit counts."},
        Mistake{"no weight", "weight = \"justify\"\n", "",
                "t.toml line 17: the limit does not say what passing it means for the tree; add "
                "weight = \"note\", \"measures\", \"justify\" or \"refuse\"."},
        Mistake{"unknown work", "weight = \"justify\"",
                "works = [\"trenches\"]\nweight = \"justify\"",
                "t.toml line 22: \"trenches\" is not known as works; perhaps \"trench\" is meant."},
        Mistake{"no trigger", "triggers = \"more than a quarter of the root zone\"\n", "",
                "t.toml line 17: the limit does not say what it triggers; say it in words."},
        Mistake{"limit named like a zone", "id = \"quarter\"", "id = \"root-zone\"",
                "t.toml line 18: the id \"root-zone\" is used twice; give the limit another id."}));

TEST_F(ExtraRules, AreAddedWithTheirSources) {
  write("my-town.toml", kSound);
  write("notes.txt", "not a rule");
  const auto tables = load_tables(folder_);
  ASSERT_TRUE(tables.ok()) << tables.error().sentence();
  EXPECT_NE(tables->rule("my-town"), nullptr);
  EXPECT_NE(tables->source("my-code"), nullptr);
  EXPECT_EQ(tables->rules.size(), load_tables()->rules.size() + 1);
}

TEST_F(ExtraRules, StandInForAShippedRuleAndSayIt) {
  write("crz.toml", with("id = \"my-town\"", "id = \"crz-1.0\""));
  const auto tables = load_tables(folder_);
  ASSERT_TRUE(tables.ok()) << tables.error().sentence();
  EXPECT_EQ(tables->rules.size(), load_tables()->rules.size());
  const ZoneRule* rule = tables->rule("crz-1.0");
  EXPECT_EQ(rule->title, "My town, root zone");
  ASSERT_FALSE(rule->notes.empty());
  EXPECT_NE(rule->notes.back().find("in place of the shipped rule"), std::string::npos);
}

TEST_F(ExtraRules, WithMistakesStopTheLoading) {
  write("my-town.toml", with("\"25 %\"", "25"));
  const auto tables = load_tables(folder_);
  ASSERT_FALSE(tables.ok());
  EXPECT_EQ(tables.error().code, Code::table_incoherent);
  EXPECT_NE(tables.error().sentence().find("my-town.toml line 21"), std::string::npos);
}

TEST(ExtraRulesFolder, ThatIsAbsentIsSaid) {
  const auto tables = load_tables("/no/such/folder");
  ASSERT_FALSE(tables.ok());
  EXPECT_EQ(tables.error().code, Code::file_not_found);
}

constexpr const char* kSpeciesHeader =
    "botanical_name,common_name,form,architecture,architecture_source,architecture_place,"
    "architecture_status,tolerance,tolerance_disagree,tolerance_source,tolerance_place,"
    "tolerance_status,palm_top_share\n";

TEST(TableFiles, ReadSpecies) {
  std::vector<Error> errors;
  const auto species = read_species(
      std::string(kSpeciesHeader) +
          "Quercus robur,English oak,broadleaf,heart,a,p1,from memory,moderate,yes,b,,published,\n"
          "Phoenix,date palm,palm,,,,,,,,,,0.6\n",
      errors);
  ASSERT_TRUE(errors.empty()) << errors.front().sentence();
  ASSERT_EQ(species.size(), 2u);
  EXPECT_EQ(species[0].architecture_from, (Citation{"a", "p1", Status::memory}));
  EXPECT_TRUE(species[0].sources_disagree);
  EXPECT_EQ(species[1].palm_top_share, 0.6);
}

TEST(TableFiles, SayRowAndColumnOfWhatIsWrong) {
  std::vector<Error> errors;
  const auto species =
      read_species(std::string(kSpeciesHeader) +
                       "Quercus,oak,tree,,,,,,,,,,\nFagus,beech,broadleaf,,,,,,,,,,much\n",
                   errors);
  EXPECT_TRUE(species.empty());
  ASSERT_EQ(errors.size(), 2u);
  EXPECT_EQ(errors[0].sentence(),
            "species.csv row 2: \"tree\" is not known as form; check the word.");
  EXPECT_EQ(errors[1].sentence(),
            "species.csv row 3: palm_top_share is not a number; write it with "
            "a decimal point.");
}

TEST(TableFiles, MissAColumnAloud) {
  std::vector<Error> errors;
  read_parameters(
      "id,low,best,spread,unit,meaning,source,place,status\nx,1,2,fixed,m,a,b,,published\n",
      "roots.csv", errors);
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_EQ(errors[0].sentence(),
            "roots.csv row 2: the column \"high\" is missing; add it to the header.");
}

}  // namespace
}  // namespace rootstead::io
