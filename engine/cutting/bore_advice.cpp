#include "engine/cutting/bore_advice.hpp"

#include <algorithm>
#include <cassert>
#include <limits>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "engine/cutting/bore_line.hpp"
#include "engine/cutting/cut_distance.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

constexpr double kInside = 1e-6;  // m: a line that begins this near to a span begins inside it

Length length_of(const Tables& tables, std::string_view id) {
  const Parameter& row = tables.parameter(id);
  return Length::metres(row.best * metres_per(length_unit_from(row.unit).value()));
}

BoreClearance palm_clearance(const Tree& tree, const CutDistance& distance) {
  BoreClearance clearance;
  clearance.tree = tree.id;
  clearance.palm = true;
  clearance.from_trunk = *distance.least;
  clearance.trunk_radius = distance.trunk_radius;
  clearance.from_centre = clearance.from_trunk + clearance.trunk_radius;
  clearance.figures = distance.figures;
  return clearance;
}

Figure depth_figure(const std::string& name, const Tables& tables, std::string_view id) {
  const Parameter& row = tables.parameter(id);
  Figure figure;
  figure.name = "cutting.bore-depth." + name;
  figure.value = length_of(tables, id).metres();
  figure.unit = "m";
  figure.inputs = {input_from(row, "d")};
  figure.formula = "d, to the crown of the bore";
  figure.from = row.from;
  return figure;
}

BoreDepth plain_depth(const std::string& name, const std::string& rule, bool asked,
                      const Tables& tables, std::string_view id) {
  BoreDepth depth;
  depth.rule = rule;
  depth.depth = length_of(tables, id);
  depth.applies = true;
  depth.asked = asked;
  depth.figure = depth_figure(name, tables, id);
  return depth;
}

// One county's: deeper where the line comes close, by the size of the tree. `diameter`: nothing
// for palms, which count as larger trees.
BoreDepth arlington_depth(std::optional<Length> diameter, Length nearest, const Tables& tables) {
  BoreDepth depth = plain_depth("arlington", "Arlington, Virginia, close to a tree", true, tables,
                                "cutting.bore.arlington.depth");
  const bool small =
      diameter && *diameter <= length_of(tables, "cutting.bore.arlington.small_stem");
  const std::string near =
      small ? "cutting.bore.arlington.near_small" : "cutting.bore.arlington.near_large";
  depth.applies = nearest <= length_of(tables, near);
  depth.figure.inputs.push_back(input_from(tables.parameter(near), "near"));
  depth.figure.inputs.push_back(
      {"n", "distance of the line from the trunk", fixed_number(nearest.metres(), 2) + " m"});
  depth.figure.formula = "d where n is at most near; to the crown of the bore";
  if (!diameter) {
    depth.figure.formula += "; a palm counts as a larger tree, by us";
    depth.figure.from.status = Status::assumption;
  }
  return depth;
}

Length deepest(const std::vector<BoreDepth>& depths) {
  Length deepest;
  for (const BoreDepth& one : depths)
    if (one.applies && one.asked) deepest = std::max(deepest, one.depth);
  return deepest;
}

Length nearest_of(const Work& work, const Point& stem, Length trunk_radius) {
  double nearest = std::numeric_limits<double>::infinity();
  for (const Line& line : work.shape.lines)
    nearest = std::min(nearest, distance_between(stem, line).metres());
  return Length::metres(std::max(0.0, nearest - trunk_radius.metres()));
}

// One span of a line within the distance of one tree.
void add_spans(const Line& line, std::size_t index, const Tree& tree, Length from_centre,
               Length depth, std::vector<BoreStretch>& spans) {
  for (const ChainSpan& span : spans_within(line, tree.position->at, from_centre.metres()))
    spans.push_back({index, span.from, span.to, {tree.id}, depth, false, false});
}

// Spans by all trees in order; those that leave no room for a pit between them made one.
std::vector<BoreStretch> joined_spans(std::vector<BoreStretch> spans, const Line& line,
                                      Length pit) {
  std::stable_sort(spans.begin(), spans.end(),
                   [](const BoreStretch& a, const BoreStretch& b) { return a.from < b.from; });
  std::vector<BoreStretch> joined;
  for (BoreStretch& span : spans) {
    if (joined.empty() || span.from > joined.back().to + pit.metres()) {
      joined.push_back(std::move(span));
      continue;
    }
    BoreStretch& last = joined.back();
    last.to = std::max(last.to, span.to);
    last.depth = std::max(last.depth, span.depth);
    const std::string& tree = span.trees.front();
    if (std::find(last.trees.begin(), last.trees.end(), tree) == last.trees.end())
      last.trees.push_back(tree);
  }
  const double length = length_of(line).metres();
  for (BoreStretch& one : joined) {
    one.begins_inside = one.from <= kInside;
    one.ends_inside = one.to >= length - kInside;
  }
  return joined;
}

bool runs_along_a_line(const Work& work) {
  const bool kind = work.kind == WorkKind::trench || work.kind == WorkKind::bore;
  return kind && !work.shape.lines.empty();
}

// Works out one advice, part by part.
class BoreAdviser {
 public:
  BoreAdviser(const Tree& tree, const Work& work, const Site& site,
              const BoreClearances& clearances, const Tables& tables)
      : tree_(tree),
        work_(work),
        site_(site),
        clearances_(clearances),
        tables_(tables),
        text_{site.settings.units} {
    advice_.tree = tree.id;
    advice_.work = work.id;
  }

  BoreAdvice advise() {
    own();
    if (runs_along_a_line(work_)) {
      unmeasured();
      stretches();
      words();
    }
    return std::move(advice_);
  }

 private:
  void note(NoteCode code, const std::string& subject, std::string text) {
    advice_.notes.push_back({code, subject, std::move(text)});
  }

  void own() {
    auto clearance = bore_clearance(tree_, tables_);
    if (!clearance) {
      advice_.no_clearance = clearance.error();
      return;
    }
    advice_.clearance = std::move(*clearance);
    advice_.figures = advice_.clearance->figures;
    for (const AugerDistance& version : advice_.clearance->versions)
      if (version.between_rows)
        note(NoteCode::auger_row_chosen, tree_.label(),
             "the table's " + version.version +
                 " says nothing between two rows: the next larger one is taken");
    if (!tree_.position || !runs_along_a_line(work_)) return;
    const CutDistance distance = cut_distance(tree_, tables_);
    const Length nearest = nearest_of(work_, tree_.position->at, distance.trunk_radius);
    advice_.nearest = nearest;
    advice_.needed = nearest < advice_.clearance->from_trunk;
    advice_.depths = bore_depths(distance.diameter, nearest, tables_);
    advice_.depth = deepest(advice_.depths);
    for (const BoreDepth& one : advice_.depths)
      if (one.applies) advice_.figures.push_back(one.figure);
  }

  // Trees near the line that it cannot be kept clear of, for want of a diameter.
  void unmeasured() {
    const Length shown = length_of(tables_, "cutting.bore.arlington.shown_within");
    for (std::size_t i = 0; i < site_.trees.size(); ++i) {
      const Tree& tree = site_.trees[i];
      if (clearances_.of_tree[i] || !tree.position) continue;
      if (nearest_of(work_, tree.position->at, {}) <= shown)
        note(NoteCode::bore_clearance_missing, tree.label(),
             "it stands near the line and has no stem diameter: it is not among the trees that the "
             "bore keeps clear of");
    }
  }

  // The spans of one line by all trees of the site.
  std::vector<BoreStretch> spans_of(const Line& line, std::size_t index) const {
    std::vector<BoreStretch> spans;
    for (std::size_t i = 0; i < site_.trees.size(); ++i) {
      const Tree& tree = site_.trees[i];
      const auto& asked = clearances_.of_tree[i];
      if (!asked || !tree.position) continue;
      const double reach = asked->from_centre.metres();
      if (distance_between(tree.position->at, line).metres() > reach) continue;
      const Length nearest = nearest_of(work_, tree.position->at, asked->trunk_radius);
      const Length depth = deepest(bore_depths(asked->diameter, nearest, tables_));
      add_spans(line, index, tree, asked->from_centre, depth, spans);
    }
    return spans;
  }

  void stretches() {
    const Length side = length_of(tables_, "cutting.bore.pit_side");
    for (std::size_t i = 0; i < work_.shape.lines.size(); ++i) {
      const Line& line = work_.shape.lines[i];
      for (BoreStretch& one : joined_spans(spans_of(line, i), line, side)) {
        pit(line, i, one.from, !one.begins_inside);
        pit(line, i, one.to, !one.ends_inside);
        advice_.stretches.push_back(std::move(one));
      }
    }
  }

  void pit(const Line& line, std::size_t index, double chainage, bool clear) {
    advice_.pits.push_back({index, chainage, point_at(line, chainage), clear});
    if (!clear)
      note(NoteCode::bore_pit_not_clear, "work " + work_.id,
           "the line ends within the distance of a tree: a pit at its end would stand among roots, "
           "unless the line is carried on until it is clear");
  }

  void say(std::string text, std::string reason, const Citation& from) {
    Prescription one;
    one.topic = "bore";
    one.tree = tree_.id;
    one.work = work_.id;
    one.text = std::move(text);
    one.reason = std::move(reason);
    one.from = from;
    one.figures = advice_.figures;
    advice_.prescriptions.push_back(std::move(one));
  }

  // "T1 and T2", "T1, T2 and T3".
  std::string names(const std::vector<std::string>& ids) const {
    std::string names;
    for (std::size_t i = 0; i < ids.size(); ++i) {
      const Tree* tree = site_.tree(ids[i]);
      if (i > 0) names += i + 1 == ids.size() ? " and " : ", ";
      names += tree ? tree->label() : ids[i];
    }
    return names;
  }

  const Citation& governing_citation() const {
    const Figure* furthest = &advice_.clearance->figures.front();
    for (const Figure& figure : advice_.clearance->figures)
      if (figure.value > furthest->value) furthest = &figure;
    return furthest->from;
  }

  void words() {
    if (!advice_.needed) return;
    for (const BoreStretch& one : advice_.stretches) {
      if (std::find(one.trees.begin(), one.trees.end(), tree_.id) == one.trees.end()) continue;
      say((work_.kind == WorkKind::bore ? "Bore from chainage "
                                        : "Where the line can be bored, bore it rather than dig: "
                                          "from chainage ") +
              text_.length(Length::metres(one.from)) + " to " +
              text_.length(Length::metres(one.to)) + ", the crown of the bore " +
              text_.length(one.depth) + " deep or more, beneath the roots of " + names(one.trees) +
              ".",
          "Nearer to the trunk than the table's distance, an open trench would cut main roots.",
          governing_citation());
    }
    say("Where it is bored, keep every pit outside that stretch, its spoil and plant too.",
        "A pit is an excavation like any other: what it saves along the line it takes at the ends.",
        governing_citation());
    say("Where it is bored, use no water jets that loosen the ground, and stop where fluid or soil "
        "comes up.",
        "Ground lost beneath roots settles.", {"trade-practice", "", Status::common_practice});
    say("Have buried services located before the bore, and ask the engineer whether soil, "
        "groundwater "
        "and machine allow it.",
        "Roots say how deep, not whether it can be done.",
        {"trade-practice", "", Status::common_practice});
  }

  const Tree& tree_;
  const Work& work_;
  const Site& site_;
  const BoreClearances& clearances_;
  const Tables& tables_;
  AmountText text_;
  BoreAdvice advice_;
};

}  // namespace

std::vector<BoreDepth> bore_depths(std::optional<Length> diameter, Length nearest,
                                   const Tables& tables) {
  return {
      plain_depth("least", "least depth of city specifications", true, tables,
                  "cutting.bore.least_depth"),
      arlington_depth(diameter, nearest, tables),
      plain_depth("preferred", "preferred depth", false, tables, "cutting.bore.preferred_depth")};
}

Result<BoreClearance> bore_clearance(const Tree& tree, const Tables& tables) {
  const CutDistance distance = cut_distance(tree, tables);
  if (distance.palm) return palm_clearance(tree, distance);
  if (!distance.diameter)
    return Error{Code::missing_measurement, "tree " + tree.label(),
                 "it has no stem diameter, by which the distance of a bore's pits goes",
                 "enter its stem diameter"};
  BoreClearance clearance;
  clearance.tree = tree.id;
  clearance.diameter = distance.diameter;
  std::optional<Length> crown;
  if (tree.crown) crown = tree.crown->largest_radius();
  clearance.versions = auger_distances(*distance.diameter, crown);
  for (const AugerDistance& version : clearance.versions)
    if (version.distance) clearance.figures.push_back(version.figure);
  clearance.from_trunk = governing(clearance.versions);
  clearance.trunk_radius = distance.trunk_radius;
  clearance.from_centre = clearance.from_trunk + clearance.trunk_radius;
  return clearance;
}

BoreClearances bore_clearances(const Site& site, const Tables& tables) {
  BoreClearances all;
  all.of_tree.reserve(site.trees.size());
  for (const Tree& tree : site.trees) {
    auto one = bore_clearance(tree, tables);
    all.of_tree.push_back(one ? std::optional(std::move(*one)) : std::nullopt);
  }
  return all;
}

bool comes_within(const BoreClearance& clearance, const Tree& tree, const Work& work) {
  if (!tree.position || !runs_along_a_line(work)) return false;
  return nearest_of(work, tree.position->at, clearance.trunk_radius) < clearance.from_trunk;
}

BoreAdvice bore_advice(const Tree& tree, const Work& work, const Site& site,
                       const BoreClearances& clearances, const Tables& tables) {
  assert(clearances.of_tree.size() == site.trees.size());
  return BoreAdviser(tree, work, site, clearances, tables).advise();
}

BoreAdvice bore_advice(const Tree& tree, const Work& work, const Site& site, const Tables& tables) {
  return bore_advice(tree, work, site, bore_clearances(site, tables), tables);
}

}  // namespace rootstead
