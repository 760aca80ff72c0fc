// The checklist: nothing is present on an empty site, a full site answers what data can answer, and
// every answer from data turns when its datum goes.
#include "engine/submittal/submittal.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <map>

#include "engine/submittal/checks.hpp"
#include "tests/support/loaded_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using test::loaded_tables;
using test::metres;
using State = SubmittalState;

std::set<std::string> all_outputs() {
  const auto names = submittal_outputs(loaded_tables());
  return {names.begin(), names.end()};
}

Tree full_tree(Tree tree) {
  tree.botanical_name = "Quercus robur";
  tree.common_name = "oak";
  tree.crown->base_height = metres(3);
  tree.category = "A";
  tree.stage = LifeStage::mature;
  tree.protection = "none";
  tree.ownership = "client";
  tree.flare.state = Flare::State::visible;
  tree.intent = Intent::remove;
  return tree;
}

Site full_site() {
  Site site = test::SiteBuilder()
                  .rules({"bs5837-2012"})
                  .tree("T1", {0, 0}, 0.5)
                  .tree("T2", {20, 0}, 0.4)
                  .palm("P1", {40, 0})
                  .trench("W1", {{-5, 3}, {30, 3}}, 0.6, 1.0)
                  .area("W2", WorkKind::traffic, test::rectangle(50, 0, 60, 5), 0)
                  .area("W3", WorkKind::fill, test::rectangle(70, 0, 80, 5), 0.3)
                  .paving("W4", test::rectangle(90, 0, 95, 5))
                  .building("B1", test::rectangle(100, 0, 110, 10));
  for (Tree& tree : site.trees) tree = full_tree(tree);
  site.trees[1].stems.push_back({Stem::Read::girth, metres(0.9), metres(1.4)});
  site.trees[2].clear_trunk = metres(6);
  site.trees[2].intent = Intent::move;
  auto& s = site.settings;
  s.title = "Site", s.address = "1 Road", s.date = "2026-11-27", s.client = "C", s.author = "A";
  s.credentials = "consulting arborist", s.revision = "1", s.status = "draft";
  site.boundary = test::rectangle(-20, -20, 120, 20);
  site.gates.push_back({"G1", {0, -20}, metres(4)});
  site.existing_levels.emplace();
  site.proposed_levels.emplace();
  return site;
}

// A made-up assessment in which every tree has a zone and a verdict.
Assessment full_assessment(const Site& site) {
  Assessment assessment;
  for (const Tree& tree : site.trees) {
    TreeAssessment one;
    one.tree = tree.id;
    one.zones.emplace_back();
    one.verdict.action = Action::keep;
    one.verdict.vitality = one.verdict.stability = Concern::small;
    assessment.trees.push_back(std::move(one));
  }
  return assessment;
}

std::map<std::string, SubmittalLine> lines_of(const Site& site, const Assessment& assessment,
                                              const std::set<std::string>& made) {
  std::map<std::string, SubmittalLine> lines;
  for (auto& line : submittal_checklist(site, loaded_tables(), assessment, made))
    lines[line.id] = line;
  return lines;
}

TEST(Submittal, HasTheHundredAndFortyNineItems) {
  EXPECT_EQ(loaded_tables().submittal_items.size(), 149u);
  for (const SubmittalItem& item : loaded_tables().submittal_items) {
    EXPECT_FALSE(item.sources.empty()) << item.id;
    if (item.answered != SubmittalItem::Answered::from_data) continue;
    EXPECT_NE(submittal_check(item.check), nullptr) << item.id << " " << item.check;
  }
}

TEST(Submittal, CallsNothingPresentOnAnEmptySite) {
  for (const auto& line : submittal_checklist(Site{}, loaded_tables(), {}, {})) {
    EXPECT_NE(line.state, State::present) << line.id;
    EXPECT_FALSE(line.text.empty()) << line.id;
  }
  // Outputs alone answer only what an output can answer.
  for (const auto& [id, line] : lines_of(Site{}, {}, all_outputs()))
    if (line.state == State::present) {
      EXPECT_EQ(line.text.substr(0, 7), "In the ") << id;
    }
}

TEST(Submittal, CallsNothingPresentWithoutItsOutput) {
  const Site site = full_site();
  for (const auto& [id, line] : lines_of(site, full_assessment(site), {}))
    EXPECT_NE(line.state, State::present) << id << " " << line.text;
}

TEST(Submittal, AnswersAFullSite) {
  const Site site = full_site();
  const auto lines = lines_of(site, full_assessment(site), all_outputs());
  for (const char* id :
       {"A1",  "A2",  "A3",  "A4", "A5",  "A7",  "A8",  "A10", "A12", "A17", "A18", "A19", "A20",
        "A21", "A26", "A27", "B1", "B2",  "B11", "B12", "B13", "B14", "B16", "B22", "B27", "B28",
        "C2",  "C3",  "C4",  "C6", "C13", "D1",  "F1",  "F2",  "H3",  "I4",  "J1",  "J8",  "J14"})
    EXPECT_EQ(lines.at(id).state, State::present) << id << " " << lines.at(id).text;
  for (const auto& [id, line] : lines) EXPECT_NE(line.state, State::missing) << id << line.text;
}

TEST(Submittal, SaysWhichTreesLackWhat) {
  Site site = full_site();
  site.trees[0].stems[0].measured_at.reset();
  const auto line = lines_of(site, full_assessment(site), all_outputs()).at("A4");
  EXPECT_EQ(line.state, State::missing);
  EXPECT_EQ(line.subjects, (std::vector<std::string>{"T1"}));
  EXPECT_NE(line.text.find("1 of 2 trees"), std::string::npos) << line.text;
}

TEST(Submittal, LeavesOutWhatTheSiteHasNothingOf) {
  Site site = full_site();
  site.trees.pop_back();  // the palm, which was to be moved
  site.trees[1].stems.pop_back();
  for (Tree& tree : site.trees) tree.intent = Intent::keep;
  site.works = {site.works[3]};  // paving that digs
  site.proposed_levels.reset();
  site.works[0].depth = metres(0);  // laid without digging
  const auto lines = lines_of(site, full_assessment(site), all_outputs());
  for (const char* id : {"A5", "A7", "A8", "B10", "B22", "B23", "C9", "C12", "C13", "C16", "D1",
                         "D14", "F1", "H1", "H11", "I4", "I7"})
    EXPECT_EQ(lines.at(id).state, State::not_applicable) << id << " " << lines.at(id).text;
}

struct Removal {
  const char* id;
  std::function<void(Site&, Assessment&)> remove;
};

// Each line that data decide, and the datum whose absence it must see.
const std::vector<Removal>& removals() {
  using S = Site&;
  using A = Assessment&;
  static const std::vector<Removal> all = {
      {"A1", [](S s, A) { s.trees[0].tag = s.trees[1].tag; }},
      {"A2", [](S s, A) { s.trees[0].botanical_name.clear(); }},
      {"A3", [](S s, A) { s.trees[0].common_name.clear(); }},
      {"A4", [](S s, A) { s.trees[0].stems[0].measured_at.reset(); }},
      {"A5", [](S s, A) { s.settings.rules.clear(); }},
      {"A6", [](S s, A) { s.trees.clear(); }},
      {"A7", [](S s, A) { s.trees[1].stems[1].measured_at.reset(); }},
      {"A8", [](S s, A) { s.trees[2].clear_trunk.reset(); }},
      {"A9", [](S s, A) { s.trees[0].height.reset(); }},
      {"A10", [](S s, A) { s.trees[0].crown.reset(); }},
      {"A11", [](S s, A) { s.trees[0].crown->base_height.reset(); }},
      {"A12", [](S s, A) { s.trees[0].stage = LifeStage::unknown; }},
      {"A13", [](S s, A) { s.trees[0].condition = Condition::unknown; }},
      {"A17", [](S s, A) { s.trees[0].category.clear(); }},
      {"A18", [](S, A a) { a.trees[0].verdict.action = Action::undecided; }},
      {"A19", [](S s, A) { s.trees[0].protection.clear(); }},
      {"A20", [](S s, A) { s.trees[0].ownership.clear(); }},
      {"A21", [](S, A a) { a.trees[0].zones.clear(); }},
      {"A23", [](S s, A) { s.existing_levels.reset(); }},
      {"A24", [](S s, A) { s.trees[0].flare.state = Flare::State::unknown; }},
      {"A26", [](S s, A) { s.trees[0].intent = Intent::undecided; }},
      {"A27", [](S, A a) { a.trees.clear(); }},
      {"A29", [](S s, A) { s.boundary.clear(); }},
      {"B1", [](S s, A) { s.settings.address.clear(); }},
      {"B4", [](S s, A) { s.settings.client.clear(); }},
      {"B5", [](S s, A) { s.boundary.clear(); }},
      {"B6", [](S s, A) { s.barriers.clear(); }},
      {"B7", [](S s, A) { s.works.erase(s.works.begin() + 3); }},
      {"B9", [](S s, A) { s.proposed_levels.reset(); }},
      {"B10", [](S s, A) { s.works[2].depth.reset(); }},
      {"B11", [](S s, A) { s.trees[0].position.reset(); }},
      {"B12", [](S s, A) { s.trees[0].position.reset(); }},
      {"B13", [](S s, A) { s.trees[0].crown.reset(); }},
      {"B14", [](S, A a) { a.trees[0].zones.clear(); }},
      {"B15", [](S s, A) { s.trees[0].intent = Intent::undecided; }},
      {"B20", [](S s, A) { s.gates.clear(); }},
      {"B28", [](S s, A) { s.works[0].shape = {}; }},
      {"C2", [](S, A a) { a.trees[0].verdict.action = Action::undecided; }},
      {"C3", [](S s, A) { s.works.clear(); }},
      {"C4", [](S, A a) { a.trees[0].zones.clear(); }},
      {"C5", [](S, A a) { a.trees[0].zones.clear(); }},
      {"C6", [](S s, A) { s.works[0].shape = {}; }},
      {"C7", [](S, A a) { a.trees[0].verdict.stability = Concern::unknown; }},
      {"C12", [](S s, A) { s.trees[0].ownership.clear(); }},
      {"C13", [](S s, A) { s.works[0].width.reset(); }},
      {"J1", [](S s, A) { s.settings.credentials.clear(); }},
      {"J12", [](S s, A) { s.settings.credentials.clear(); }},
      {"J13", [](S s, A) { s.settings.revision.clear(); }},
  };
  return all;
}

TEST(Submittal, SeesWhenADatumGoes) {
  const Site site = full_site();
  const auto before = lines_of(site, full_assessment(site), all_outputs());
  for (const Removal& removal : removals()) {
    Site less = site;
    Assessment assessment = full_assessment(site);
    removal.remove(less, assessment);
    const auto after = lines_of(less, assessment, all_outputs()).at(removal.id);
    EXPECT_NE(before.at(removal.id).state, State::missing) << removal.id;
    EXPECT_EQ(after.state, State::missing) << removal.id << " " << after.text;
  }
}

// Lines that only say whether they apply, and the roots looked for, flip otherwise.
TEST(Submittal, DecidesEveryDataLineByACheckThatWasSeenToTurn) {
  std::set<std::string> turned;
  for (const Removal& removal : removals()) turned.insert(removal.id);
  for (const SubmittalItem& item : loaded_tables().submittal_items) {
    if (item.answered != SubmittalItem::Answered::from_data || turned.contains(item.id)) continue;
    EXPECT_TRUE(item.check.ends_with("-works") || item.check == "removed-trees" ||
                item.check == "moved-trees" || item.check == "roots-looked-for")
        << item.id;
  }
}

TEST(Submittal, AsksForRootsWhereALimitAsksForAJustification) {
  Site site = full_site();
  Assessment assessment = full_assessment(site);
  EXPECT_EQ(lines_of(site, assessment, all_outputs()).at("C16").state, State::not_applicable);
  LimitResult limit;
  limit.passed_over = true;
  limit.weight = LimitDefinition::Weight::justify;
  assessment.trees[0].zones[0].limits = {limit};
  EXPECT_EQ(lines_of(site, assessment, all_outputs()).at("C16").state, State::missing);
  site.evidence.emplace_back();
  site.evidence.back().tree = "T1";
  EXPECT_EQ(lines_of(site, assessment, all_outputs()).at("C16").state, State::present);
}

TEST(Submittal, LeavesAnUnknownCheckToThePerson) {
  Tables tables;
  SubmittalItem item;
  item.id = "X1";
  item.answered = SubmittalItem::Answered::from_data;
  item.check = "no-such-check";
  tables.submittal_items = {item};
  EXPECT_EQ(submittal_checklist({}, tables, {}, {}).front().state, State::yours);
}

}  // namespace
}  // namespace rootstead
