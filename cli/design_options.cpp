#include "cli/design_options.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>

#include "engine/base/text.hpp"
#include "engine/base/units.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead::cli {

const char* const kDesignCaution =
    "Health (fine roots) and stability (anchorage) are two answers; their weights in money only "
    "put "
    "ways in order.\nServices, levels, soil and permits decide whether a way can be built: this "
    "says only what trees ask for.\n";

Result<RoutePrices> prices_given(const std::vector<std::string>& given, const Tables& tables) {
  RoutePrices prices = route_prices(tables);
  for (const std::string& one : given) ROOTSTEAD_CHECK(set_price(prices, one));
  return prices;
}

Result<Point> point_from(const std::string& text) {
  const auto parts = split(text, ',');
  const auto x = parts.size() == 2 ? number_from(parts[0]) : std::nullopt;
  const auto y = parts.size() == 2 ? number_from(parts[1]) : std::nullopt;
  if (x && y && std::isfinite(*x) && std::isfinite(*y)) return Point{*x, *y};
  return Error{Code::value_invalid, "point \"" + text + "\"", "it is no pair of coordinates",
               "write it as 480012.5,4880031.0 in metres of the project's system"};
}

Result<Length> length_given(const std::string& text, const std::string& option) {
  const auto length = entered_length_from(text, {});
  if (!length)
    return Error{Code::value_invalid, option, "\"" + text + "\" is no length", "write it as 1.5m"};
  if (length->length().metres() >= 0) return length->length();
  return Error{Code::value_invalid, option, "it is negative", "write it as 1.5m"};
}

namespace {

// Outlines of x,y a line, with an empty line between two.
Result<MultiPolygon> outlines_of(const std::string& file) {
  std::ifstream in(file);
  if (!in)
    return Error{Code::unknown_name, "ground \"" + file + "\"",
                 "it is neither a work or surface of the project nor a file that can be read",
                 "name one of them"};
  MultiPolygon area;
  Ring ring;
  const auto close = [&] {
    if (ring.size() >= 3) area.push_back({ring, {}});
    ring.clear();
  };
  std::string line;
  while (std::getline(in, line)) {
    if (trimmed(line).empty()) {
      close();
      continue;
    }
    ROOTSTEAD_TRY(const Point at, point_from(line));
    ring.push_back(at);
  }
  close();
  return union_of({area});
}

}  // namespace

Result<MultiPolygon> ground_named(const std::vector<std::string>& names, const Site& site) {
  std::vector<MultiPolygon> parts;
  for (const std::string& name : names) {
    if (name == "boundary") {
      if (site.boundary.empty())
        return Error{Code::missing_measurement, "boundary", "the project has none",
                     "add it with `rootstead add FILE OUTLINE --as boundary`"};
      parts.push_back(site.boundary);
      continue;
    }
    if (const Work* work = site.work(name)) {
      parts.push_back(footprint(*work));
      continue;
    }
    const auto surface = std::find_if(site.surfaces.begin(), site.surfaces.end(),
                                      [&](const Surface& one) { return one.id == name; });
    if (surface != site.surfaces.end()) {
      parts.push_back(surface->area);
      continue;
    }
    ROOTSTEAD_TRY(MultiPolygon outlines, outlines_of(name));
    parts.push_back(std::move(outlines));
  }
  return union_of(parts);
}

RootSimulation trial_of(const ProjectSettings& settings, std::optional<int> draws) {
  constexpr int kTrialDraws = 64;
  RootSimulation how = simulation_of(settings);
  how.draws = draws.value_or(std::min(how.draws, kTrialDraws));
  return how;
}

std::string money_text(double money) {
  std::string text = fixed_number(money, 0);
  const std::size_t sign = text.front() == '-' ? 1 : 0;
  for (std::size_t i = text.size(); i > sign + 3;) text.insert(i -= 3, ",");
  return text;
}

double sum_of(const Appraisal& appraisal, double TreeToll::*what) {
  double sum = 0;
  for (const TreeToll& toll : appraisal.trees) sum += toll.*what;
  return sum;
}

namespace {

std::string shares(const Range& range) {
  return fixed_number(100 * range.best, 1) + " % (" + fixed_number(100 * range.low, 1) + "-" +
         fixed_number(100 * range.high, 1) + ")";
}

}  // namespace

std::string toll_table(const Appraisal& appraisal, const Site& site) {
  std::vector<TableRow> rows{
      {"  tree", "fine roots lost", "without", "anchorage kept", "without", "weighs", "action"}};
  for (const TreeToll& toll : appraisal.trees) {
    const Tree* tree = site.tree(toll.tree);
    rows.push_back(
        {"  " + (tree == nullptr ? toll.tree : tree->label()), shares(toll.loss),
         fixed_number(100 * toll.loss_without.best, 1) + " %",
         toll.kept ? shares(*toll.kept) : "unknown",
         toll.kept_without ? fixed_number(100 * toll.kept_without->best, 1) + " %" : "unknown",
         money_text(toll.cost()), std::string(to_text(toll.action))});
  }
  return text_table(rows);
}

std::string prices_text(const RoutePrices& prices) {
  const std::string whose =
      prices.own.empty() ? "all our assumption: put your own with --price NAME=NUMBER"
                         : "yours: " + joined(prices.own, ", ") + "; the others our assumption";
  return "Money: a metre open " + money_text(prices.open) + ", by hand " + money_text(prices.hand) +
         ", bored " + money_text(prices.bore) + "; a pit " + money_text(prices.pit) +
         ", a change " + money_text(prices.change) + ", a bend " + money_text(prices.bend) +
         ". Weights: all fine roots of a tree " + money_text(prices.roots) +
         ", all its anchorage " + money_text(prices.hold) + ", a metre dug near a trunk " +
         money_text(prices.near_stem) + " (" + whose + ").\n";
}

io::Json appraisal_json(const Appraisal& appraisal) {
  io::Json trees = io::Json::array();
  for (const TreeToll& toll : appraisal.trees)
    trees.push_back({{"tree", toll.tree},
                     {"absorbing_loss", io::to_json(toll.loss)},
                     {"absorbing_loss_without", io::to_json(toll.loss_without)},
                     {"anchorage_kept", toll.kept ? io::to_json(*toll.kept) : io::Json(nullptr)},
                     {"anchorage_kept_without",
                      toll.kept_without ? io::to_json(*toll.kept_without) : io::Json(nullptr)},
                     {"near_m", toll.near_metres},
                     {"verdict", to_text(toll.action)},
                     {"roots_cost", toll.roots_cost},
                     {"hold_cost", toll.hold_cost},
                     {"near_cost", toll.near_cost}});
  return {{"length_m", appraisal.length},       {"building", appraisal.building},
          {"roots_lost", appraisal.roots_lost}, {"hold_lost", appraisal.hold_lost},
          {"total", appraisal.total()},         {"trees", std::move(trees)}};
}

io::Json prices_json(const RoutePrices& prices) {
  return {{"open", prices.open},
          {"hand", prices.hand},
          {"bore", prices.bore},
          {"pit", prices.pit},
          {"change", prices.change},
          {"bend", prices.bend},
          {"bridge", prices.bridge},
          {"surface", prices.surface},
          {"area", prices.area},
          {"area_hand", prices.area_hand},
          {"area_bridge", prices.area_bridge},
          {"roots", prices.roots},
          {"hold", prices.hold},
          {"near_stem", prices.near_stem},
          {"own", prices.own}};
}

io::Json notes_json(const std::vector<Note>& notes) {
  io::Json list = io::Json::array();
  for (const Note& note : notes)
    list.push_back(
        {{"code", static_cast<int>(note.code)}, {"subject", note.subject}, {"text", note.text}});
  return list;
}

}  // namespace rootstead::cli
