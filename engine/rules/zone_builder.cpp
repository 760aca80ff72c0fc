#include "engine/rules/zone_builder.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/base/text.hpp"
#include "engine/geom/circle_area.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/rules/redraw.hpp"
#include "engine/rules/term.hpp"

namespace rootstead {
namespace {

class Builder {
 public:
  Builder(const ZoneDefinition& definition, const TreeSize& size, const ZoneRule& rule)
      : definition_(definition), size_(size), tree_(*size.tree), rule_(rule) {
    zone_.rule = rule.id;
    zone_.zone = definition.id;
    zone_.name = definition.name;
    zone_.purpose = definition.purpose;
    if (tree_.position) zone_.centre = tree_.position->at;
    zone_.figure.name = rule.id + "." + definition.id + ".radius";
    zone_.figure.unit = "m";
    zone_.figure.from = definition.from;
    zone_.figure.inputs = size.stems;
    zone_.notes = size.notes;
  }

  Result<Zone> build(const std::vector<Barrier>& barriers) {
    take_stem();
    if (const auto error = take_terms()) return *error;
    if (definition_.centre == ZoneCentre::bark && !stem_) return missing_for_bark();
    apply_bounds();
    count_from_bark();
    take_shape();
    if (definition_.redraw_at_barriers && tree_.position && !zone_.outline) redraw(barriers);
    finish_figure();
    return std::move(zone_);
  }

 private:
  void note(NoteCode code, std::string text) {
    zone_.notes.push_back({code, tree_.label(), std::move(text)});
  }
  void weaken(const std::optional<Status>& status) {
    if (status) zone_.figure.from.status = weaker(zone_.figure.from.status, *status);
  }

  bool takes_stem() const {
    return definition_.centre == ZoneCentre::bark ||
           std::any_of(definition_.terms.begin(), definition_.terms.end(),
                       [](const ZoneTerm& term) { return term.about_stem(); });
  }

  void take_stem() {
    stem_ = size_.diameter;
    if (!takes_stem()) {
      zone_.figure.inputs.clear();
      return;
    }
    if (definition_.measure == StemMeasure::basal) {
      take_basal();
    } else if (size_.diameter) {
      add_formula(size_.diameter_formula);
      weaken(size_.convention_status);
    }
    if (!stem_) return;
    zone_.diameter = *stem_;
    zone_.figure.inputs.push_back({"D", "stem diameter the rule takes", computed_text(*stem_)});
  }

  // No published conversion from the stem at breast height to the base is known: the smaller stem
  // is used as it is, and said.
  void take_basal() {
    if (tree_.basal_diameter) {
      stem_ = tree_.basal_diameter->length();
      zone_.figure.inputs = {
          {"d", "diameter above the root buttress", to_text(*tree_.basal_diameter)}};
      return;
    }
    if (!stem_) return;
    zone_.figure.inputs.push_back({"d", "diameter above the root buttress",
                                   "not measured: the stem diameter is used instead"});
    add_formula(size_.diameter_formula);
    weaken(Status::assumption);
    note(NoteCode::basal_diameter_estimated,
         "the diameter above the root buttress is missing: the stem diameter is used instead, "
         "which makes the " +
             definition_.name + " too small; measure it");
  }

  std::optional<Error> take_terms() {
    std::optional<Error> first_missing;
    std::vector<std::string> formulas;
    for (const ZoneTerm& term : definition_.terms) {
      auto value = term_value(term, size_, stem_);
      if (!value) {
        if (!first_missing) first_missing = value.error();
        continue;
      }
      formulas.push_back(value->formula);
      take(std::move(value).value());
    }
    if (formulas.empty()) return first_missing;
    if (first_missing) {
      note(NoteCode::crown_missing,
           first_missing->message + ": the " + definition_.name + " may have to be larger");
    }
    add_formula(formulas.size() == 1 ? "r = " + formulas.front()
                                     : "r = the largest of " + joined(formulas, "; "));
    return std::nullopt;
  }

  void take(TermValue value) {
    if (value.radius) radius_ = std::max(radius_.value_or(Length()), *value.radius);
    if (value.crown) crowns_.push_back(*value.crown);
    auto& inputs = zone_.figure.inputs;
    for (FigureInput& input : value.inputs) {
      const bool known = std::any_of(inputs.begin(), inputs.end(), [&](const FigureInput& other) {
        return other.symbol == input.symbol;
      });
      if (!known) inputs.push_back(std::move(input));
    }
    std::move(value.notes.begin(), value.notes.end(), std::back_inserter(zone_.notes));
    weaken(value.status);
  }

  Error missing_for_bark() const {
    return {Code::missing_measurement, "tree " + tree_.label(), "the stem diameter is missing",
            "measure the stem: the zone is counted from its bark"};
  }

  void apply_bounds() {
    if (definition_.at_least) {
      const Length least = definition_.at_least->length();
      add_formula("at least " + to_text(*definition_.at_least));
      zone_.raised = largest_now() < least;
      if (zone_.raised) radius_ = least;
    }
    if (definition_.at_most) {
      const Length most = definition_.at_most->length();
      add_formula("at most " + to_text(*definition_.at_most));
      zone_.capped = largest_now() > most;
      if (radius_) radius_ = std::min(*radius_, most);
      for (GrownCrown& crown : crowns_) {
        if (crown.reach() > most)
          crown = {{most.metres(), most.metres(), most.metres(), most.metres()}, 0};
      }
    }
    if (zone_.raised || zone_.capped) weaken(definition_.bounds_status);
    if (zone_.raised) {
      note(NoteCode::rule_raised_to_minimum,
           "the " + definition_.name + " is raised to the rule's minimum");
    }
    if (zone_.capped) {
      note(NoteCode::rule_capped, "the " + definition_.name + " is held at the rule's maximum");
    }
  }

  Length largest_now() const {
    Length largest = radius_.value_or(Length());
    for (const GrownCrown& crown : crowns_) largest = std::max(largest, crown.reach());
    return largest;
  }

  void count_from_bark() {
    if (definition_.centre != ZoneCentre::bark || !radius_) return;
    add_formula("counted from the bark: D/2 more from the stem centre");
    radius_ = *radius_ + *stem_ / 2;
  }

  // Circles first: crowns alike on all sides are circles too, and the largest circle covers the
  // others. Then what outlines reach beyond it.
  void take_shape() {
    std::vector<GrownCrown> outlines;
    for (const GrownCrown& crown : crowns_) {
      if (!crown.is_circle())
        outlines.push_back(crown);
      else
        radius_ = std::max(radius_.value_or(Length()), crown.reach());
    }
    set_circle(radius_.value_or(Length()));
    for (const GrownCrown& crown : outlines) {
      if (definition_.largest_by == LargestBy::area)
        take_larger(crown);
      else
        unite(crown);
    }
    if (zone_.outline) {
      zone_.radius = Length::metres(std::sqrt(zone_.area.square_metres() / std::numbers::pi));
    }
  }

  void set_circle(Length radius) {
    zone_.radius = zone_.reach = radius;
    zone_.area = circle_area(radius);
  }

  void set_outline(const GrownCrown& crown) {
    zone_.outline = MultiPolygon{crown.outline(zone_.centre)};
    zone_.area = crown.area();
    zone_.reach = crown.reach();
  }

  void take_larger(const GrownCrown& crown) {
    if (crown.area() <= zone_.area) return;
    set_outline(crown);
  }

  void unite(const GrownCrown& crown) {
    if (zone_.outline) {
      zone_.outline = union_of({*zone_.outline, MultiPolygon{crown.outline(zone_.centre)}});
      zone_.area = area_within(*zone_.outline);
    } else if (crown.nearest() >= zone_.radius) {
      set_outline(crown);
      return;
    } else if (crown.reach() > zone_.radius) {
      const Circle circle{zone_.centre, zone_.radius};
      const MultiPolygon outline{crown.outline(zone_.centre)};
      zone_.area = crown.area() + circle_area(zone_.radius) - common_area(circle, outline);
      zone_.outline = union_of({outline, MultiPolygon{polygon_of(circle, kCircleCorners)}});
    }
    zone_.reach = std::max(zone_.reach, crown.reach());
  }

  static Area area_within(const MultiPolygon& area) {
    Area sum;
    for (const Polygon& polygon : area) sum += area_of(polygon);
    return sum;
  }

  void redraw(const std::vector<Barrier>& barriers) {
    Redrawn redrawn = redrawn_at(Circle{zone_.centre, zone_.radius}, barriers);
    if (!redrawn.ignored.empty()) {
      note(NoteCode::tree_inside_building, "the stem stands in or against " +
                                               joined(redrawn.ignored, ", ") +
                                               ": the zone is not redrawn for it");
    }
    if (redrawn.barriers.empty()) return;
    const bool short_of = redrawn.area < circle_area(zone_.radius) * (1 - kAreaSlack);
    zone_.redrawn = true;
    zone_.outline = std::move(redrawn.outline);
    zone_.reach = redrawn.radius;
    zone_.area = short_of ? redrawn.area : circle_area(zone_.radius);
    zone_.radius = Length::metres(std::sqrt(zone_.area.square_metres() / std::numbers::pi));
    weaken(definition_.redraw_status);
    zone_.figure.inputs.push_back({"R",
                                   "radius on the tree's side of " + joined(redrawn.barriers, ", "),
                                   computed_text(redrawn.radius)});
    add_formula("redrawn with equal area: area of circle R not hidden by a barrier = pi r^2");
    note(NoteCode::rule_zone_redrawn,
         short_of ? "the " + definition_.name + " cannot be made up to its full area between " +
                        joined(redrawn.barriers, ", ") + ": " +
                        fixed_number(zone_.area.square_metres(), 1) + " m2 of ground are left"
                  : "the " + definition_.name + " is redrawn with equal area at " +
                        joined(redrawn.barriers, ", ") +
                        "; the arborist must confirm that the roots are held there");
  }

  void finish_figure() {
    zone_.figure.value = zone_.radius.metres();
    if (zone_.figure.from.status == Status::memory) {
      note(NoteCode::rule_from_memory, "the " + definition_.name + " of " + rule_.id +
                                           " is given from memory: confirm it from the text");
    }
    if (!definition_.note.empty()) note(NoteCode::class_choice_ours, definition_.note);
  }

  void add_formula(const std::string& part) {
    std::string& formula = zone_.figure.formula;
    if (part.empty()) return;
    if (!formula.empty()) formula += "; ";
    formula += part;
  }

  static constexpr int kCircleCorners = 256;
  static constexpr double kAreaSlack = 1e-9;

  const ZoneDefinition& definition_;
  const TreeSize& size_;
  const Tree& tree_;
  const ZoneRule& rule_;
  Zone zone_;
  std::optional<Length> stem_;
  std::optional<Length> radius_;  // of the largest circle so far
  std::vector<GrownCrown> crowns_;
};

}  // namespace

Result<Zone> build_zone(const ZoneDefinition& definition, const TreeSize& size,
                        const ZoneRule& rule, const std::vector<Barrier>& barriers) {
  return Builder(definition, size, rule).build(barriers);
}

}  // namespace rootstead
