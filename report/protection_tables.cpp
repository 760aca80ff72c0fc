// The chapter of the protection plan: its sheets, and what is drawn on them as tables.
#include <algorithm>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "report/book.hpp"
#include "report/protection_drawing.hpp"
#include "report/protection_sheet.hpp"

namespace rootstead {

using layout::Align;
using layout::Cell;
using layout::Flow;
using layout::kTableBold;
using layout::Row;

namespace {

constexpr const char* kRowName = "measure:protection";
constexpr double kFeetPerMetre = 1 / 0.3048, kCubicYardsPerCubicMetre = 1 / 0.764554857984;

std::string status_text(const Citation& from) {
  return mark(from.status) + " " + std::string(to_text(from.status));
}

std::string source_text(const Citation& from) {
  return from.source + (from.place.empty() ? "" : ", " + from.place) + "\n" + status_text(from);
}

class Chapter {
 public:
  Chapter(Book& book, Flow& flow)
      : book_(book), flow_(flow), site_(book.site()), plan_(*book.plan.advice->protection) {}

  void write() {
    flow_.heading(1, "Protection plan: parts, quantities and order of work");
    flow_.paragraph(
        "Everything here is measured on the drawing before it: lengths and areas are those of its "
        "own lines. Chainages run from the first point of each line. Fences leave room for the "
        "works proposed and approved, with their working room. " +
            legend_of_marks(),
        layout::kSmallGrey);
    clashes();
    trees();
    left_out();
    fences();
    ground();
    stretches();
    root_cuts();
    guards();
    bill();
    steps();
    inspections();
    notes();
  }

 private:
  const Wording& words() const { return book_.words; }
  std::string tags(const std::vector<std::string>& trees) const { return tags_of(site_, trees); }

  static Row row(std::vector<Cell> cells, bool opens_group = false) {
    Row made;
    made.cells = std::move(cells);
    made.opens_group = opens_group;
    made.name = kRowName;
    return made;
  }

  void clashes() {
    flow_.heading(2, "Clashes", "protection-clashes");
    if (plan_.clashes.empty()) {
      flow_.paragraph("None found. The sheet says what was checked.");
      return;
    }
    std::vector<Row> rows;
    for (std::size_t i = 0; i < plan_.clashes.size(); ++i) {
      const Clash& clash = plan_.clashes[i];
      rows.push_back(row({{clash_number(i), kTableBold},
                          {sentence_case(std::string(to_text(clash.kind)))},
                          {tags(clash.ids)},
                          {clash.text},
                          {clash.remedy}}));
    }
    table(flow_, {{"No.", 0.6}, {"Kind", 1.7}, {"Of", 1.6}, {"What", 5}, {"Remedy", 5}}, rows);
  }

  std::string tree_link(const std::string& id) const {
    for (const TreeAssessment& tree : book_.assessment().trees)
      if (tree.tree == id) return target_of(book_, tree);
    return {};
  }

  void trees() {
    if (plan_.trees.empty()) return;
    flow_.heading(2, "Kept trees and their ground", "protection-trees");
    std::vector<Row> rows;
    for (const ProtectedTree& tree : plan_.trees) {
      rows.push_back(row({{tags({tree.tree}), kTableBold, tree_link(tree.tree)},
                          {zone_name(book_, tree.rule, tree.zone)},
                          {words().area(area_of(tree.ground))},
                          {share(tree.fenced)},
                          {share(tree.covered)},
                          {share(taken(tree))},
                          {words().area(area_of(tree.open))},
                          {words().length(tree.plate)}}));
    }
    table(flow_,
          {{"Tree", 1.2},
           {"Zone", 5},
           {"Ground", 1.3, Align::right},
           {"Fenced", 1.3, Align::right},
           {"Covered", 1.3, Align::right},
           {"Taken by works", 1.3, Align::right},
           {"Left open", 1.3, Align::right},
           {"No driven post within", 1.8, Align::right}},
          rows);
  }

  // What is neither fenced nor covered nor left open lies under the works and their working room.
  static double taken(const ProtectedTree& tree) {
    const double ground = area_of(tree.ground).square_metres();
    if (ground <= 0) return 0;
    const double open = area_of(tree.open).square_metres() / ground;
    return std::clamp(1 - tree.fenced - tree.covered - open, 0.0, 1.0);
  }

  void left_out() {
    flow_.heading(2, "Trees left out", "protection-left-out");
    if (plan_.not_kept.empty()) {
      flow_.paragraph("None.");
      return;
    }
    std::vector<Row> rows;
    for (const TreeLeftOut& tree : plan_.not_kept)
      rows.push_back(row(
          {{tags({tree.tree}), kTableBold, tree_link(tree.tree)}, {sentence_case(tree.reason)}}));
    table(flow_, {{"Tree", 1}, {"Reason", 8}}, rows);
  }

  std::string enclosed_by(const Fence& fence) const {
    for (const Enclosure& enclosure : plan_.enclosures)
      if (enclosure.id == fence.enclosure)
        return enclosure.id + (enclosure.trees.size() == 1 ? ", tree " : ", trees ") +
               tags(enclosure.trees);
    return fence.enclosure.empty() ? "–" : fence.enclosure;
  }

  std::string posts_of(const Fence& fence) const {
    const auto driven = std::count_if(fence.posts.begin(), fence.posts.end(),
                                      [](const auto& p) { return p.footing == Footing::driven; });
    const auto ballasted = static_cast<std::ptrdiff_t>(fence.posts.size()) - driven;
    return std::to_string(driven) + " driven, " + std::to_string(ballasted) + " ballasted";
  }

  std::string gates_of(const Fence& fence) const {
    std::vector<std::string> gates;
    for (const FenceGate& gate : plan_.gates) {
      if (gate.fence == fence.id)
        gates.push_back(gate.id + " " + std::string(to_text(gate.use)) + " " +
                        words().length(gate.width));
    }
    return gates.empty() ? "–" : joined(gates, "\n");
  }

  // "16.7–19.0 m (122), 97.1–101.9 m (101)": where nothing is driven; posts are driven elsewhere.
  std::string footings_of(const Fence& fence) const {
    std::vector<std::string> ballasted;
    for (const FenceStretch& stretch : fence.stretches)
      if (stretch.footing == Footing::ballasted)
        ballasted.push_back(chainages(words(), stretch.from, stretch.to) +
                            (stretch.trees.empty() ? "" : " (" + tags(stretch.trees) + ")"));
    return ballasted.empty() ? "nowhere" : joined(ballasted, ", ");
  }

  void fences() {
    if (plan_.fences.empty()) return;
    flow_.heading(2, "Fences", "protection-fences");
    std::vector<Row> rows;
    for (const Fence& fence : plan_.fences) {
      const auto signs = std::count_if(plan_.signs.begin(), plan_.signs.end(),
                                       [&](const Sign& sign) { return sign.fence == fence.id; });
      rows.push_back(row({{fence.id, kTableBold},
                          {enclosed_by(fence)},
                          {words().length(length_of(fence))},
                          {posts_of(fence)},
                          {gates_of(fence)},
                          {std::to_string(signs)},
                          {footings_of(fence)}}));
    }
    table(flow_,
          {{"Fence", 0.9},
           {"Encloses", 3},
           {"Length", 1.2},
           {"Posts", 2.2},
           {"Gates", 2.4},
           {"Signs", 0.8},
           {"On ballasted feet, over the root plate of", 4.7}},
          rows);
  }

  std::string needed_by(const CoveredGround& cover) const {
    if (!cover.work.empty() && !cover.way.empty())
      return "way " + cover.way + " to " + work_name(book_, cover.work);
    if (!cover.way.empty()) return "way " + cover.way;
    return cover.work.empty() ? "ground that no fence can hold" : work_name(book_, cover.work);
  }

  void ground() {
    if (plan_.covers.empty() && plan_.ways.empty() && plan_.no_dig.empty()) return;
    flow_.heading(2, "Ground protection, ways and paving without digging", "protection-ground");
    std::vector<Row> rows;
    for (const CoveredGround& cover : plan_.covers) {
      rows.push_back(row({{cover.id, kTableBold},
                          {"ground protection, " + std::string(to_text(cover.load)) +
                           (cover.load_assumed ? mark(Status::assumption) : "")},
                          {needed_by(cover)},
                          {tags(cover.trees)},
                          {words().area(area_of(cover.area))}}));
    }
    for (const Way& way : plan_.ways) {
      const std::string to = way.work.empty() ? "gate " + way.gate : work_name(book_, way.work);
      rows.push_back(row({{way.id, kTableBold},
                          {"way for machines, " + words().length(way.width) + " wide"},
                          {to},
                          {"–"},
                          {words().length(length_of(way.line))}}));
    }
    for (const NoDigArea& area : plan_.no_dig)
      rows.push_back(row({{area.work, kTableBold},
                          {"built on the ground as it lies, no digging"},
                          {work_name(book_, area.work)},
                          {tags(area.trees)},
                          {words().area(area_of(area.area))}}));
    table(flow_,
          {{"Part", 1},
           {"What", 4.4},
           {"Needed by", 4},
           {"Trees", 3},
           {"Area or length", 1.6, Align::right}},
          rows);
    const bool assumed = std::any_of(plan_.covers.begin(), plan_.covers.end(),
                                     [](const CoveredGround& c) { return c.load_assumed; });
    if (assumed)
      flow_.paragraph("ᵃ No vehicle is on record: the heaviest class was taken.",
                      layout::kSmallGrey);
  }

  std::string depth(const std::string& work, Length depth) const {
    return depth_text(words(), depth, site_.work(work));
  }

  std::string bore_words(const BorePassage& bore) const {
    const Work* work = site_.work(bore.work);
    if (work != nullptr && work->bore_pits.empty()) return "bore; its pits are not entered";
    return "bore; pits in the ground of kept trees: " + std::to_string(bore.pits_in_ground);
  }

  void stretches() {
    flow_.heading(2, "Stretches dug by hand or air, and bores", "protection-stretches");
    std::vector<Row> rows;
    const auto add = [&](const std::string& id, const auto& on, const std::string& method,
                         const std::string& deep) {
      rows.push_back(row({{id, kTableBold},
                          {work_name(book_, on.work)},
                          {method},
                          {tags(on.trees)},
                          {std::to_string(on.line + 1)},
                          {chainages(words(), on.from, on.to)},
                          {words().length(on.to - on.from)},
                          {deep}}));
    };
    for (const DigStretch& dig : plan_.digs) {
      const Work* work = site_.work(dig.work);
      add(dig.id, dig, std::string(to_text(dig.method)),
          work == nullptr ? "–" : depth(dig.work, depth_of(*work)));
    }
    for (const BorePassage& bore : plan_.bores)
      add("–", bore, bore_words(bore), depth(bore.work, bore.crown_depth) + " to its crown");
    if (rows.empty()) {
      flow_.paragraph("No line work is dug or bored in the ground of kept trees.");
      return;
    }
    table(flow_,
          {{"Stretch", 0.9},
           {"Work", 3},
           {"Method", 2.8},
           {"Trees", 2.6},
           {"Line", 0.6, Align::right},
           {"From – to", 1.9, Align::right},
           {"Length", 1.2, Align::right},
           {"Depth", 1.9, Align::right}},
          rows);
  }

  void root_cuts() {
    if (plan_.root_cuts.empty()) return;
    flow_.heading(2, "Root-cut lines", "protection-root-cuts");
    std::vector<Row> rows;
    for (const RootCutLine& cut : plan_.root_cuts)
      rows.push_back(row({{cut.id, kTableBold},
                          {work_name(book_, cut.work)},
                          {tags(cut.trees)},
                          {words().length(length_of(cut.line))},
                          {depth(cut.work, cut.depth)},
                          {words().length(cut.nearest)}}));
    table(flow_,
          {{"Line", 0.9},
           {"Work", 4},
           {"Trees", 4},
           {"Length", 1.4, Align::right},
           {"Depth", 1.4, Align::right},
           {"Nearest to a stem's centre", 2, Align::right}},
          rows);
  }

  void guards() {
    if (plan_.guards.empty()) return;
    flow_.heading(2, "Trunks to be boxed", "protection-guards");
    std::vector<Row> rows;
    for (const StemGuard& guard : plan_.guards)
      rows.push_back(row({{tags({guard.tree}), kTableBold, tree_link(guard.tree)},
                          {sentence_case(guard.reason)}}));
    table(flow_, {{"Tree", 1}, {"Reason", 8}}, rows);
  }

  std::pair<std::string, std::string> amount(const BillItem& item) const {
    if (item.unit == "no") return {"no.", fixed_number(item.quantity, 0)};
    const bool us = words().us();
    double value = item.quantity;
    std::string unit = item.unit == "m2" ? "m²" : item.unit == "m3" ? "m³" : item.unit;
    if (us && item.unit == "m") unit = "ft", value *= kFeetPerMetre;
    if (us && item.unit == "m2") unit = "ft²", value *= kFeetPerMetre * kFeetPerMetre;
    if (us && item.unit == "m3") unit = "yd³", value *= kCubicYardsPerCubicMetre;
    return {unit, with_thousands(value, 1)};
  }

  void bill() {
    if (plan_.bill.empty()) return;
    flow_.heading(2, "Bill of quantities", "protection-bill");
    std::vector<Row> rows;
    for (const BillItem& item : plan_.bill) {
      const auto [unit, quantity] = amount(item);
      rows.push_back(row({{item.text, kTableBold},
                          {runs_of(item.parts)},
                          {source_text(item.from)},
                          {unit},
                          {quantity}}));
    }
    table(flow_,
          {{"Item", 4},
           {"Parts", 5},
           {"Rests on", 3.4},
           {"Unit", 0.7},
           {"Quantity", 1.3, Align::right}},
          rows);
  }

  void steps() {
    if (plan_.steps.empty()) return;
    flow_.heading(2, "Order of the work and hold points", "protection-steps");
    flow_.paragraph(
        "At a hold point nothing goes on until those named have seen it and said so in writing.",
        layout::kSmallGrey);
    std::vector<Row> rows;
    for (const Step& step : plan_.steps)
      rows.push_back(row({{std::to_string(step.number), kTableBold},
                          {step.hold ? "HOLD" : "", kTableBold},
                          {step.text},
                          {joined(step.attends, ", ")},
                          {step.record},
                          {source_text(step.from)}}));
    table(flow_,
          {{"No.", 0.6},
           {"", 0.8},
           {"What is done", 5.4},
           {"Attends", 2.4},
           {"Record", 2.8},
           {"Rests on", 3}},
          rows);
  }

  void inspections() {
    if (plan_.inspections.empty()) return;
    flow_.heading(2, "What the arborist comes to see", "protection-visits");
    flow_.paragraph(
        "Several of these fall into one visit. The visits themselves, with their days, are in the "
        "monitoring plan.",
        layout::kSmallGrey);
    std::vector<Row> rows;
    for (const Inspection& visit : plan_.inspections)
      rows.push_back(row({{sentence_case(visit.trigger), kTableBold},
                          {visit.looks_at},
                          {source_text(visit.from)},
                          {fixed_number(visit.visits, 0)}}));
    table(flow_, {{"When", 3}, {"Looks at", 5}, {"Rests on", 3}, {"To be seen", 0.9, Align::right}},
          rows);
  }

  void notes() {
    // What is true of several is said once, before it all of them.
    std::vector<std::pair<std::string, std::vector<std::string>>> said;
    for (const Note& note : plan_.notes) {
      const auto same = std::find_if(said.begin(), said.end(),
                                     [&](const auto& one) { return one.first == note.text; });
      std::vector<std::string>& of =
          same == said.end() ? said.emplace_back(note.text, std::vector<std::string>{}).second
                             : same->second;
      if (std::find(of.begin(), of.end(), note.subject) == of.end()) of.push_back(note.subject);
    }
    std::vector<std::string> sentences;
    for (auto& [text, of] : said) {
      std::erase(of, std::string());
      sentences.push_back((of.empty() ? "" : joined(of, ", ") + ": ") + sentence_case(text));
    }
    if (sentences.empty()) return;
    flow_.heading(2, "What this plan does not know", "protection-notes");
    flow_.bullets(sentences, layout::kSmall);
  }

  Book& book_;
  Flow& flow_;
  const Site& site_;
  const ProtectionPlan& plan_;
};

}  // namespace

void add_protection(Book& book, const ReportOptions& options) {
  if (book.plan.advice == nullptr || !book.plan.advice->protection) return;
  std::vector<Sheet> sheets = make_protection_sheets(book.plan, options, book.meter, book.history);
  book.contents.push_back({"Protection plan at " + book.words.scale(sheets.front().scale),
                           "protection", book.pages.size()});
  for (Sheet& sheet : sheets) book.pages.push_back(std::move(sheet.page));
  Flow flow = book.landscape();
  Chapter(book, flow).write();
}

}  // namespace rootstead
