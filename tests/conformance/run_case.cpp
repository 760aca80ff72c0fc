#include "tests/conformance/run_case.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/base/text.hpp"
#include "engine/figures/figures.hpp"
#include "engine/losses/losses.hpp"

namespace rootstead::conformance {
namespace {

constexpr double kFar = 200;  // metres: half the length of walls and straight cuts

// One named number that a case may expect, in SI, with the status it is given.
struct Found {
  std::string name;
  double value = 0;
  std::string status;  // empty: geometry alone
  std::string unit;    // its own, where it has one
};

std::optional<double> si_per(const std::string& unit) {
  constexpr double kFoot = 0.3048;
  if (unit.empty() || unit == "m" || unit == "m2") return 1.0;
  if (unit == "ft") return kFoot;
  if (unit == "ft2") return kFoot * kFoot;
  if (unit == "in") return kFoot / 12;
  if (unit == "%") return 0.01;
  if (unit == "months") return 1.0;  // no unit of SI: counted as they are
  const auto one = measure_from("1 " + unit);
  return one ? std::optional(one->si) : std::nullopt;
}

// The found value in the unit that the case expects; nothing where that unit is not known.
std::optional<double> value_in(const std::string& unit, const Found& found) {
  if (unit == found.unit) return found.value;
  const auto from = measure_from("1 " + found.unit), to = measure_from("1 " + unit);
  if (!found.unit.empty() && from && to && from->dimension == to->dimension)
    return found.value * from->si / to->si;
  const auto scale = si_per(unit);
  return scale ? std::optional(found.value / *scale) : std::nullopt;
}

class Run {
 public:
  Run(const Case& one, const Tables& tables) : case_(one), tables_(tables) {}

  std::vector<std::string> run() {
    if (case_.figure.empty())
      on_site();
    else
      by_hand();
    return std::move(wrong_);
  }

 private:
  void wrong(const std::string& text) { wrong_.push_back(text); }

  void by_hand() {
    const auto blank = case_.figure.find(' ');
    const std::string name = case_.figure.substr(0, blank);
    const auto arguments =
        arguments_of(blank == std::string::npos ? "" : case_.figure.substr(blank));
    const auto figures = figure(tables_, name, arguments);
    if (!figures) return failed(figures.error());
    std::vector<Found> found;
    for (const Figure& figure : *figures) {
      found.push_back(
          {figure.name, figure.value, std::string(to_text(figure.from.status)), figure.unit});
    }
    compare(found);
  }

  void failed(const Error& error) {
    if (case_.fails.empty()) return wrong("it fails: " + error.sentence());
    if (error.sentence().find(case_.fails) == std::string::npos) {
      wrong("it fails with \"" + error.sentence() + "\", not with \"" + case_.fails + "\"");
    }
  }

  void compare(const std::vector<Found>& found) {
    if (!case_.fails.empty()) return wrong("it should fail with: " + case_.fails);
    for (const Expectation& expectation : case_.expected) compare(expectation, found);
  }

  void compare(const Expectation& expectation, const std::vector<Found>& found) {
    const auto fits = [&](const Found& one) {
      return one.name == expectation.name || one.name.ends_with("." + expectation.name);
    };
    const auto one = std::find_if(found.begin(), found.end(), fits);
    if (one == found.end()) return wrong("there is no " + expectation.name);
    const auto value_found = value_in(expectation.unit, *one);
    if (!value_found) return wrong("the unit " + expectation.unit + " is not known");
    if (std::find_if(one + 1, found.end(), fits) != found.end()) {
      return wrong(expectation.name + " is not clear: name the zone");
    }
    const double value = *value_found;
    // A value exactly half way may be written either way.
    if (std::abs(value - expectation.value) > expectation.tolerance * (1 + 1e-9)) {
      wrong(expectation.name + " is " + shortest_number(value) + " " + expectation.unit + ", not " +
            shortest_number(expectation.value));
    }
    if (!one->status.empty() && one->status != case_.status) {
      wrong(expectation.name + " has the status \"" + one->status + "\", not \"" + case_.status +
            "\"");
    }
  }

  void on_site() {
    const ZoneRule* rule = tables_.rule(case_.rule);
    if (rule == nullptr) return wrong("there is no rule " + case_.rule);
    Site site;
    if (!add_tree(site) || !add_works(site)) return;
    if (!case_.barrier.empty()) add_wall(site);
    const auto zones = zones_of(site.trees.front(), *rule, tables_, site.barriers);
    if (!zones) return failed(zones.error());
    const WorkMap works(site);
    std::vector<ZoneLoss> losses;
    for (const Zone& zone : *zones) losses.push_back(zone_loss(zone, works));
    compare(found_in(*zones, losses));
    if (!case_.tells_limits) return;
    compare_limits(check_limits(*rule, *zones, losses, site.trees.front(), works));
  }

  static std::vector<Found> found_in(const std::vector<Zone>& zones,
                                     const std::vector<ZoneLoss>& losses) {
    std::vector<Found> found;
    for (std::size_t i = 0; i < zones.size(); ++i) {
      const std::string status(to_text(zones[i].figure.from.status));
      found.push_back({zones[i].zone + ".radius", zones[i].radius.metres(), status, ""});
      found.push_back({zones[i].zone + ".area", zones[i].area.square_metres(), status, ""});
      found.push_back({zones[i].zone + ".reach", zones[i].reach.metres(), status, ""});
      found.push_back({zones[i].zone + ".share", losses[i].share, "", ""});
    }
    return found;
  }

  void compare_limits(const std::vector<LimitResult>& results) {
    std::vector<std::string> passed, expected = case_.limits;
    for (const LimitResult& result : results) {
      if (result.passed_over) passed.push_back(result.limit);
    }
    std::sort(passed.begin(), passed.end());
    std::sort(expected.begin(), expected.end());
    if (passed != expected) {
      wrong("the limits passed are " + joined(passed, " ") + ", not " + joined(expected, " "));
    }
  }

  std::optional<EnteredLength> length(const std::string& key, const std::string& text) {
    const auto entered = entered_length_from(text);
    if (!entered) wrong(key + "=" + text + " is no length");
    return entered;
  }

  bool add_tree(Site& site) {
    Tree tree;
    tree.id = "T1";
    tree.position.emplace();
    for (const auto& [key, text] : arguments_of(case_.tree)) {
      const auto entered = length(key, text);
      if (!entered) return false;
      if (key == "stem")
        tree.stems.push_back({Stem::Read::diameter, *entered, {}});
      else if (key == "basal")
        tree.basal_diameter = entered;
      else if (key == "crown")
        tree.crown.emplace().radius.fill(*entered);
      else
        return wrong("a tree has no " + key + " here"), false;
    }
    site.trees.push_back(std::move(tree));
    return true;
  }

  // "pit from=2.5m to=6m width=1m": a rectangle across the line that runs east from the stem.
  bool add_works(Site& site) {
    for (const std::string& text : case_.works) {
      const auto blank = text.find(' ');
      Work work;
      work.id = "W" + std::to_string(site.works.size() + 1);
      const auto kind = work_kind_from(text.substr(0, blank));
      if (!kind) return wrong("there is no work " + text.substr(0, blank)), false;
      work.kind = *kind;
      double from = 0, to = kFar, width = 2 * kFar;
      for (const auto& [key, value] : arguments_of(text.substr(blank))) {
        const auto entered = length(key, value);
        if (!entered) return false;
        const double metres = entered->length().metres();
        if (key == "from")
          from = metres;
        else if (key == "to")
          to = metres;
        else if (key == "width")
          width = metres;
        else if (key == "depth")
          work.depth = entered;
        else
          return wrong("a work has no " + key + " here"), false;
      }
      work.shape.areas.push_back(
          {{{from, -width / 2}, {to, -width / 2}, {to, width / 2}, {from, width / 2}}, {}});
      work.working_room = EnteredLength{};
      site.works.push_back(std::move(work));
    }
    return true;
  }

  void add_wall(Site& site) {
    const auto entered = length("barrier", case_.barrier);
    if (!entered) return;
    const double x = entered->length().metres();
    Barrier wall;
    wall.id = "wall";
    wall.shape.lines.push_back({{x, -kFar}, {x, kFar}});
    wall.depth = EnteredLength{2, LengthUnit::metre};
    site.barriers.push_back(std::move(wall));
  }

  const Case& case_;
  const Tables& tables_;
  std::vector<std::string> wrong_;
};

}  // namespace

std::vector<std::string> run(const Case& one, const Tables& tables) {
  return Run(one, tables).run();
}

}  // namespace rootstead::conformance
