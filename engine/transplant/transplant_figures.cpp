#include "engine/transplant/transplant_figures.hpp"

#include <cmath>
#include <optional>
#include <string>

#include "engine/tables/traits.hpp"
#include "engine/transplant/ball.hpp"
#include "engine/transplant/moved_roots.hpp"
#include "engine/transplant/palm_move.hpp"
#include "engine/transplant/recovery.hpp"
#include "engine/transplant/trail.hpp"
#include "engine/transplant/weights.hpp"

namespace rootstead {
namespace {

using Answer = Result<std::vector<Figure>>;

const FigureInput kForm{"form", "broadleaf, conifer, palm or other monocot", "broadleaf"};
const FigureInput kSpecies{"species", "botanical name", "Acer rubrum"};
const FigureInput kCalliper{"calliper", "stem at 6 in up to 4 in, at 12 in above", "3in"};
const FigureInput kDiameter{"diameter", "of the ball", "36in"};
const FigureInput kDepth{"depth", "of the ball; left out: the least by its diameter", "22in"};
const FigureInput kDensity{"density", "left out: that of the table, as a range", "110lb/ft3"};

// The tree that the arguments speak of, as far as its kind is concerned.
Result<Tree> kind_of(const HandValues& values) {
  Tree tree;
  tree.id = "figure";
  tree.botanical_name = values.word("species", "");
  if (!values.has("form")) return tree;
  const auto form = growth_form_from(values.word("form"));
  if (!form)
    return Error{Code::wrong_use, "figure", "form=" + values.word("form") + " is not understood",
                 "write e.g. form=conifer"};
  tree.form = *form;
  return tree;
}

// Nothing that goes by calliper is worked out for a palm or other monocot.
Outcome check_thickens(const HandValues& values, const std::string& figure, const Tables& tables) {
  ROOTSTEAD_TRY(const Tree tree, kind_of(values));
  if (is_monocot(tree, tables)) return no_calliper_rule(figure);
  return Nothing{};
}

Length length_in(const HandValues& values, const std::string& key) {
  return Length::metres(values.in(key, "m"));
}

std::optional<Density> density_in(const HandValues& values) {
  if (!values.has("density")) return std::nullopt;
  return Density::kilograms_per_cubic_metre(values.in("density", "kg/m3"));
}

Length depth_in(const HandValues& values, const Tables& tables) {
  if (values.has("depth")) return length_in(values, "depth");
  return Length::metres(ball_depth(length_in(values, "diameter"), tables).value);
}

Outcome check_above_zero(const HandValues& values, const std::vector<std::string>& keys,
                         const std::string& figure) {
  for (const std::string& key : keys)
    if (values.has(key) && !(values.in(key, "m") > 0))
      return Error{Code::value_invalid, figure, key + " is not above zero",
                   "give it as a positive length"};
  return Nothing{};
}

Answer by_table(const HandValues& values, const Tables& tables) {
  const std::string name = "transplant.ball-diameter";
  ROOTSTEAD_CHECK(check_thickens(values, name, tables));
  ROOTSTEAD_CHECK(check_above_zero(values, {"calliper", "height"}, name));
  const std::string table = values.word("table", "ansi-z60-shade");
  bool by_height = false;
  for (const BallTable& one : ball_tables())
    if (one.id == table) by_height = one.by == BallTable::By::height;
  const std::string key = by_height ? "height" : "calliper";
  if (!values.has(key))
    return Error{Code::wrong_use, name, key + " is missing: table " + table + " goes by it",
                 by_height ? "write e.g. height=8ft" : "write e.g. calliper=3in"};
  const bool collected = values.word("collected", "no") == "yes";
  ROOTSTEAD_TRY(Figure figure, ball_diameter(table, length_in(values, key), collected));
  return std::vector<Figure>{std::move(figure)};
}

HandFigure ball_diameter_figure(const Tables& tables) {
  return {{"transplant.ball-diameter",
           "m",
           "least diameter of the ball, by a named table",
           {kCalliper,
            {"height", "of a conifer", "8ft"},
            {"table", "ansi-z60-shade, ansi-z60-small, simple, ansi-z60-conifer, nursery-conifer",
             "ansi-z60-shade"},
            {"collected", "yes: not grown for lifting, one size larger", "no"},
            kForm,
            kSpecies}},
          {"calliper", "height", "table", "collected", "form", "species"},
          [&tables](const HandValues& values) { return by_table(values, tables); }};
}

HandFigure practice_figure(const Tables& tables) {
  const std::string name = "transplant.ball-diameter-practice";
  return {{name, "m", "ball by the trade's 10 to 12 inches an inch", {kCalliper, kForm, kSpecies}},
          {"form", "species"},
          [&tables, name](const HandValues& values) -> Answer {
            ROOTSTEAD_CHECK(check_thickens(values, name, tables));
            ROOTSTEAD_CHECK(check_above_zero(values, {"calliper"}, name));
            return std::vector{ball_diameter_by_practice(length_in(values, "calliper"), tables)};
          }};
}

HandFigure depth_figure(const Tables& tables) {
  const std::string name = "transplant.ball-depth";
  return {{name,
           "m",
           "least depth of the ball, from the root flare down",
           {kDiameter, kForm, kSpecies}},
          {"form", "species"},
          [&tables, name](const HandValues& values) -> Answer {
            ROOTSTEAD_CHECK(check_thickens(values, name, tables));
            ROOTSTEAD_CHECK(check_above_zero(values, {"diameter"}, name));
            return std::vector{ball_depth(length_in(values, "diameter"), tables)};
          }};
}

// The weights that go by diameter, depth and density of a ball.
template <class Weigh>
HandFigure weight_figure(const std::string& name, const std::string& meaning, const Tables& tables,
                         Weigh weigh) {
  return {{name, "kg", meaning, {kDiameter, kDepth, kDensity}},
          {"depth", "density"},
          [&tables, name, weigh](const HandValues& values) -> Answer {
            ROOTSTEAD_CHECK(check_above_zero(values, {"diameter", "depth"}, name));
            const Length diameter = length_in(values, "diameter");
            Figure weight = weigh(diameter, depth_in(values, tables), density_in(values), tables);
            const Citation depth = ball_depth(diameter, tables).from;
            if (!values.has("depth") && depth.status > weight.from.status) weight.from = depth;
            return std::vector{std::move(weight)};
          }};
}

HandFigure palm_ball_weight_figure(const Tables& tables) {
  HandFigure figure =
      weight_figure("transplant.palm-ball-weight", "weight of a palm's ball, an upright cylinder",
                    tables, ball_weight_cylinder);
  figure.kind.inputs[1] = {"depth", "of the ball", "12in"};
  figure.may_miss = {"density"};
  return figure;
}

HandFigure published_weight_figure() {
  const std::string name = "transplant.ball-weight-published";
  return {{name, "kg", "weight of a ball as nurseries print it", {kDiameter}},
          {},
          [name](const HandValues& values) -> Answer {
            if (auto figure = ball_weight_published(length_in(values, "diameter")))
              return std::vector{std::move(*figure)};
            return Error{Code::outside_rule_domain, name,
                         "weights were found printed for balls of 24 to 40 in only",
                         "ask for transplant.ball-weight-cone"};
          }};
}

HandFigure trunk_figure(const Tables& tables) {
  const std::string name = "transplant.palm-trunk-weight";
  return {
      {name,
       "kg",
       "weight of a palm's trunk",
       {{"width", "of the trunk", "12in"}, {"height", "of the trunk", "20ft"}, kDensity}},
      {"density"},
      [&tables, name](const HandValues& values) -> Answer {
        ROOTSTEAD_CHECK(check_above_zero(values, {"width", "height"}, name));
        return std::vector{palm_trunk_weight(
            length_in(values, "width"), length_in(values, "height"), density_in(values), tables)};
      }};
}

HandFigure stem_figure(const Tables& tables) {
  const std::string name = "transplant.stem-weight";
  return {{name,
           "kg",
           "weight of a stem that narrows from foot to top",
           {{"base", "diameter at the foot", "16in"},
            {"top", "diameter at the top", "8in"},
            {"height", "of the stem", "25ft"},
            kDensity,
            kForm,
            kSpecies}},
          {"density", "form", "species"},
          [&tables, name](const HandValues& values) -> Answer {
            ROOTSTEAD_TRY(const Tree tree, kind_of(values));
            if (is_monocot(tree, tables))
              return Error{Code::outside_rule_domain, name,
                           "a palm's trunk is no cone of wood that thickened",
                           "ask for transplant.palm-trunk-weight"};
            ROOTSTEAD_CHECK(check_above_zero(values, {"base", "top", "height"}, name));
            return std::vector{stem_weight(length_in(values, "base"), length_in(values, "top"),
                                           length_in(values, "height"), density_in(values),
                                           tree.form == GrowthForm::conifer, tables)};
          }};
}

HandFigure establishment_figure(const Tables& tables) {
  const std::string name = "transplant.establishment";
  return {{name,
           "months",
           "until a moved tree is established, irrigated",
           {kCalliper, {"zone", "USDA hardiness zone", "8"}, kForm, kSpecies}},
          {"form", "species"},
          [&tables, name](const HandValues& values) -> Answer {
            ROOTSTEAD_CHECK(check_thickens(values, name, tables));
            ROOTSTEAD_CHECK(check_above_zero(values, {"calliper"}, name));
            const double calliper = values.in("calliper", "m");
            const double zone = values.in("zone", "");
            if (!(zone >= 1 && zone <= 13) || zone != std::floor(zone))
              return Error{Code::value_invalid, name, "there is no such hardiness zone",
                           "give a whole number from 1 to 13"};
            ROOTSTEAD_TRY(Figure figure, establishment({calliper, calliper, calliper},
                                                       static_cast<int>(zone), tables));
            return std::vector<Figure>{std::move(figure)};
          }};
}

HandFigure palm_ball_figure(const Tables& tables) {
  return {{"transplant.palm-ball",
           "m",
           "least ball of a palm from the face of its trunk, each source beside the others",
           {{"species", "botanical name", "Phoenix canariensis"}}},
          {},
          [&tables](const HandValues& values) -> Answer {
            return palm_ball(values.word("species"), tables).by_source;
          }};
}

HandFigure moved_figure(const Tables& tables) {
  return {
      {"transplant.moved", "", "share of the roots in a ball, by each measure that was used", {}},
      {},
      [&tables](const HandValues&) -> Answer { return published_shares_moved(tables); }};
}

// A figure of one mass.
HandFigure mass_figure(const std::string& name, const std::string& meaning,
                       const FigureInput& input, const Tables& tables,
                       Figure (*of)(Mass, const Tables&)) {
  return {{name, "kg", meaning, {input}},
          {},
          [&tables, name, input, of](const HandValues& values) -> Answer {
            const double mass = values.in(input.symbol, "kg");
            if (!(mass > 0))
              return Error{Code::value_invalid, name, input.symbol + " is not above zero",
                           "give a positive weight"};
            return std::vector{of(Mass::kilograms(mass), tables)};
          }};
}

}  // namespace

std::vector<HandFigure> transplant_figures(const Tables& tables) {
  return {ball_diameter_figure(tables),
          practice_figure(tables),
          depth_figure(tables),
          weight_figure("transplant.ball-weight-cone", "weight of a ball as a cut cone", tables,
                        ball_weight_cone),
          weight_figure("transplant.ball-weight-short", "weight of a ball by the short rule",
                        tables, ball_weight_short_rule),
          published_weight_figure(),
          palm_ball_weight_figure(tables),
          stem_figure(tables),
          trunk_figure(tables),
          mass_figure("transplant.lifting-load", "what lifting gear is chosen for",
                      {"weight", "highest estimate", "1200kg"}, tables, lifting_load),
          mass_figure("transplant.sling-strength", "least breaking strength of slings, as a mass",
                      {"load", "on the slings", "1800kg"}, tables, sling_strength),
          establishment_figure(tables),
          palm_ball_figure(tables),
          moved_figure(tables)};
}

}  // namespace rootstead
