#include <algorithm>
#include <set>

#include "report/bars.hpp"
#include "report/book.hpp"
#include "report/plan_drawing.hpp"

namespace rootstead {

using layout::Cell;
using layout::Flow;
using layout::Pen;
using layout::Rect;
using layout::Row;

namespace {

constexpr std::size_t kKept = 2;  // rows

std::string limits_text(const std::vector<LimitResult>& limits) {
  std::string passed, kept;
  for (const LimitResult& limit : limits) {
    if (limit.passed_over)
      passed += (passed.empty() ? "▲ " : "\n▲ ") + limit.limit + mark(limit.figure.from.status);
    else
      kept += (kept.empty() ? "" : ", ") + limit.limit;
  }
  if (!kept.empty()) passed += (passed.empty() ? "within " : "\nwithin ") + kept;
  return passed.empty() ? "no limit in this rule" : passed;
}

Row zone_row(const Book& book, const ZoneAssessment& z) {
  std::string by_work;
  for (const ZoneLoss::ByWork& work : z.loss.by_work) {
    by_work += (by_work.empty() ? "" : "; ") + work_name(book, work.work) + " " + share(work.share);
  }
  const auto limits = share_limits(book, z);
  const double value = z.loss.share;
  Cell bar;
  bar.height = kBarHeight + 0.6;
  bar.draw = [value, limits](Pen& pen, const Rect& box) {
    draw_share_bar(pen, {box.x, box.y + 0.4, box.w, kBarHeight}, value, limits);
  };
  const std::string radius = book.words.length(z.zone.radius) + mark(z.zone.figure.from.status);
  Row row;
  row.cells = {{z.zone.name + ", " + z.zone.rule},
               {radius + ", " + book.words.area(z.zone.area)},
               {share(value) + ", " + book.words.area(z.loss.affected), layout::kTableBold},
               bar,
               {by_work.empty() ? "none" : by_work},
               {limits_text(z.limits)}};
  return row;
}

Row range_row(std::string what, std::string of, const Range& range, std::string by_work,
              std::string remark) {
  Cell bar;
  bar.height = kBarHeight + 0.6;
  bar.draw = [range](Pen& pen, const Rect& box) {
    draw_range_bar(pen, {box.x, box.y + 0.4, box.w, kBarHeight}, range);
  };
  Row row;
  row.cells = {{std::move(what)},    {std::move(of)},    {share_of(range), layout::kTableBold}, bar,
               {std::move(by_work)}, {std::move(remark)}};
  return row;
}

Row roots_row(const Book& book, const TreeAssessment& tree) {
  std::string by_work;
  for (const RootLoss::ByWork& work : tree.roots->by_work) {
    if (share(work.alone.high) == share(0)) continue;  // nothing that could be told
    by_work +=
        (by_work.empty() ? "" : "; ") + work_name(book, work.work) + " " + share_of(work.alone);
  }
  const Status status =
      tree.estimate ? weakest(tree.estimate->figures, Status::assumption) : Status::assumption;
  return range_row("Absorbing roots lost" + mark(status), "vitality, an estimate", tree.roots->all,
                   by_work.empty() ? "none" : by_work, "a range, no limit of its own");
}

Row anchorage_row(const Book& book, const TreeAssessment& tree) {
  const AnchorageKept& kept = *tree.anchorage;
  std::string works, remark;
  for (const std::string& id : kept.works)
    works += (works.empty() ? "" : "; ") + work_name(book, id);
  if (!kept.works.empty()) remark = "weakest with wind from " + degrees(kept.worst_from);
  if (!kept.reasons_to_inspect.empty())
    remark += (remark.empty() ? "" : "\n") + std::string("▲ to be inspected: see the tree's page");
  return range_row("Anchorage kept" + mark(kept.figure.from.status),
                   "stability, 100 % is as before", kept.kept, works.empty() ? "none" : works,
                   remark);
}

// What follows where a limit is passed is the same for every tree: it is told once, before them.
void add_limits(const Book& book, Flow& flow) {
  std::vector<Row> rows;
  std::set<std::vector<std::string>> told;
  for (const TreeAssessment& tree : book.assessment().trees) {
    if (!tree.affected()) continue;
    for (const ZoneAssessment& z : tree.zones) {
      for (const LimitResult& limit : z.limits) {
        if (!limit.passed_over || limit.triggers.empty()) continue;
        const std::vector<std::string> cells{z.zone.rule + ", " + z.zone.name, limit.limit,
                                             limit.triggers, cited(limit.figure.from)};
        if (!told.insert(cells).second) continue;
        Row row;
        row.name = "limit:" + limit.limit;
        row.cells = {{cells[0]}, {"▲ " + cells[1], layout::kTableBold}, {cells[2]}, {cells[3]}};
        rows.push_back(std::move(row));
      }
    }
  }
  if (rows.empty()) return;
  flow.heading(2, "What follows where a limit is passed");
  table(flow, {{"Rule and zone", 4}, {"Limit", 2.6}, {"What follows", 8}, {"Source; status", 4}},
        rows);
}

void add_tree(const Book& book, const TreeAssessment& assessed, const Tree& tree,
              std::vector<Row>& rows) {
  const std::size_t first = rows.size();
  Row head;
  head.opens_group = true;
  head.heads_group = true;
  head.name = "losses:" + tree.id;
  const Verdict& v = assessed.verdict;
  head.cells = {
      {tree.label() + "  " + name_of(tree), sized(layout::kTableBold, 8.4),
       target_of(book, assessed), 2},
      {sentence_case(std::string(to_text(v.action))), sized(layout::kTableBold, 8.4), {}, 2},
      {"Concern for vitality: " + std::string(to_text(v.vitality)), layout::kTableText},
      {"Concern for stability: " + std::string(to_text(v.stability)), layout::kTableText}};
  rows.push_back(std::move(head));
  for (const ZoneAssessment& z : assessed.zones) rows.push_back(zone_row(book, z));
  if (assessed.roots) rows.push_back(roots_row(book, assessed));
  if (assessed.anchorage) rows.push_back(anchorage_row(book, assessed));
  // The name stays with its first figures.
  for (std::size_t i = first; i < std::min(first + kKept, rows.size() - 1); ++i)
    rows[i].keeps_with_next = true;
  // Nor does its last row stand alone on the next page.
  if (rows.size() - first > 2) rows[rows.size() - 2].keeps_with_next = true;
}

}  // namespace

void add_losses(Book& book) {
  Flow flow = book.landscape();
  book.open_chapter(flow, "What each work takes", "losses");
  flow.paragraph(
      "Shares of a zone are exact; where works overlap, the ground counts once in the joint "
      "figure, "
      "so the works alone may add up to more; works that exist already are told alone and are no "
      "part of it. Bars run from 0 to 100 %. Solid: share of the zone. "
      "Hatched: range from low to high with the best estimate as a black mark. Red-brown line "
      "across a bar: a limit of the rule; ▲ marks a limit that is passed. Vitality and stability "
      "are never added up. " +
          legend_of_marks(),
      layout::kSmallGrey);
  add_limits(book, flow);
  std::vector<Row> rows;
  std::string untouched;
  for (const TreeAssessment& assessed : book.assessment().trees) {
    const Tree* tree = tree_of(book.plan, assessed);
    if (tree == nullptr) continue;
    if (assessed.affected())
      add_tree(book, assessed, *tree, rows);
    else
      untouched += (untouched.empty() ? "" : ", ") + tree->label();
  }
  table(flow,
        {{"What is measured", 5.2},
         {"Size", 2.6},
         {"All works together", 2.4},
         {"0 to 100 %", 3},
         {"Each work alone", 6.4},
         {"Limits of the rule", 4}},
        rows);
  if (!untouched.empty())
    flow.paragraph("No work reaches any zone or the roots of: " + untouched + ".");
}

}  // namespace rootstead
