// What is advised for single trees, beyond the lines of the method statement: a move, the root
// crown, water, earlier damage, bores. One block a tree, only of what there is.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "engine/base/text.hpp"
#include "report/advice_pages.hpp"
#include "report/bars.hpp"
#include "report/plan_drawing.hpp"

namespace rootstead {

using layout::Flow;
using layout::Hatch;
using layout::kInk;
using layout::Pen;
using layout::Rect;
using layout::Role;
using layout::Row;

namespace {

const layout::TextStyle kText = sized(layout::kSmall, 8.2);
const layout::TextStyle kNote = layout::kSmallGrey;

bool worth_a_block(const TreeAdvice& tree) {
  const FlareAnswer flare = tree.root_crown.answer;
  return tree.move || tree.no_move || tree.damage || tree.water || !tree.bores.empty() ||
         tree.root_crown.excavation || tree.root_crown.compared ||
         flare == FlareAnswer::burial_likely || flare == FlareAnswer::dig_to_see;
}

std::string status_words(Status status) {
  return std::string(to_text(status));
}

// What would stand on most of the trees is told once, at the head of the chapter.
class ToldOnce {
 public:
  // A statement on damage only where it is one of every damaged tree but one: the others are what
  // sets a tree apart.
  explicit ToldOnce(const std::vector<TreeAdvice>& trees) {
    const auto damaged = std::count_if(
        trees.begin(), trees.end(), [](const TreeAdvice& tree) { return tree.damage.has_value(); });
    std::set<std::string> of_damage;
    for (const TreeAdvice& tree : trees) {
      std::set<std::string> said;
      if (tree.damage) {
        for (const OutlookAnswer* answer : {&tree.damage->vitality, &tree.damage->stability})
          for (const OutlookStatement& one : answer->statements) {
            said.insert(words_of(one));
            of_damage.insert(words_of(one));
          }
        for (const Note& note : tree.damage->notes) said.insert(sentence_case(note.text));
      }
      if (tree.water)
        for (const Note& note : tree.water->notes) said.insert(sentence_case(note.text));
      for (const std::string& text : said) ++trees_[text];
    }
    std::erase_if(trees_, [&](const auto& one) {
      return one.second < kSeveral || (of_damage.count(one.first) > 0 && one.second + 1 < damaged);
    });
  }
  static std::string words_of(const OutlookStatement& one) {
    return one.text + " (" + cited(one.from) + ")";
  }
  bool has(const std::string& text) const { return trees_.count(text) > 0; }
  std::vector<std::string> all() const {
    std::vector<std::string> texts;
    for (const auto& [text, count] : trees_) texts.push_back(text);
    return texts;
  }
  std::vector<Note> without(std::vector<Note> notes) const {
    std::erase_if(notes, [&](const Note& note) { return has(sentence_case(note.text)); });
    return notes;
  }

 private:
  static constexpr int kSeveral = 6;  // trees
  std::map<std::string, int> trees_;
};

// ---- moving -------------------------------------------------------------------------------------

std::string rules_words(MovingRules rules) {
  switch (rules) {
    case MovingRules::woody:
      return "a tree that thickens, by calliper and height";
    case MovingRules::palm:
      return "PALM: by its own rules, never by the thickness of its stem";
    case MovingRules::other_monocot:
      return "MONOCOT, NO PALM: by its own rules, never by the thickness of its stem";
  }
  return {};
}

// Palms and other monocots are told from trees at a glance: a band of upright lines beside the
// title, and the title in capitals.
void add_move_head(Flow& flow, const TransplantAdvice& move) {
  const bool woody = move.rules == MovingRules::woody;
  flow.heading(3, "Moving it: " + std::string(to_text(move.feasibility)));
  const Rect box = flow.take(5.4);
  Pen pen = flow.pen();
  pen.tagged(Role::paragraph, [&] {
    if (!woody) {
      pen.rect(box, {0.2, kInk}, layout::kWhiteFill, "monocot-band");
      const Rect band{box.x, box.y, 8, box.h};
      pen.rect(band, {0.2, kInk}, {Hatch::upright, kInk, 0.8, 0.2}, "monocot-band");
    }
    pen.text({box.x + (woody ? 0 : 10), box.y + 0.9}, "Advised as " + rules_words(move.rules),
             weighted(kText, woody ? layout::Weight::regular : layout::Weight::bold), "move-rules");
  });
  flow.space(1.5);
}

std::string mass_span(const AmountText& amounts, const Range& kilograms) {
  const std::string low = amounts.mass(Mass::kilograms(kilograms.low)),
                    high = amounts.mass(Mass::kilograms(kilograms.high));
  return low == high ? low : low + " to " + high;
}

void add_ball(const AdvicePages& pages, std::vector<std::string>& facts,
              const TransplantAdvice& move) {
  if (!move.ball) {
    if (!move.no_ball.empty()) facts.push_back(move.no_ball);
    return;
  }
  const AmountText amounts = pages.amounts();
  facts.push_back(
      "Ball: diameter " + pages.lengths(move.ball->diameter_m) + ", depth " +
      pages.lengths(move.ball->depth_m) + ", " + mass_span(amounts, move.ball->weight_kg) +
      (move.ball->wider_than_road ? ". ▲ Wider than what travels on a road without a permit" : "") +
      ".");
  const Range whole = move.total_weight_kg.value_or(move.ball->weight_kg);
  facts.push_back(std::string(move.total_weight_kg ? "On the hook, with stem and crown: "
                                                   : "On the hook, the ball alone: ") +
                  mass_span(amounts, whole) + ". Lift on the high value, " +
                  amounts.mass(Mass::kilograms(whole.high)) + ", and more.");
}

constexpr std::string_view kMoved = "transplant.moved-";

// Each measure by its own name: they measured different things.
void add_shares_moved(const AdvicePages& pages, std::vector<std::string>& facts,
                      const TransplantAdvice& move) {
  if (move.roots_moved)
    facts.push_back("Absorbing roots that go along, by our root model: " +
                    share_of(*move.roots_moved) + " (our assumption).");
  std::vector<std::string> parts;
  for (const Figure& figure : move.figures) {
    if (!figure.name.starts_with(kMoved)) continue;
    std::string measure = figure.name.substr(kMoved.size());
    std::replace(measure.begin(), measure.end(), '-', ' ');
    parts.push_back(measure + " " + pages.book.words.figure(figure) + " (" + cited(figure.from) +
                    ")");
  }
  if (!parts.empty())
    facts.push_back(
        "Published shares of the roots moved, each of another measure, never to be "
        "averaged: " +
        joined(parts, "; ") + ".");
}

void add_move(const AdvicePages& pages, Flow& flow, const TransplantAdvice& move) {
  add_move_head(flow, move);
  std::vector<Row> rows;
  for (const MovingReason& reason : move.reasons)
    rows.push_back({{{sentence_case(reason.topic), layout::kTableBold},
                     {std::string(to_text(reason.weighs))},
                     {reason.text + (reason.sources_disagree ? " ▲ Sources disagree." : "")},
                     {cited(reason.from)}}});
  if (!rows.empty())
    table(flow, {{"Because of", 1.4}, {"Which weighs", 2}, {"Reason", 6}, {"Source; status", 3}},
          rows);
  std::vector<std::string> facts;
  add_ball(pages, facts, move);
  add_shares_moved(pages, facts, move);
  if (move.establishment_months)
    facts.push_back("Established after " + number_span(*move.establishment_months, 0) +
                    " months with irrigation.");
  flow.bullets(facts, kText);
  std::vector<Note> notes = move.notes;  // why there is no ball stands above
  std::erase_if(notes, [&](const Note& note) { return note.text == move.no_ball; });
  if (!notes.empty()) flow.paragraph(note_texts(notes), kNote);
}

// ---- the root crown -----------------------------------------------------------------------------

void add_root_crown(const AdvicePages& pages, Flow& flow, const RootCrownAdvice& crown) {
  const bool quiet = crown.answer == FlareAnswer::flare_seen ||
                     crown.answer == FlareAnswer::cannot_tell ||
                     crown.answer == FlareAnswer::refused;
  if (quiet && !crown.excavation && !crown.compared) return;
  flow.heading(3, "Root crown: " + std::string(to_text(crown.answer)));
  std::vector<std::string> said = crown.reasons;
  // A taper that speaks of burial is among the reasons already.
  const bool told = std::any_of(said.begin(), said.end(), [](const std::string& reason) {
    return reason.find("times as thick as") != std::string::npos;
  });
  if (crown.taper && !told)
    said.push_back("The trunk tapers " + std::string(to_text(crown.taper->says)) + ": " +
                   fixed_number(crown.taper->ratio, 2) + " at the ground to 1 above it (" +
                   cited(crown.taper->figure.from) + ").");
  if (crown.depth_m)
    said.push_back("First main roots " + pages.small_lengths(*crown.depth_m) +
                   " below the ground.");
  if (crown.risk)
    said.push_back("Circumference that roots lie round: " + share_of(crown.risk->encircled) +
                   "; that they press on: " + share_of(crown.risk->girdled) +
                   (crown.risk->figures.empty()
                        ? "."
                        : " (" + cited(crown.risk->figures.front().from) + ")."));
  if (crown.excavation)
    said.push_back(
        "Lay open " + pages.lengths(crown.excavation->radius_m) + " round the trunk, " +
        pages.small_lengths(crown.excavation->depth_m) + " deep" +
        (crown.excavation->depth_known ? "." : ": what is usual, the depth is not known."));
  if (crown.compared) said.push_back(crown.compared->words);
  flow.bullets(said, kText);
  if (!crown.notes.empty()) flow.paragraph(note_texts(crown.notes), kNote);
}

// ---- water --------------------------------------------------------------------------------------

std::string water_span(const AmountText& amounts, const Range& litres) {
  return amounts.water(litres.best) + " (" + amounts.water(litres.low) + " to " +
         amounts.water(litres.high) + ")";
}

std::string weeks_words(const WaterStage& stage) {
  const std::string every = stage.days_between == 1
                                ? "every day"
                                : "every " + fixed_number(stage.days_between, 0) + " days";
  if (!stage.weeks_to) return "then " + every + " until established";
  const std::string weeks =
      " weeks, about " +
      fixed_number(
          (stage.weeks_to->best - stage.weeks_from) * 7 / std::max(1.0, stage.days_between), 0) +
      " times";
  return every + " for " + number_span(*stage.weeks_to, 0) + weeks;
}

// "given in portions of about 7,195 L every 6 days", as the method statement says it; nothing where
// no round is told.
std::string portions_words(const AmountText& amounts, const WaterAdvice& water) {
  const auto portion =
      std::find_if(water.figures.begin(), water.figures.end(),
                   [](const Figure& figure) { return figure.name == "water.portion"; });
  if (portion == water.figures.end()) return "";
  const double days = std::max(1.0, std::floor(water.amounts->days_between.best));
  const std::string every = days < 2 ? "every day" : "every " + fixed_number(days, 0) + " days";
  return ", given in portions of about " + amounts.water(portion->value) + " " + every;
}

// "enough for 16 days (2 to 123)", "less than a day needs". Beyond a year it means nothing.
std::string lasting_words(const Range& days) {
  constexpr double kYear = 365;
  if (days.best < 1) return "less than a day needs";
  if (days.best > kYear) return "enough for more than a year";
  const std::string best = fixed_number(days.best, 0);
  const std::string span =
      days.high > kYear ? fixed_number(days.low, 0) + " to more than a year" : number_span(days, 0);
  return "enough for " + best + " days" + (span == best ? "" : " (" + span + ")");
}

// "Not needed in a week with 4 mm to 37 mm of rain that soaks in."
std::string rain_words(const AmountText& amounts, const Range& mm) {
  const auto rain = [&](double depth) { return amounts.small_length(Length::millimetres(depth)); };
  std::string span =
      rain(mm.low) == rain(mm.high) ? rain(mm.high) : rain(mm.low) + " to " + rain(mm.high);
  if (rain(mm.low) == rain(0)) span = "up to " + rain(std::max(1.0, mm.high));
  return "Not needed in a week with " + span + " of rain that soaks in.";
}

void add_water(const AdvicePages& pages, Flow& flow, const WaterAdvice& water,
               const ToldOnce& told) {
  flow.heading(3, "Water");
  std::vector<std::string> said;
  if (water.amounts) {
    const WaterAmounts& a = *water.amounts;
    said.push_back("In dry weather " + water_span(pages.amounts(), a.litres_per_week) + " a week" +
                   portions_words(pages.amounts(), water) + ". What its roots reach holds " +
                   water_span(pages.amounts(), a.litres_per_event) + " of it, " +
                   lasting_words(a.days_between) + "; " +
                   status_words(weakest(water.figures, Status::assumption)) + ".");
    if (a.rain_mm_per_week) said.push_back(rain_words(pages.amounts(), *a.rain_mm_per_week));
  } else {
    said.push_back("No amount can be given: its crown is not known.");
  }
  std::vector<std::string> stages;
  for (const WaterStage& stage : water.stages) stages.push_back(weeks_words(stage));
  if (!stages.empty()) said.push_back("After the move: " + joined(stages, ", ") + ".");
  flow.bullets(said, kText);
  const std::vector<Note> notes = told.without(water.notes);
  if (!notes.empty()) flow.paragraph(note_texts(notes), kNote);
}

// ---- earlier damage -----------------------------------------------------------------------------

std::string damage_words(const Book& book, const Damage& damage) {
  std::string text = work_name(book, damage.work);
  if (damage.years_since) text += ", " + number_span(*damage.years_since, 1) + " years ago";
  if (damage.share_of_roots)
    text += ", took " + share_of(*damage.share_of_roots) + " of the absorbing roots";
  if (!damage.seen.empty()) text += "; seen: " + damage.seen;
  return text;
}

std::string concern_words(Concern concern) {
  return concern == Concern::none ? "no concern" : "concern " + std::string(to_text(concern));
}

void add_answer(Flow& flow, const char* name, const OutlookAnswer& answer, const ToldOnce& told) {
  const Rect box = flow.take(4.6);
  Pen pen = flow.pen();
  pen.tagged(Role::paragraph, [&] {
    const double wide = draw_concern(pen, {box.x, box.y + 0.7}, answer.concern);
    pen.text({box.x + wide + 3, box.y}, std::string(name) + ": " + concern_words(answer.concern),
             weighted(kText, layout::Weight::bold), "outlook");
  });
  std::vector<std::string> said;
  for (const OutlookStatement& statement : answer.statements) {
    std::string text = ToldOnce::words_of(statement);
    if (!told.has(text)) said.push_back(std::move(text));
  }
  flow.bullets(said, kText);
}

void add_damage(const AdvicePages& pages, Flow& flow, const DamageOutlook& damage,
                const ToldOnce& told) {
  flow.heading(3, "Earlier damage");
  std::vector<std::string> done;
  for (const Damage& one : damage.damages) done.push_back(damage_words(pages.book, one));
  flow.bullets(done, kText);
  add_answer(flow, "Health", damage.vitality, told);
  add_answer(flow, "Stability", damage.stability, told);
  const std::vector<Note> notes = told.without(damage.notes);
  if (!notes.empty()) flow.paragraph(note_texts(notes), kNote);
}

// ---- bores --------------------------------------------------------------------------------------

std::string chainage(const AmountText& amounts, double metres) {
  return amounts.length(Length::metres(metres));
}

void add_bore(const AdvicePages& pages, Flow& flow, const BoreAdvice& bore) {
  flow.heading(3, "Beneath its roots: " + work_name(pages.book, bore.work));
  const AmountText amounts = pages.amounts();
  std::vector<std::string> said;
  said.push_back("Crown of the bore at least " + amounts.length(bore.depth) + " deep. By rule: " +
                 [&] {
                   std::vector<std::string> rules;
                   for (const BoreDepth& depth : bore.depths)
                     if (depth.applies)
                       rules.push_back(depth.rule + " " + amounts.length(depth.depth) +
                                       (depth.asked || depth.rule.starts_with("preferred")
                                            ? ""
                                            : " (preferred)") +
                                       ", " + cited(depth.figure.from));
                   return joined(rules, "; ");
                 }() +
                 ".");
  // The others' stretches of the same line stand on their own trees' pages.
  const auto passes = [&](const BoreStretch& stretch) {
    return std::find(stretch.trees.begin(), stretch.trees.end(), bore.tree) != stretch.trees.end();
  };
  for (const BoreStretch& stretch : bore.stretches)
    if (passes(stretch))
      said.push_back("Bore from chainage " + chainage(amounts, stretch.from) + " to " +
                     chainage(amounts, stretch.to) + ", past " + pages.labels(stretch.trees) +
                     ", " + amounts.length(stretch.depth) + " deep.");
  std::vector<std::string> pits;
  const auto ends_it = [&](const BorePit& pit) {
    return std::any_of(bore.stretches.begin(), bore.stretches.end(), [&](const BoreStretch& one) {
      return passes(one) && one.line == pit.line &&
             (one.from == pit.chainage || one.to == pit.chainage);
    });
  };
  for (const BorePit& pit : bore.pits)
    if (ends_it(pit))
      pits.push_back(chainage(amounts, pit.chainage) +
                     (pit.clear ? "" : " (▲ within the distance of a tree)"));
  if (!pits.empty()) said.push_back("Pits at chainage " + joined(pits, ", ") + ".");
  if (bore.no_clearance) said.push_back(bore.no_clearance->sentence());
  flow.bullets(said, kText);
  if (!bore.notes.empty()) flow.paragraph(note_texts(bore.notes), kNote);
}

void add_tree(const AdvicePages& pages, Flow& flow, const TreeAdvice& advice,
              const ToldOnce& told) {
  constexpr double kWithHeading = 44;  // mm: the name does not stand alone at the foot of a page
  flow.need(kWithHeading);
  const Tree* tree = pages.book.site().tree(advice.tree);
  flow.heading(2, pages.label(advice.tree) + (tree == nullptr ? "" : " " + name_of(*tree)),
               "advice-" + advice.tree);
  std::string lines = lines_of_tree(pages.groups, advice.tree);
  const std::string shared = lines_of_trees_alike(pages.groups, advice.tree);
  if (!shared.empty()) lines += (lines.empty() ? "" : ", ") + shared;
  if (!lines.empty())
    flow.paragraph("What to do stands in the method statement: " + lines + ".", kNote);
  if (advice.move) add_move(pages, flow, *advice.move);
  if (advice.no_move)
    flow.paragraph("To be moved, but nothing can be said of it: " + advice.no_move->sentence(),
                   kText);
  add_root_crown(pages, flow, advice.root_crown);
  if (advice.damage) add_damage(pages, flow, *advice.damage, told);
  for (const BoreAdvice& bore : advice.bores) add_bore(pages, flow, bore);
  if (advice.water) add_water(pages, flow, *advice.water, told);
}

}  // namespace

void add_tree_advice(AdvicePages& pages) {
  const auto& trees = pages.advice().trees;
  if (std::none_of(trees.begin(), trees.end(), worth_a_block)) return;
  Flow& flow = pages.open("Tree by tree", "tree-advice");
  flow.paragraph(
      "What stands behind the lines of the method statement. Health and stability are two answers. "
      "Ranges run from low to high.",
      kNote);
  const ToldOnce told(trees);
  if (!told.all().empty()) {
    flow.paragraph("Told once, for every tree below that it concerns:", kText);
    flow.bullets(told.all(), kText);
  }
  for (const TreeAdvice& tree : trees)
    if (worth_a_block(tree)) add_tree(pages, flow, tree, told);
}

}  // namespace rootstead
