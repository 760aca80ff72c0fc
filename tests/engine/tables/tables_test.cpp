#include "engine/tables/tables.hpp"

#include <gtest/gtest.h>

#include "engine/base/nearest.hpp"
#include "engine/tables/rule_faults.hpp"

namespace rootstead {
namespace {

Species species(std::string name, GrowthForm form = GrowthForm::broadleaf) {
  Species row;
  row.botanical_name = std::move(name);
  row.form = form;
  return row;
}

Tables some_tables() {
  Tables tables;
  tables.version = "1";
  tables.species = {species("Quercus robur"), species("Quercus"), species("Platanus hispanica"),
                    species("Phoenix canariensis", GrowthForm::palm)};
  tables.sources = {{"a-2001", "A (2001)", ""}, {"b-2002", "B (2002)", ""}};
  tables.parameters = {{"x.y", 1, 2, 3, "fixed", "m", "a length", {"a-2001", "", Status::memory}}};
  return tables;
}

ZoneRule sound_rule() {
  ZoneRule rule;
  rule.id = "town";
  rule.title = "Town";
  rule.measured_at = {1.4, LengthUnit::metre};
  ZoneDefinition zone;
  zone.id = "root-zone";
  zone.name = "Root zone";
  zone.terms.push_back({});
  zone.terms.back().factor = 12;
  zone.from = {"a-2001", "", Status::published};
  rule.zones.push_back(zone);
  LimitDefinition limit;
  limit.id = "quarter";
  limit.zone = "root-zone";
  limit.threshold = 0.25;
  limit.triggers = "ask";
  limit.from = {"a-2001", "", Status::published};
  rule.limits.push_back(limit);
  return rule;
}

std::string found(const Tables& tables, std::string_view name) {
  const Species* row = tables.species_of(name);
  return row == nullptr ? "" : row->botanical_name;
}

TEST(SpeciesOf, FindsTheSpeciesElseTheGenusElseNothing) {
  const Tables tables = some_tables();
  EXPECT_EQ(found(tables, "Quercus robur"), "Quercus robur");
  EXPECT_EQ(found(tables, "Quercus rubra"), "Quercus");
  EXPECT_EQ(found(tables, "Quercus"), "Quercus");
  EXPECT_EQ(found(tables, "Quercus sp."), "Quercus");
  EXPECT_EQ(found(tables, "Betula pendula"), "");
  EXPECT_EQ(found(tables, ""), "");
  EXPECT_EQ(found(tables, "  "), "");
}

TEST(SpeciesOf, DoesNotMindCaseAuthorsCultivarsAndHybridSigns) {
  const Tables tables = some_tables();
  EXPECT_EQ(found(tables, "QUERCUS ROBUR L."), "Quercus robur");
  EXPECT_EQ(found(tables, "quercus robur 'Fastigiata'"), "Quercus robur");
  EXPECT_EQ(found(tables, "Platanus x hispanica"), "Platanus hispanica");
  EXPECT_EQ(found(tables, "Platanus \xC3\x97 hispanica Mill. ex Muenchh."), "Platanus hispanica");
  EXPECT_EQ(found(tables, "Platanus \xC3\x97hispanica"), "Platanus hispanica");
}

TEST(SameTaxon, TakesAGenusForAllItsSpecies) {
  EXPECT_TRUE(same_taxon("Pinus elliottii Engelm.", "Pinus"));
  EXPECT_TRUE(same_taxon("Sabal palmetto", "sabal palmetto"));
  EXPECT_FALSE(same_taxon("Sabal minor", "Sabal palmetto"));
  EXPECT_FALSE(same_taxon("", "Pinus"));
}

TEST(Tables, GivesRulesSourcesAndParametersById) {
  Tables tables = some_tables();
  tables.rules = {sound_rule()};
  EXPECT_EQ(tables.rule("town")->title, "Town");
  EXPECT_EQ(tables.rule("towns"), nullptr);
  EXPECT_EQ(tables.source("b-2002")->title, "B (2002)");
  EXPECT_EQ(tables.parameter("x.y").best, 2);
}

TEST(Coherence, IsSilentForSoundTables) {
  Tables tables = some_tables();
  tables.rules = {sound_rule()};
  for (const Error& error : coherence(tables)) ADD_FAILURE() << error.sentence();
}

TEST(Coherence, FindsUnknownSourcesDuplicatesAndFallingRanges) {
  Tables tables = some_tables();
  tables.rules = {sound_rule(), sound_rule()};
  tables.rules[0].zones[0].from.source = "a-2010";
  tables.sources.push_back(tables.sources[0]);
  tables.parameters[0].low = 9;
  tables.species[3].form = GrowthForm::unknown;
  std::vector<std::string> sentences;
  for (const Error& error : coherence(tables)) sentences.push_back(error.sentence());
  EXPECT_EQ(sentences.size(), 5u);
  EXPECT_EQ(sentences[0], "rules: \"town\" is there twice; keep one of the two.");
  EXPECT_EQ(sentences[1], "sources.csv: \"a-2001\" is there twice; keep one of the two.");
  EXPECT_EQ(sentences[2],
            "rule town, zone root-zone: the source \"a-2010\" is not in sources.csv; perhaps "
            "\"a-2001\" is meant.");
}

std::vector<std::string> faults(const ZoneRule& rule) {
  std::vector<std::string> messages;
  for (const RuleFault& fault : faults_of(rule)) messages.push_back(fault.message);
  return messages;
}

TEST(RuleFaults, AreNoneForASoundRule) {
  EXPECT_TRUE(faults(sound_rule()).empty());
}

TEST(RuleFaults, FindAnAlternativeThatNoTreeCanReach) {
  ZoneRule rule = sound_rule();
  rule.zones.push_back(rule.zones[0]);
  EXPECT_EQ(faults(rule).size(), 1u);
  rule.zones[0].applies.columnar = true;
  EXPECT_TRUE(faults(rule).empty());
}

TEST(RuleFaults, LetAPalmClauseShareAnId) {
  ZoneRule rule = sound_rule();
  rule.zones.push_back(rule.zones[0]);
  rule.zones[1].applies.forms = {GrowthForm::palm};
  EXPECT_TRUE(faults(rule).empty());
}

TEST(RuleFaults, DoNotLetACrownOutlineBeCapped) {
  ZoneRule rule = sound_rule();
  rule.zones[0].terms[0].kind = ZoneTerm::Kind::crown_outline;
  rule.zones[0].at_most = EnteredLength{15, LengthUnit::metre};
  EXPECT_EQ(faults(rule).size(), 1u);
}

template <class Enum>
void expect_words_both_ways(std::initializer_list<Enum> values,
                            std::optional<Enum> (*from)(std::string_view)) {
  for (const Enum value : values) {
    EXPECT_EQ(from(to_text(value)), value) << to_text(value);
  }
  EXPECT_EQ(from("no such word"), std::nullopt);
}

TEST(RuleWords, ReadBackToThemselves) {
  using Measure = LimitDefinition::Measure;
  using Weight = LimitDefinition::Weight;
  expect_words_both_ways(
      {ZonePurpose::vitality, ZonePurpose::stability, ZonePurpose::crown, ZonePurpose::precaution},
      zone_purpose_from);
  expect_words_both_ways({ZoneCentre::stem_centre, ZoneCentre::bark}, zone_centre_from);
  expect_words_both_ways({StemMeasure::standard, StemMeasure::basal}, stem_measure_from);
  expect_words_both_ways({LargestBy::reach, LargestBy::area}, largest_by_from);
  expect_words_both_ways({Measure::area_share, Measure::unsurfaced_share, Measure::any_entry,
                          Measure::nearest_approach, Measure::nearest_distance,
                          Measure::level_change, Measure::trench_side},
                         limit_measure_from);
  expect_words_both_ways({Weight::note, Weight::measures, Weight::justify, Weight::refuse},
                         limit_weight_from);
  expect_words_both_ways(
      {Tolerance::unknown, Tolerance::good, Tolerance::moderate, Tolerance::poor}, tolerance_from);
  expect_words_both_ways({RootArchitecture::unknown, RootArchitecture::heart,
                          RootArchitecture::plate, RootArchitecture::tap},
                         root_architecture_from);
}

TEST(Nearest, FindsTheWordThatWasMeant) {
  EXPECT_EQ(edit_distance("stem", "stem"), 0);
  EXPECT_EQ(edit_distance("stem", "setm"), 1);
  EXPECT_EQ(edit_distance("", "stem"), 4);
  EXPECT_EQ(nearest("stem_tiems", {"girth_times", "stem_times"}), "stem_times");
  EXPECT_EQ(nearest("at", {"at_least", "fixed"}), "at_least");
  EXPECT_EQ(nearest("zebra", {"at_least", "fixed"}), "");
  EXPECT_EQ(suggestion("zebra", {"at_least", "fixed"}), "known are: at_least, fixed");
}

RC_GTEST_PROP(Nearest, DistanceIsSymmetricAndZeroOnlyForTheSameWord, ()) {
  const auto word = rc::gen::container<std::string>(rc::gen::inRange('a', 'e'));
  const std::string a = *word, b = *word;
  RC_ASSERT(edit_distance(a, b) == edit_distance(b, a));
  RC_ASSERT((edit_distance(a, b) == 0) == (a == b));
}

}  // namespace
}  // namespace rootstead
