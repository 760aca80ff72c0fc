#include "engine/transplant/ball.hpp"

#include <algorithm>

#include "engine/base/text.hpp"
#include "engine/site/diameter.hpp"
#include "engine/tables/traits.hpp"
#include "engine/transplant/trail.hpp"

namespace rootstead {
namespace {

constexpr double kMetresPerFoot = 0.3048;
constexpr double kSameSize = 1e-9;  // m: a size written in inches meets its own row

using Rows = std::vector<BallTable::Row>;

// Recalled, not read: ANSI Z60.1, 1.1, shade trees.
const Rows kAnsiShade = {{0.5, 12}, {0.75, 14}, {1, 16}, {1.25, 18}, {1.5, 20}, {1.75, 22},
                         {2, 24},   {2.5, 28},  {3, 32}, {3.5, 38},  {4, 42},   {4.5, 48},
                         {5, 54},   {5.5, 57},  {6, 60}, {7, 70},    {8, 80}};
// The same, small and upright trees (types 3 and 4).
const Rows kAnsiSmall = {{0.5, 12},  {0.75, 14}, {1, 16},   {1.25, 18}, {1.5, 20},
                         {1.75, 22}, {2, 24},    {2.5, 28}, {3, 32}};
// Read on a landscaper's page; about an inch below the standard as recalled.
const Rows kSimple = {{1, 15}, {1.5, 19}, {2, 23}, {2.5, 27}, {3, 31}};
// Recalled with little confidence: conifers by height in feet. At 6 ft 22 to 24 in: the larger.
const Rows kAnsiConifer = {{2, 12}, {3, 14},  {4, 16},  {5, 20},  {6, 24},  {7, 27}, {8, 30},
                           {9, 34}, {10, 38}, {12, 42}, {14, 46}, {16, 50}, {18, 54}};
// Read on a nursery's page: 5 to 6 ft 24 in, and so on.
const Rows kNurseryConifer = {{6, 24}, {7, 28}, {8, 32}, {9, 36}};

std::vector<BallTable> make_tables() {
  using By = BallTable::By;
  return {{"ansi-z60-shade",
           "shade trees",
           By::calliper,
           kAnsiShade,
           {"ansi-z60-1", "1.1, shade trees; recalled", Status::memory}},
          {"ansi-z60-small",
           "small and upright trees",
           By::calliper,
           kAnsiSmall,
           {"ansi-z60-1", "1.1, small and upright trees; recalled", Status::memory}},
          {"simple",
           "a simplified public table",
           By::calliper,
           kSimple,
           {"ball-table-simple", "table", Status::published}},
          {"ansi-z60-conifer",
           "conifers by height",
           By::height,
           kAnsiConifer,
           {"ansi-z60-1", "conifers; recalled with little confidence", Status::memory}},
          {"nursery-conifer",
           "conifers by height, one nursery",
           By::height,
           kNurseryConifer,
           {"bluegrass-farms", "ball sizes by height", Status::published}}};
}

double metres_per_unit(BallTable::By by) {
  return by == BallTable::By::calliper ? kMetresPerInch : kMetresPerFoot;
}

std::string size_text(BallTable::By by, double size) {
  return shortest_number(size) + (by == BallTable::By::calliper ? " in" : " ft");
}

Error beyond(const BallTable& table) {
  return Error{
      Code::outside_rule_domain, "transplant.ball-diameter table " + table.id,
      "the table of balls ends below a tree of this size",
      "its last row is " + size_text(table.by, table.rows.back().size) +
          "; leave ball, gear and way of moving to a specialist who has dug such trees, on roots "
          "that were looked for"};
}

Error unknown_table(std::string_view name) {
  std::vector<std::string> known;
  for (const BallTable& table : ball_tables()) known.push_back(table.id);
  return Error{Code::unknown_name, "transplant.ball-diameter",
               "there is no table \"" + std::string(name) + "\"",
               "the tables are " + joined(known, ", ")};
}

}  // namespace

const std::vector<BallTable>& ball_tables() {
  static const std::vector<BallTable> tables = make_tables();
  return tables;
}

Error no_calliper_rule(std::string subject) {
  return Error{Code::outside_rule_domain, std::move(subject),
               "a palm or other monocot does not follow calliper: its trunk never thickens with "
               "age and its roots all come anew from the base of the trunk, so neither tells of "
               "the other",
               "ask for transplant.palm-ball with its species"};
}

Result<Figure> ball_diameter(std::string_view name, Length size, bool collected) {
  const auto table = std::find_if(ball_tables().begin(), ball_tables().end(),
                                  [&](const BallTable& one) { return one.id == name; });
  if (table == ball_tables().end()) return unknown_table(name);
  const double unit = metres_per_unit(table->by);
  auto row = std::find_if(table->rows.begin(), table->rows.end(), [&](const BallTable::Row& one) {
    return size.metres() <= one.size * unit + kSameSize;
  });
  if (row != table->rows.end() && collected) ++row;
  if (row == table->rows.end()) return beyond(*table);
  Trail trail("transplant.ball-diameter", "m");
  trail
      .formula(collected ? "the row for this size, and one further: not grown for lifting"
                         : "the first row not smaller than the tree")
      .by(table->from)
      .length("s", table->by == BallTable::By::calliper ? "calliper" : "height", size)
      .given("row", table->name,
             size_text(table->by, row->size) + ": " + shortest_number(row->least_in) + " in");
  if (collected) trail.by(Citation{"uf-american-standard", "collected stock", Status::published});
  return trail.is(row->least_in * kMetresPerInch);
}

Figure ball_diameter_by_practice(Length calliper, const Tables& tables) {
  const Parameter& per = tables.parameter("transplant.ball_per_calliper");
  return Trail("transplant.ball-diameter-practice", "m")
      .formula("d = k c")
      .length("c", "calliper", calliper)
      .by(per, "k")
      .is(times(range_of(per), calliper.metres()));
}

Figure ball_depth(Length diameter, const Tables& tables) {
  const auto at = [&](const char* id) { return tables.parameter(id).best; };
  const double d = diameter.metres();
  const char* share = "transplant.depth_share.large";
  if (d <= at("transplant.depth_from.large") + kSameSize) share = "transplant.depth_share.middle";
  if (d < at("transplant.depth_from.middle") - kSameSize) share = "transplant.depth_share.small";
  Trail trail("transplant.ball-depth", "m");
  trail.formula("h = k d, measured from the root flare down")
      .length("d", "ball diameter", diameter)
      .by(tables.parameter(share), "k");
  if (d > at("transplant.depth_known_to") + kSameSize)
    trail.by(Citation{"rootstead", "share kept for larger balls, which are shallower still",
                      Status::assumption});
  return trail.is(times(range_of(tables.parameter(share)), d));
}

namespace {

// Measured low on the stem, where callipers are set.
bool at_calliper_height(const Stem& stem, const Tables& tables) {
  const double high = tables.parameter("transplant.calliper_at_large").best;
  return stem.measured_at && stem.measured_at->length().metres() <= high + 0.05;
}

}  // namespace

Result<Calliper> calliper_of(const Tree& tree, const Tables& tables) {
  if (is_monocot(tree, tables)) return no_calliper_rule("tree " + tree.label());
  ROOTSTEAD_TRY(const Length diameter, combined_diameter(tree, {}));
  const bool measured = std::all_of(tree.stems.begin(), tree.stems.end(), [&](const Stem& stem) {
    return at_calliper_height(stem, tables);
  });
  Trail trail("transplant.calliper", "m");
  trail.length("D", "stem diameter as measured, all stems together", diameter);
  if (measured) {
    trail.formula("c = D").by(
        Citation{"kaneville-tree-farms", "6 in up to 4 in, 12 in above", Status::published});
    const Range exact = same(diameter.metres());
    return Calliper{exact, true, trail.is(exact)};
  }
  const Parameter& per = tables.parameter("transplant.calliper_per_breast_height");
  const Range range = times(range_of(per), diameter.metres());
  return Calliper{range, false, trail.formula("c = k D").by(per, "k").is(range)};
}

}  // namespace rootstead
