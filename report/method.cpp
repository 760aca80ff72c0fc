#include <algorithm>

#include "engine/base/text.hpp"
#include "report/book.hpp"

namespace rootstead {

using layout::Flow;
using layout::Row;

namespace {

constexpr double kContentsLine = 5.3;
constexpr std::size_t kChapters = 8, kChaptersOfAdvice = 6;

std::string origins_of(const Site& site) {
  std::vector<std::string> files;
  const auto add = [&](const Origin& origin) {
    if (!origin.file.empty() && std::find(files.begin(), files.end(), origin.file) == files.end())
      files.push_back(origin.file);
  };
  for (const Tree& tree : site.trees) add(tree.origin);
  for (const Work& work : site.works) add(work.origin);
  for (const Barrier& barrier : site.barriers) add(barrier.origin);
  return files.empty() ? "entered by hand" : joined(files, ", ");
}

std::string_view word(SoilTexture texture) {
  switch (texture) {
    case SoilTexture::unknown:
      return "of unknown texture";
    case SoilTexture::sand:
      return "sand";
    case SoilTexture::loam:
      return "loam";
    case SoilTexture::silt:
      return "silt";
    case SoilTexture::clay:
      return "clay";
  }
  return "of unknown texture";
}

std::string soil_sentence(const Soil& soil) {
  std::string text = "Soil: " + std::string(word(soil.texture));
  if (!soil.layers.empty())
    text = "Soil: in " + std::to_string(soil.layers.size()) +
           (soil.layers.size() == 1 ? " layer" : " layers") + ", see the chapter on the ground";
  if (soil.drainage == Drainage::free) text += ", draining freely";
  if (soil.drainage == Drainage::poor) text += ", draining poorly";
  if (soil.compacted) text += ", compacted";
  text += soil.rooting_depth ? ", rooting depth " + entered(soil.rooting_depth) + " as entered."
                             : ", rooting depth not stated.";
  return soil.notes.empty() ? text : text + " Note: " + soil.notes + ".";
}

void add_rules(Book& book, Flow& flow) {
  flow.heading(2, "Rules applied");
  std::vector<Row> rows;
  for (const std::string& id : book.site().settings.rules) {
    const ZoneRule* rule = book.plan.tables->rule(id);
    if (rule == nullptr) continue;
    std::size_t refused = 0;
    for (const TreeAssessment& tree : book.assessment().trees) {
      refused += std::none_of(tree.zones.begin(), tree.zones.end(),
                              [&](const ZoneAssessment& z) { return z.zone.rule == id; });
    }
    rows.push_back({{{rule->title + "\n" + id, layout::kTableBold},
                     {rule->jurisdiction},
                     {rule->edition.empty() ? "not stated" : rule->edition},
                     {rule->checked.empty() ? "not read" : rule->checked},
                     {entered(rule->measured_at)},
                     {std::to_string(refused)}}});
  }
  table(flow,
        {{"Rule", 4},
         {"Where", 1.8},
         {"Edition", 1.4},
         {"Text last read", 1.4},
         {"Stem at", 1},
         {"Trees without a zone", 1.2}},
        rows);
}

void add_works(Book& book, Flow& flow) {
  flow.heading(2, "Works assessed");
  std::vector<Row> rows;
  for (const Work& work : book.site().works) {
    std::string width = entered(work.width);
    if (work.working_room)
      width = (work.width ? width + " + " : "room ") + entered(work.working_room) + " each side";
    rows.push_back({{{work.id, layout::kTableBold},
                     {work.name},
                     {std::string(to_text(work.kind)) + (work.permeable ? ", permeable" : "")},
                     {std::string(to_text(work.state))},
                     {std::string(to_text(work.method))},
                     {width},
                     {work.kind == WorkKind::traffic ? "–"
                      : work.depth                   ? entered(work.depth)
                                   : book.words.length(depth_of(work)) + mark(Status::assumption)},
                     {work.origin.file}}});
  }
  table(flow,
        {{"Work", 1.5},
         {"Name", 3},
         {"Kind", 1.6},
         {"State", 1.3},
         {"Method", 1.2},
         {"Width and room", 2},
         {"Depth or height", 1.4},
         {"From", 1.8}},
        rows);
}

void add_common_notes(Book& book, Flow& flow) {
  for (const bool monocots : {false, true}) {
    const auto notes = common_notes(book.plan, monocots);
    if (notes.empty()) continue;
    flow.heading(2, monocots ? "True of the figures of every palm or other monocot reached"
                             : "True of the figures of every woody tree reached");
    flow.bullets(notes, layout::kSmall);
  }
}

void add_doubts(Book& book, Flow& flow) {
  const auto& problems = book.assessment().problems;
  if (problems.empty()) return;
  flow.heading(2, "What is doubtful in the data");
  std::vector<std::string> sentences;
  for (const bool blocks : {true, false}) {
    for (const Problem& p : problems) {
      if (p.blocks == blocks) sentences.push_back((blocks ? "Blocks: " : "") + p.sentence());
    }
  }
  flow.bullets(sentences, layout::kSmall);
}

// Each refusal once, before it all the trees it is about.
std::vector<std::string> refusals_of(const Book& book) {
  std::vector<Error> refusals;
  for (const TreeAssessment& tree : book.assessment().trees) {
    const Tree* surveyed = book.site().tree(tree.tree);
    const std::string label = surveyed == nullptr ? tree.tree : surveyed->label();
    for (const Error& refused : tree.rules_not_applied) {
      const auto same = std::find_if(refusals.begin(), refusals.end(), [&](const Error& known) {
        return known.message == refused.message;
      });
      if (same != refusals.end()) {
        same->subject += ", " + label;
      } else {
        refusals.push_back({refused.code, label, refused.message, refused.remedy});
      }
    }
  }
  std::vector<std::string> sentences;
  for (const Error& refused : refusals) sentences.push_back(refused.sentence());
  return sentences;
}

}  // namespace

Flow add_method(Book& book) {
  Flow flow = book.portrait();
  flow.heading(1, "Contents");
  book.contents_page = book.pages.size() - 1;
  const bool plan = book.plan.advice != nullptr && book.plan.advice->protection.has_value();
  const std::size_t more =
      (book.plan.advice ? kChaptersOfAdvice : 0) + (plan ? 1 : 0) + chapters_of_revisions(book);
  book.contents_box = flow.take(static_cast<double>(kChapters + more) * kContentsLine);
  flow.space(8);
  book.open_chapter(flow, "Method and limits", "method");
  const Assessment& a = book.assessment();
  flow.paragraph(
      "For every tree each rule draws its zones from the stems as they were measured. The works "
      "are "
      "laid over the zones and every share is computed exactly, once for each work alone and once "
      "for all together, where ground taken twice counts once. An estimate of where the "
      "absorbing roots lie, and a model of what still holds the tree after cuts, add two ranges.");
  flow.paragraph(
      "Roots are drawn from published averages, turned aside by the walls, kerbs, paving and old "
      "trenches of the plan, weighed by the layers of the soil, and narrowed by what trial pits "
      "showed. What the model cannot know: the true course of any root, where irrigation, leaking "
      "pipes and neighbours draw roots, what slope and wind do to their sides, and barriers that "
      "are "
      "on no plan. How easily roots pass beneath paving is our assumption. The root systems drawn "
      "in "
      "the sections are examples drawn by lot. What the wind asks of a tree is given only as a "
      "band "
      "before and after the works, never as a single figure of safety.");
  flow.paragraph(
      "Health and stability are two answers and stay two. Zone shares and the loss of absorbing "
      "roots speak of vitality; cuts near the stem speak of anchorage. No score joins them. The "
      "verdict names the stricter action and says which answer asked for it.");
  flow.paragraph(
      "Ranges run from the 10th to the 90th percentile of " + with_thousands(a.simulation.draws) +
      " seeded draws, the best estimate being the median; the same seed gives the same figures. "
      "Palms and other monocots have no woody root plate and go through a model of their "
      "own, never through rules of stem diameter.");
  flow.paragraph(legend_of_marks(), layout::kSmallGrey);
  flow.paragraph("Read from: " + origins_of(book.site()) + ". " + soil_sentence(book.site().soil));
  add_rules(book, flow);
  add_works(book, flow);
  add_common_notes(book, flow);
  add_doubts(book, flow);
  return flow;
}

void add_cautions(Book& book, Flow flow) {
  constexpr double kGap = 12, kOnOnePage = 165;  // mm: cautions are read together
  flow.space(kGap);
  flow.need(kOnOnePage);
  book.open_chapter(flow, "Cautions", "cautions");
  flow.bullets(book.assessment().cautions, sized(layout::kBody, 10));
  const std::vector<std::string> refusals = refusals_of(book);
  if (refusals.empty()) return;
  flow.heading(2, "Rules that have no answer for a tree");
  flow.bullets(refusals, layout::kSmall);
}

}  // namespace rootstead
