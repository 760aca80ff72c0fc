// The chapters of advice: everything said once, numbered, legible in grey, and nothing where there
// is nothing to say.
#include <gtest/gtest.h>

#include <map>
#include <set>
#include <sstream>

#include "report/method_lines.hpp"
#include "report/report.hpp"
#include "tests/report/advised_plan.hpp"
#include "tests/report/pages.hpp"

namespace rootstead::test {
namespace {

using layout::Bookmark;
using layout::Document;
using layout::Page;
using layout::Path;
using layout::Tag;
using layout::Target;
using layout::Text;

Document made(const Advised& advised, SheetSize sheet) {
  const auto meter = layout::pango_meter();
  auto document = make_report(advised.plan(), ReportOptions{sheet, 0}, *meter);
  EXPECT_TRUE(document.ok());
  return document ? std::move(document).value() : Document{};
}

const Document& metric() {
  static const Document document = made(advised(), SheetSize::a3);
  return document;
}
const Document& us() {
  static const Document document = made(advised(UnitSystem::us_customary), SheetSize::tabloid);
  return document;
}
const Document& little() {
  static const Document document = made(advised_of_little(), SheetSize::a3);
  return document;
}

std::vector<std::string> titles(const Document& document) {
  std::vector<std::string> all;
  for (const Page& page : document.pages)
    for (const auto* mark : all_of<Bookmark>(page))
      if (mark->level == 1) all.push_back(mark->title);
  return all;
}

bool has_chapter(const Document& document, const std::string& title) {
  const auto all = titles(document);
  return std::count(all.begin(), all.end(), title) == 1;
}

class AdvicePages : public ::testing::TestWithParam<const Document& (*)()> {
 protected:
  const Document& document_ = GetParam()();
};

TEST_P(AdvicePages, HaveNoTextOverAnotherAndNoneOffTheSheet) {
  for (std::size_t i = 0; i < document_.pages.size(); ++i) {
    for (const std::string& pair : overlapping_texts(document_.pages[i]))
      ADD_FAILURE() << "page " << i + 1 << ": " << pair;
    for (const std::string& text : texts_off_sheet(document_.pages[i]))
      ADD_FAILURE() << "page " << i + 1 << ": " << text;
  }
}

TEST_P(AdvicePages, LinkOnlyToPlacesThatExistOnce) {
  std::set<std::string> targets;
  for (const Page& page : document_.pages)
    for (const auto* target : all_of<Target>(page))
      EXPECT_TRUE(targets.insert(target->name).second) << target->name << " stands twice";
  for (const Page& page : document_.pages) {
    for (const auto* text : all_of<Text>(page))
      EXPECT_TRUE(text->link.empty() || targets.contains(text->link)) << text->link;
    for (const auto* mark : all_of<Bookmark>(page)) EXPECT_TRUE(targets.contains(mark->target));
  }
}

TEST_P(AdvicePages, CloseEveryTagOnTheirOwnPage) {
  for (const Page& page : document_.pages) {
    int open = 0;
    for (const auto* tag : all_of<Tag>(page)) open += tag->opens ? 1 : -1;
    EXPECT_EQ(open, 0);
  }
}

TEST_P(AdvicePages, SpeakNeverOfSafeTreesNorOfAScore) {
  const std::string text = text_of(document_);
  for (const char* word : {"is safe", "are safe", "overall"})
    EXPECT_EQ(text.find(word), std::string::npos) << word;
}

INSTANTIATE_TEST_SUITE_P(reports, AdvicePages, ::testing::Values(&metric, &us, &little));

bool has_target(const Document& document, std::string_view prefix) {
  for (const Page& page : document.pages)
    for (const auto* target : all_of<Target>(page))
      if (target->name.starts_with(prefix)) return true;
  return false;
}

TEST(OutputsInReport, AreThoseWhosePagesItHolds) {
  for (const auto& [advised_of, document] :
       {std::pair{&advised(), &metric()}, std::pair{&advised_of_little(), &little()}}) {
    const auto outputs = outputs_in_report(advised_of->plan());
    const auto held = [&](const char* name) { return outputs.contains(name); };
    EXPECT_EQ(held("protection plan"), has_target(*document, "protection"));
    EXPECT_EQ(held("monitoring plan"), has_chapter(*document, "Monitoring plan"));
    EXPECT_EQ(held("replacement table"), has_chapter(*document, "Replacement and guarantee"));
    const std::string text = text_of(*document);
    const auto says = [&](const char* words) { return text.find(words) != std::string::npos; };
    EXPECT_EQ(held("method statement on root cuts"), says("Roots cut of"));
    EXPECT_EQ(held("method statement on moving trees"), says("Advised as "));
    EXPECT_EQ(held("method statement on aftercare"),
              says("In dry weather ") || says("No amount can be given"));
  }
  EXPECT_EQ(outputs_in_report(advised().plan()).size(), 9u);
  EXPECT_LT(outputs_in_report(advised_of_little().plan()).size(), 9u);
}

// The tree's page and the method statement tell one watering with one figure.
TEST(TreeAdvicePages, TellThePortionsOfTheMethodStatement) {
  const std::string text = text_of(metric());
  std::size_t told = 0;
  for (const TreeAdvice& tree : advised().advice.trees) {
    if (!tree.water || !tree.water->amounts) continue;
    for (const Prescription& p : tree.water->prescriptions) {
      const std::size_t from = p.text.find("in portions of about ");
      if (from == std::string::npos) continue;
      const std::string words =
          p.text.substr(from, p.text.find(',', p.text.find(" L ", from)) - from);
      EXPECT_NE(text.find("given " + words + "."), std::string::npos) << words;
      ++told;
    }
  }
  EXPECT_GT(told, 0u);
}

TEST(MethodLines, HoldEveryPrescriptionOnce) {
  using Key = std::tuple<std::string, std::string, std::string>;
  std::map<Key, int> said;
  for (const MethodGroup& group : method_lines(advised().plan())) {
    for (const MethodTopic& topic : group.topics) {
      for (const MethodLine& line : topic.lines) {
        const Prescription& p = line.prescription;
        const auto trees = line.trees.empty() ? std::vector<std::string>{""} : line.trees;
        for (const std::string& tree : trees) ++said[{p.text, tree, p.work}];
        for (const AlikeLine& one : line.alike) {
          const auto others = one.trees.empty() ? std::vector<std::string>{""} : one.trees;
          for (const std::string& tree : others)
            ++said[{one.prescription.text, tree, one.prescription.work}];
        }
      }
    }
  }
  const auto prescriptions = advised().advice.prescriptions();
  EXPECT_GT(prescriptions.size(), 60u);
  EXPECT_EQ(said.size(), prescriptions.size());
  for (const Prescription& p : prescriptions) {
    EXPECT_EQ((said[{told_in_method(p), p.tree, p.work}]), 1) << p.text;
  }
}

TEST(PagesOfAdvice, SayOnTheCoverWhatIsMeantWhateverTheVerdict) {
  const std::string cover = text_of(metric().pages.front());
  EXPECT_NE(cover.find("Meant by the client"), std::string::npos);
  for (const Tree& tree : advised().sample.site.trees)
    if (tree.intent == Intent::remove || tree.intent == Intent::move) {
      EXPECT_NE(cover.find(tree.label()), std::string::npos) << tree.id;
    }
}

TEST(PagesOfAdvice, SayWhoseAFurtherPageOfATreeIs) {
  Advised much = advised();  // so much of one tree that no page holds it
  for (TreeAssessment& tree : much.sample.assessment.trees)
    if (tree.tree == "T1")
      for (int i = 0; i < 60; ++i)
        tree.verdict.reasons.push_back(
            {Reason::About::tree, "Reason " + std::to_string(i) + " of many.", {}, {}, {}});
  const std::string name = much.sample.site.tree("T1")->label();
  std::size_t further = 0;
  for (const Page& page : made(much, SheetSize::a3).pages) {
    for (const auto* text : all_of<Text>(page, "continued")) {
      further += text->text.starts_with(name + " ");
      EXPECT_TRUE(text->text.ends_with(", continued")) << text->text;
      EXPECT_TRUE(overlapping_texts(page).empty());
    }
  }
  EXPECT_GT(further, 0U);
}

TEST(PagesOfAdvice, SpeakOfThicknessInTheUnitsOfTheSheet) {
  for (const Page& page : us().pages)
    for (const auto* text : all_of<Text>(page, "roots-note"))
      EXPECT_EQ(text->text.find(" mm"), std::string::npos) << text->text;
}

TEST(MethodLines, AreNumberedWithoutAGapAndPrintedOnce) {
  std::size_t count = 0;
  for (const MethodGroup& group : method_lines(advised().plan()))
    for (const MethodTopic& topic : group.topics)
      for (const MethodLine& line : topic.lines)
        EXPECT_EQ(line.number, "M" + std::to_string(++count));
  std::map<std::string, int> printed;
  for (const Page& page : metric().pages)
    for (const auto* text : all_of<Text>(page, "method:"))
      if (text->text.starts_with("M") && text->text.size() < 6) ++printed[text->text];
  EXPECT_EQ(printed.size(), count);
  for (const auto& [number, times] : printed) EXPECT_EQ(times, 1) << number;
}

// What was folded into a line can be read in its row: every word with a digit is there, its own or
// that of the line it was folded into.
TEST(MethodLines, PrintEveryFigureOfWhatTheyFold) {
  std::map<std::string, std::string> rows;
  for (const Page& page : metric().pages)
    for (const layout::Element& e : page.elements)
      if (const auto* text = std::get_if<Text>(&e.what)) rows[e.name] += text->text + " ";
  std::size_t folded = 0;
  for (const MethodGroup& group : method_lines(advised().plan())) {
    for (const MethodTopic& topic : group.topics) {
      for (const MethodLine& line : topic.lines) {
        for (const AlikeLine& one : line.alike) {
          ++folded;
          std::istringstream words(one.prescription.text + " " + one.prescription.reason);
          for (std::string word; words >> word;) {
            while (std::string_view(",:;.)").find(word.back()) != std::string_view::npos)
              word.pop_back();
            if (word.starts_with('(')) word.erase(0, 1);
            if (word.find_first_of("0123456789") == std::string::npos) continue;
            EXPECT_NE(rows["method:" + line.number].find(word), std::string::npos)
                << line.number << ": " << word;
          }
        }
      }
    }
  }
  EXPECT_GT(folded, 10u);
}

double amount_of(const Prescription& p, std::string_view name) {
  for (const Figure& figure : p.figures)
    if (figure.name == "protection." + std::string(name)) return figure.value;
  return 0;
}

// Of a stretch of fence, of digging or of cut roots.
double length_of(const Prescription& p) {
  for (const char* name : {"stretch", "dig", "root-cut"})
    if (const double length = amount_of(p, name); length > 0) return length;
  return 0;
}

// Merging loses no metre: what is measured along or over the ground sums to the same.
TEST(MethodLines, KeepTheSumOfEveryMeasure) {
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us_customary}) {
    const Advised& made_of = advised(units);
    for (const char* name : {"stretch", "dig", "root-cut", "cover", "no-dig"}) {
      double before = 0, after = 0;
      for (const Prescription& p : made_of.advice.prescriptions()) before += amount_of(p, name);
      for (const MethodGroup& group : method_lines(made_of.plan()))
        for (const MethodTopic& topic : group.topics)
          for (const MethodLine& line : topic.lines) {
            after += amount_of(line.prescription, name);
            for (const AlikeLine& one : line.alike) after += amount_of(one.prescription, name);
          }
      EXPECT_GT(before, 0) << name;
      EXPECT_NEAR(after, before, 1e-9 * (1 + before)) << name;
    }
  }
}

// The words of every instruction are printed: its own, or those of the line it was folded into,
// whose words without a digit are the same; and the length of all stretches stands in the row.
TEST(MethodLines, PrintTheWordsAndTheSumOfWhatTheyFold) {
  std::map<std::string, std::string> rows;
  for (const Page& page : metric().pages)
    for (const layout::Element& e : page.elements)
      if (const auto* text = std::get_if<Text>(&e.what)) rows[e.name] += text->text + " ";
  std::size_t sums = 0;
  for (const MethodGroup& group : method_lines(advised().plan())) {
    for (const MethodTopic& topic : group.topics) {
      for (const MethodLine& line : topic.lines) {
        const std::string& row = rows["method:" + line.number];
        EXPECT_NE(row.find(line.prescription.text), std::string::npos) << line.number;
        double length = length_of(line.prescription);
        bool folded = false;
        for (const AlikeLine& one : line.alike) {
          length += length_of(one.prescription);
          folded = folded || !one.figures.empty();
          std::istringstream words(one.prescription.text);
          for (std::string word; words >> word;) {
            if (word.find_first_of("0123456789") != std::string::npos) continue;
            EXPECT_NE(row.find(word), std::string::npos) << line.number << ": " << word;
          }
        }
        if (length <= 0 || !folded) continue;
        ++sums;
        const AmountText amounts{UnitSystem::metric};
        EXPECT_NE(row.find("together " + amounts.length(Length::metres(length))), std::string::npos)
            << line.number << ": " << row;
      }
    }
  }
  EXPECT_GT(sums, 0u);
}

TEST(MethodLines, NameOnlyListsOfPlacesThatArePrinted) {
  std::set<std::string> lists;
  for (const Page& page : metric().pages)
    for (const auto* text : all_of<Text>(page, "places:"))
      if (text->text.starts_with("L")) lists.insert(text->text);
  std::size_t named = 0;
  for (const Page& page : metric().pages) {
    for (const auto* text : all_of<Text>(page, "method:")) {
      if (!text->text.starts_with("At places ")) continue;
      ++named;
      EXPECT_TRUE(lists.contains(text->text.substr(10, text->text.find(':') - 10))) << text->text;
    }
  }
  EXPECT_GE(named, lists.size());
}

TEST(Trails, TellFormulaSourceStatusAndInputsOfEveryFigure) {
  std::string text = text_of(metric());
  std::map<std::string, std::string> kinds;
  for (const Page& page : metric().pages)
    for (const layout::Element& e : page.elements)
      if (const auto* t = std::get_if<Text>(&e.what))
        if (e.name.starts_with("derivation:")) kinds[e.name] += t->text + "\n";
  ASSERT_GT(kinds.size(), 10u);
  std::size_t figures = 0;
  for (const TreeAssessment& tree : advised().sample.assessment.trees) {
    if (!tree.affected()) continue;
    for (const Figure& f : figures_of(tree)) {
      if (f.name.ends_with("-area") || f.value == 0 || f.name.find("share.") != std::string::npos ||
          f.name.find("loss.") != std::string::npos)
        continue;
      ++figures;
      EXPECT_TRUE(std::any_of(kinds.begin(), kinds.end(), [&](const auto& kind) {
        return kind.second.find(f.formula) != std::string::npos &&
               kind.second.find(f.from.source) != std::string::npos &&
               kind.second.find(to_text(f.from.status)) != std::string::npos;
      })) << f.name;
      EXPECT_NE(text.find(f.name), std::string::npos) << f.name;
      for (const FigureInput& input : f.inputs)
        EXPECT_NE(text.find(input.symbol + " = " + input.value), std::string::npos)
            << f.name << ": " << input.symbol;
    }
  }
  EXPECT_GT(figures, 20u);
}

TEST(MethodLines, BeginWithTheWholeSiteThenGoByWorkThenByTree) {
  const auto groups = method_lines(advised().plan());
  ASSERT_GT(groups.size(), 4u);
  const auto rank = [](const MethodGroup& g) { return static_cast<int>(g.about); };
  EXPECT_EQ(groups.front().about, MethodGroup::About::site);
  for (std::size_t i = 1; i < groups.size(); ++i) EXPECT_LE(rank(groups[i - 1]), rank(groups[i]));
}

TEST(MethodLines, GiveAMoveInItsFourStages) {
  for (const MethodGroup& group : method_lines(advised().plan())) {
    if (group.id != "T5") continue;
    std::vector<std::string> heads;
    for (const MethodTopic& topic : group.topics) heads.push_back(topic.head);
    const auto at = [&](const char* head) {
      return std::find(heads.begin(), heads.end(), head) - heads.begin();
    };
    EXPECT_LT(at("before the move"), at("lifting day"));
    EXPECT_LT(at("lifting day"), at("planting"));
    EXPECT_LT(at("planting"), at("after the move"));
    return;
  }
  FAIL() << "nothing is prescribed for the palm that moves";
}

TEST(AdviceChapters, StandInTheContentsWhereThereIsSomethingToSay) {
  for (const char* title : {"Method statement", "The ground", "Tree by tree", "Monitoring plan",
                            "Replacement and guarantee", "Submittal checklist"}) {
    EXPECT_TRUE(has_chapter(metric(), title)) << title;
    EXPECT_TRUE(has_chapter(us(), title)) << title;
  }
  for (const char* title : {"The ground", "Monitoring plan", "Replacement and guarantee"})
    EXPECT_FALSE(has_chapter(little(), title)) << title;
  EXPECT_TRUE(has_chapter(little(), "Submittal checklist"));
}

TEST(AdviceChapters, AreLeftOutWithoutAdvice) {
  const auto meter = layout::pango_meter();
  const auto document = make_report(advised().sample.plan(), {}, *meter);
  ASSERT_TRUE(document.ok());
  EXPECT_FALSE(has_chapter(*document, "Method statement"));
  EXPECT_FALSE(has_chapter(*document, "Submittal checklist"));
}

TEST(AdviceChapters, TellEveryReasonWithSourceAndStatus) {
  const std::string text = text_of(metric());
  for (const MethodGroup& group : method_lines(advised().plan()))
    for (const MethodTopic& topic : group.topics)
      for (const MethodLine& line : topic.lines)
        EXPECT_NE(text.find("(" + cited(line.prescription.from) + ")"), std::string::npos);
}

TEST(AdviceChapters, MarkAPalmThatMovesWithAPatternOfItsOwn) {
  std::size_t bands = 0, palms = 0, words = 0;
  for (const Page& page : metric().pages) {
    bands += all_of<Path>(page, "monocot-band").size();
    for (const auto* rules : all_of<Text>(page, "move-rules"))
      words += rules->text.find("PALM") != std::string::npos;
  }
  for (const TreeAdvice& tree : advised().advice.trees)
    palms += tree.move && tree.move->rules != MovingRules::woody;
  EXPECT_EQ(palms, 1u);
  EXPECT_EQ(words, palms);
  EXPECT_EQ(bands, 2 * palms);  // frame and band
}

TEST(AdviceChapters, LiftOnTheHighValue) {
  std::size_t balls = 0, at = 0;
  for (const TreeAdvice& tree : advised().advice.trees) balls += tree.move && tree.move->ball;
  const std::string text = text_of(metric());
  std::size_t said = 0;
  while ((at = text.find("Lift on the high value", at)) != std::string::npos) ++said, ++at;
  EXPECT_GT(balls, 0u);
  EXPECT_EQ(said, balls);
}

TEST(AdviceChapters, PrintEveryLineOfTheChecklistWithItsSymbol) {
  std::map<std::string, int> ids;
  std::size_t symbols = 0;
  for (const Page& page : metric().pages) {
    for (const layout::Element& e : page.elements) {
      const auto* text = std::get_if<Text>(&e.what);
      if (text != nullptr && e.name.starts_with("checklist:") && text->text == e.name.substr(10))
        ++ids[text->text];
      const auto* disc = std::get_if<layout::Disc>(&e.what);
      const auto* path = std::get_if<Path>(&e.what);
      symbols += e.name.starts_with("state:") && (disc != nullptr || (path && path->closed));
    }
  }
  EXPECT_EQ(ids.size(), advised().advice.checklist.size());
  EXPECT_EQ(symbols, ids.size());
  for (const auto& [id, times] : ids) EXPECT_EQ(times, 1) << id;
}

TEST(AdviceChapters, DrawEveryPressureOfATrafficCase) {
  std::size_t bars = 0, wanted = 0;
  for (const Page& page : metric().pages) bars += all_of<Path>(page, "press-bar").size();
  for (const TrafficAdvice& traffic : advised().advice.traffic)
    if (traffic.contact) wanted += traffic.cases.size() * (traffic.covered ? 3 : 2);
  EXPECT_GT(wanted, 0u);
  EXPECT_EQ(bars, wanted);
}

TEST(AdviceChapters, ShowEveryVisitAndEveryRule) {
  const std::string text = text_of(metric());
  for (const Visit& visit : advised().advice.monitoring->visits)
    EXPECT_NE(text.find(visit.title), std::string::npos) << visit.title;
  for (const RuleReplacement& rule : advised().advice.replacement.rules) {
    EXPECT_NE(text.find(rule.title), std::string::npos) << rule.title;
    for (const TableAnomaly& odd : rule.anomalies)
      EXPECT_NE(text.find(odd.sentence()), std::string::npos);
  }
}

// What the pages themselves compute: the rows of cuts, and the sentences of the method statement.
TEST(AdviceChapters, KeepToOneSystemOfUnits) {
  for (const Page& page : us().pages)
    for (const auto* text : all_of<Text>(page, "cut:"))
      EXPECT_FALSE(text->text.ends_with(" m") || text->text.ends_with(" mm")) << text->text;
  for (const Page& page : metric().pages)
    for (const auto* text : all_of<Text>(page, "cut:"))
      EXPECT_FALSE(text->text.ends_with(" ft") || text->text.ends_with(" in")) << text->text;
}

TEST(AdviceChapters, LeaveNoPageNearlyEmpty) {
  const auto begins = [](const Page& page) {
    for (const auto* target : all_of<Target>(page))
      if (target->name == "trails") return true;
    return false;
  };
  bool in_advice = false;
  for (std::size_t i = 0; i + 1 < metric().pages.size(); ++i) {
    const Page& page = metric().pages[i];
    for (const auto* target : all_of<Target>(page)) in_advice |= target->name == "method-statement";
    if (!in_advice || begins(metric().pages[i + 1])) continue;
    if (begins(page)) break;
    double lowest = 0;
    for (const auto* text : all_of<Text>(page))
      if (text->box.bottom() < page.height - 20) lowest = std::max(lowest, text->box.bottom());
    EXPECT_GT(lowest, page.height * 0.6) << "page " << i + 1;
  }
}

}  // namespace
}  // namespace rootstead::test
