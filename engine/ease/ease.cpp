#include "engine/ease/ease.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <queue>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "engine/ease/change.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/routes/methods.hpp"
#include "engine/routes/route_notes.hpp"

namespace rootstead {

std::string_view to_text(Change change) {
  switch (change) {
    case Change::moved:
      return "moved";
    case Change::narrowed:
      return "narrowed";
    case Change::held_back:
      return "held back";
    case Change::shallower:
      return "shallower";
    case Change::method:
      break;
  }
  return "by another method";
}

bool passes(const TreeAssessment& tree, const PassLimits& limits) {
  const Verdict& verdict = tree.verdict;
  if (verdict.vitality != Concern::unknown && verdict.vitality > limits.vitality) return false;
  if (verdict.stability != Concern::unknown && verdict.stability > limits.stability) return false;
  if (limits.most_loss && tree.roots && tree.roots->all.best > *limits.most_loss) return false;
  return !(limits.least_kept && tree.anchorage && tree.anchorage->kept.low < *limits.least_kept);
}

namespace {

constexpr double kBackOfHalving = 1e-9;

Failing failing_of(const TreeAssessment& tree, const PassLimits& limits) {
  Failing failing;
  failing.tree = tree.tree;
  failing.vitality = tree.verdict.vitality;
  failing.stability = tree.verdict.stability;
  if (tree.roots) failing.loss = tree.roots->all;
  if (tree.anchorage) failing.kept = tree.anchorage->kept;
  if (limits.most_loss && tree.roots && tree.roots->all.best > *limits.most_loss)
    failing.reason = percent(tree.roots->all.best) +
                     " of its fine roots would be lost, more than " + percent(*limits.most_loss) +
                     ".";
  else if (limits.least_kept && tree.anchorage && tree.anchorage->kept.low < *limits.least_kept)
    failing.reason = "Of its anchorage " + percent(tree.anchorage->kept.low) +
                     " would be kept at the low end, less than " + percent(*limits.least_kept) +
                     ".";
  if (!failing.reason.empty()) return failing;
  const bool health =
      tree.verdict.vitality != Concern::unknown && tree.verdict.vitality > limits.vitality;
  for (const Reason& reason : tree.verdict.reasons)
    if ((reason.about == Reason::About::vitality) == health &&
        reason.about != Reason::About::data) {
      failing.reason = reason.text;
      return failing;
    }
  return failing;
}

class Easing {
 public:
  Easing(const Site& site, const Work& work, const Tables& tables, const EaseOptions& options,
         Appraiser& appraiser)
      : work_(work), options_(options), appraiser_(appraiser), tables_(tables) {
    amounts_.units = site.settings.units;
  }

  EaseAnswer find() {
    EaseAnswer answer;
    answer.work = work_.id;
    counts_.assign(appraiser_.without().size(), true);
    const std::vector<TreeAssessment> drawn = appraiser_.assessed({work_});
    for (std::size_t i = 0; i < counts_.size(); ++i) {
      const TreeAssessment& tree = appraiser_.without()[i];
      const bool goes = appraiser_.site().trees[i].intent == Intent::remove;
      const bool fails = !passes(tree, options_.limits);
      counts_[i] = !goes && !fails;
      if (goes || !fails) continue;
      if (!touched(tree, drawn[i])) {
        ++answer.fail_untouched;
        continue;
      }
      answer.fail_without.push_back(failing_of(tree, options_.limits));
      if (drawn[i].roots) answer.fail_without.back().loss_as_drawn = drawn[i].roots->all;
    }
    const auto as_drawn = failing({work_});
    answer.failing = as_drawn;
    answer.passes_as_drawn = as_drawn.empty();
    if (answer.passes_as_drawn) return answer;
    for (const Failing& one : as_drawn)
      if (const Tree* tree = appraiser_.site().tree(one.tree); tree && tree->position)
        stems_.push_back(tree->position->at);
    answer.families.push_back(by_moving());
    add_halved(answer);
    if (options_.other_methods) add_methods(answer);
    std::stable_sort(answer.families.begin(), answer.families.end(),
                     [](const EasedWork& a, const EasedWork& b) {
                       if (a.passes != b.passes) return a.passes;
                       const bool method_a = a.change == Change::method;
                       const bool method_b = b.change == Change::method;
                       if (method_a != method_b) return method_b;
                       return a.passes && a.amount < b.amount;
                     });
    for (const EasedWork& family : answer.families)
      if (family.unproved > 0)
        answer.notes.push_back({route_notes::change_not_proved, work_.id,
                                std::string(to_text(family.change)) + ": " +
                                    amounts_.length(Length::metres(family.unproved)) +
                                    " of the range lies in stretches too short to be ruled out"});
    return answer;
  }

 private:
  static bool touched(const TreeAssessment& without, const TreeAssessment& with) {
    const auto differs = [](const auto& a, const auto& b, const auto& share) {
      return a.has_value() != b.has_value() || (a && !(share(*a) == share(*b)));
    };
    if (new_works_in_zones(without) != new_works_in_zones(with)) return true;
    return differs(without.roots, with.roots, [](const RootLoss& loss) { return loss.all; }) ||
           differs(without.anchorage, with.anchorage,
                   [](const AnchorageKept& kept) { return kept.kept; });
  }

  // Trees that these works make fail, the worst loss first.
  std::vector<Failing> failing(const std::vector<Work>& works) {
    ++looked_at_;
    std::vector<Failing> all;
    const auto trees = appraiser_.assessed(works);
    for (std::size_t i = 0; i < trees.size(); ++i)
      if (counts_[i] && !passes(trees[i], options_.limits))
        all.push_back(failing_of(trees[i], options_.limits));
    std::stable_sort(all.begin(), all.end(),
                     [](const Failing& a, const Failing& b) { return a.loss.best > b.loss.best; });
    return all;
  }

  // Work moved by distances along one direction; the least first over all directions.
  struct Stretch {
    double from, to;
    double dx, dy;
    bool operator<(const Stretch& other) const { return from > other.from; }
  };

  std::vector<Point> ways_to_move() const {
    std::vector<Point> ways;
    const auto add = [&](double x, double y) {
      for (const Point& other : ways)
        if (std::hypot(other.x - x, other.y - y) < 1e-3) return;
      ways.push_back({x, y});
    };
    for (int i = 0; i < options_.directions; ++i) {
      const double a = Angle::degrees(360.0 * i / options_.directions).radians();
      add(std::sin(a), std::cos(a));
    }
    for (const Line& line : work_.shape.lines) {
      const double dx = line.back().x - line.front().x, dy = line.back().y - line.front().y;
      const double length = std::hypot(dx, dy);
      if (!(length > 0)) continue;
      add(dx / length, dy / length);
      add(-dx / length, -dy / length);
      add(dy / length, -dx / length);
      add(-dy / length, dx / length);
    }
    return ways;
  }

  // Best first: the nearest stretch that is not ruled out is halved until its near end passes.
  EasedWork by_moving() {
    EasedWork family;
    family.change = Change::moved;
    family.range = options_.range.metres();
    const int before = looked_at_;
    std::priority_queue<Stretch> open;
    for (const Point& way : ways_to_move()) open.push({0, family.range, way.x, way.y});
    std::optional<Failing> mildest;
    std::optional<Stretch> found;
    double unproved = 0;
    while (!open.empty()) {
      const Stretch next = open.top();
      open.pop();
      if (found && next.from >= found->from) break;
      if (const auto bound = common_fails(next)) {
        if (!mildest || bound->loss.best < mildest->loss.best) mildest = bound;
        continue;
      }
      const double middle = (next.from + next.to) / 2;
      if (next.to - next.from > options_.finest.metres()) {
        open.push({next.from, middle, next.dx, next.dy});
        open.push({middle, next.to, next.dx, next.dy});
        continue;
      }
      if (failing({moved(work_, next.dx * next.to, next.dy * next.to)}).empty()) {
        if (!found || next.to < found->to) found = next;
        continue;
      }
      unproved += next.to - next.from;
    }
    family.looked_at = looked_at_ - before;
    if (found) {
      family.passes = true;
      family.amount = found->to;
      family.towards = azimuth({0, 0}, {found->dx, found->dy});
      family.works = {moved(work_, found->dx * found->to, found->dy * found->to)};
      family.what = "moved " + amounts_.length(Length::metres(found->to)) + " towards " +
                    fixed_number(family.towards->degrees(), 0) + "°";
      return family;
    }
    family.what = "moved by up to " + amounts_.length(options_.range) + " in " +
                  std::to_string(ways_to_move().size()) + " directions";
    family.unproved = unproved;
    family.bound = mildest;
    family.bound_of = "the mildest of the grounds common to all places of a stretch";
    return family;
  }

  // Does what is common to all places of the stretch fail? A stretch longer than the work is wide
  // has nothing in common.
  std::optional<Failing> common_fails(const Stretch& stretch) {
    const double middle = (stretch.from + stretch.to) / 2, half = (stretch.to - stretch.from) / 2;
    Work common = shrunk_for_moves(work_, half);
    if (common.shape.areas.empty()) return {};
    common = moved(std::move(common), stretch.dx * middle, stretch.dy * middle);
    auto fails = failing({common});
    return fails.empty() ? std::nullopt : std::optional(std::move(fails.front()));
  }

  // A family in which a larger change takes less: halving, and its end as the bound.
  using Changed = std::function<std::optional<Work>(double amount)>;
  EasedWork by_halving(Change change, double range, const Changed& changed,
                       const std::function<std::string(double)>& words) {
    EasedWork family;
    family.change = change;
    family.range = range;
    const int before = looked_at_;
    double fails = 0, pass = range;
    // The last change of which something is left.
    auto last = changed(pass);
    for (int i = 0; i < 40 && !last; ++i) last = changed(pass *= 0.9);
    if (!last) {
      family.what = words(0);
      family.bound_of = "nothing of it can be taken away";
      return family;
    }
    family.range = pass;
    const auto at_end = failing({*last});
    if (!at_end.empty()) {
      family.what = words(pass);
      family.bound = at_end.front();
      family.bound_of = "the end of the range, " + words(pass);
      family.looked_at = looked_at_ - before;
      return family;
    }
    while (pass - fails > options_.finest.metres() / 5 + kBackOfHalving) {
      const double middle = (pass + fails) / 2;
      const auto work = changed(middle);
      const bool ok = work && failing({*work}).empty();
      (ok ? pass : fails) = middle;
    }
    family.passes = true;
    family.amount = pass;
    family.works = {*changed(pass)};
    family.what = words(pass);
    family.looked_at = looked_at_ - before;
    return family;
  }

  void add_halved(EaseAnswer& answer) {
    const double least = options_.least_width.metres();
    const double narrow = narrowing_range(work_, least, options_.range.metres());
    if (narrow > 0)
      answer.families.push_back(by_halving(
          Change::narrowed, narrow, [&](double by) { return narrowed(work_, by, least); },
          [&](double by) {
            return "narrowed by " + amounts_.length(Length::metres(by)) + " each side, " +
                   "working room first";
          }));
    if (!work_.shape.areas.empty() && !stems_.empty())
      answer.families.push_back(by_halving(
          Change::held_back, options_.range.metres() + nearest_stem(),
          [&](double radius) { return held_back(work_, stems_, radius); },
          [&](double radius) {
            return "cut back to " + amounts_.length(Length::metres(radius)) +
                   " from the stems of the trees that fail, without working room";
          }));
    if (answer.families.back().change == Change::held_back && answer.families.back().passes)
      answer.families.back().amount = std::max(0.0, answer.families.back().amount - nearest_stem());
    const double depth = depth_of(work_).metres(), shallow = options_.least_depth.metres();
    if (work_.digs() && work_.kind != WorkKind::bore && depth > shallow)
      answer.families.push_back(by_halving(
          Change::shallower, depth - shallow,
          [&](double by) { return std::optional(shallower(work_, depth - by)); },
          [&](double by) {
            return "shallower by " + amounts_.length(Length::metres(by)) + ", " +
                   amounts_.length(Length::metres(depth - by)) + " deep";
          }));
  }

  double nearest_stem() const {
    double nearest = HUGE_VAL;
    const MultiPolygon ground = footprint(work_);
    for (const Point& stem : stems_)
      nearest = std::min(nearest, distance_between(stem, ground).metres());
    return nearest;
  }

  void add_methods(EaseAnswer& answer) {
    const RoutePrices prices = route_prices(tables_);
    for (MethodDesign& method : method_designs(work_, appraiser_.site(), tables_, prices)) {
      if (method.as_drawn || !method.applies) continue;
      EasedWork family;
      family.change = Change::method;
      family.what = method.name + ": " + method.what;
      family.looked_at = 1;
      const auto fails = failing(method.design.works);
      family.passes = fails.empty();
      if (family.passes) family.works = std::move(method.design.works);
      if (!fails.empty()) {
        family.bound = fails.front();
        family.bound_of = "the method as it stands";
      }
      answer.families.push_back(std::move(family));
    }
  }

  const Work& work_;
  const EaseOptions& options_;
  Appraiser& appraiser_;
  const Tables& tables_;
  AmountText amounts_;
  std::vector<char> counts_;  // trees that the work alone decides about
  std::vector<Point> stems_;  // of those that fail
  int looked_at_ = 0;
};

}  // namespace

Result<EaseAnswer> smallest_change(const Site& site, const std::string& id, const Tables& tables,
                                   const EaseOptions& options) {
  const Work* work = site.work(id);
  if (work == nullptr)
    return Error{Code::unknown_name, "work " + id, "there is no such work",
                 "choose one that `rootstead check` or the plan names"};
  if (work->state == WorkState::existing || work->shape.empty())
    return Error{Code::outside_rule_domain, "work " + id,
                 work->shape.empty() ? "it has no place on the plan" : "it stands already",
                 "choose a work that is proposed and drawn"};
  ROOTSTEAD_TRY(Appraiser appraiser,
                Appraiser::start(site, *work, tables, route_prices(tables), options.how));
  return Easing(site, *work, tables, options, appraiser).find();
}

}  // namespace rootstead
