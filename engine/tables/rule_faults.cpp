#include "engine/tables/rule_faults.hpp"

#include <algorithm>
#include <set>

#include "engine/base/nearest.hpp"
#include "engine/base/text.hpp"

namespace rootstead {
namespace {

using Part = RuleFault::Part;

constexpr double kLargestStemMultiple = 40;    // beyond this a slip of the pen is likelier
constexpr double kLargestMeasuringHeight = 3;  // metres
constexpr std::size_t kVigourSteps = 3;

bool is_id(std::string_view text) {
  const auto plain = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '.';
  };
  return !text.empty() && std::all_of(text.begin(), text.end(), plain);
}

class Check {
 public:
  explicit Check(const ZoneRule& rule) : rule_(rule) {}

  std::vector<RuleFault> run() {
    check_head();
    for (index_ = 0; index_ < rule_.zones.size(); ++index_) check_zone(rule_.zones[index_]);
    for (index_ = 0; index_ < rule_.limits.size(); ++index_) check_limit(rule_.limits[index_]);
    return std::move(faults_);
  }

 private:
  void fault(std::string key, std::string message, std::string remedy) {
    faults_.push_back({part_, index_, std::move(key), std::move(message), std::move(remedy)});
  }

  void check_id(const std::string& id) {
    if (id.empty()) fault("id", "the id is missing", "add it, e.g. id = \"springboro-oh\"");
    if (id.empty() || is_id(id)) return;
    fault("id", "\"" + id + "\" is no id",
          "write it in small letters, digits, hyphens and points, e.g. \"springboro-oh\"");
  }

  void check_head() {
    check_id(rule_.id);
    if (rule_.title.empty())
      fault("title", "the title is missing", "say in words what the rule is");
    if (rule_.zones.empty()) fault("zone", "the rule has no zone", "add one as [[zone]]");
    const double height = rule_.measured_at.length().metres();
    if (rule_.needs_stem() && height <= 0) {
      fault("measured_at", "the height at which the stem is measured is missing",
            "add it with its unit, e.g. measured_at = \"1.5 m\"");
    }
    if (height < 0 || height > kLargestMeasuringHeight) {
      fault("measured_at", "a stem measured at " + to_text(rule_.measured_at) + " is unlikely",
            "give the height above ground, e.g. \"4.5 ft\"");
    }
    if (rule_.diameter.many_above < 0) {
      fault("many_stems", "more_than is negative", "give the number of stems, e.g. 5");
    }
  }

  void check_zone(const ZoneDefinition& zone) {
    part_ = Part::zone;
    check_id(zone.id);
    if (zone.id == "zone") {
      fault("id", "\"zone\" is no id of one zone: it stands for all zones of a rule",
            "say which zone it is, e.g. \"critical-root-zone\"");
    }
    if (zone.name.empty()) fault("name", "the name is missing", "name the zone in words");
    if (zone.terms.empty()) {
      fault("largest_of", "the zone has no size",
            "add one, e.g. largest_of = [{ stem_times = 12 }]");
    }
    for (const ZoneTerm& term : zone.terms) check_term(term);
    check_bounds(zone);
    check_reachable(zone);
  }

  void check_bounds(const ZoneDefinition& zone) {
    for (const auto& [key, bound] :
         {std::pair{"at_least", zone.at_least}, {"at_most", zone.at_most}}) {
      if (bound && bound->value <= 0) {
        fault(key, std::string(key) + " is not above zero", "give a length, or leave the key out");
      }
    }
    if (zone.at_least && zone.at_most && zone.at_most->length() < zone.at_least->length()) {
      fault("at_most", "at_most is less than at_least", "swap the two");
    }
    const bool outline = std::any_of(
        zone.terms.begin(), zone.terms.end(),
        [](const ZoneTerm& term) { return term.kind == ZoneTerm::Kind::crown_outline; });
    if (zone.at_most && outline) {
      fault("at_most", "a crown outline cannot be cut back to a radius",
            "use crown_circle_plus, or leave at_most out");
    }
  }

  // An earlier zone of the same id that is for every tree hides this one.
  void check_reachable(const ZoneDefinition& zone) {
    for (std::size_t i = 0; i < index_; ++i) {
      const ZoneDefinition& earlier = rule_.zones[i];
      const Applies& other = earlier.applies;
      const bool conditional = !other.conditions.empty() || !other.stages.empty() ||
                               !other.categories.empty() || !other.taxa.empty() || other.columnar ||
                               other.several_stems || other.leaning;
      if (earlier.id != zone.id || conditional || other.forms != zone.applies.forms) continue;
      fault("id", "the id \"" + zone.id + "\" is used by an earlier zone for the same trees",
            "give it another id, or say by for = {...} which trees the earlier one is for");
      return;
    }
  }

  void check_term(const ZoneTerm& term) {
    using Kind = ZoneTerm::Kind;
    const std::string name(to_text(term.kind));
    if (term.kind != Kind::class_table && term.kind != Kind::vigour_table && term.factor <= 0) {
      fault("largest_of", name + " has a factor that is not above zero",
            "give a number above zero");
    }
    if (term.kind == Kind::stem_multiple && term.factor > kLargestStemMultiple) {
      fault("largest_of",
            shortest_number(term.factor) + " stem diameters is more than any rule asks",
            "check the number: 1 foot per inch is 12 diameters");
    }
    if (term.kind == Kind::power && (term.base <= 0 || term.exponent <= 0)) {
      fault("largest_of", "the stem power needs stem_times and exponent above zero",
            "write e.g. stem_power = { times = 0.64, stem_times = 50, exponent = 0.42 }");
    }
    if (term.kind == Kind::fixed && term.offset.value <= 0) {
      fault("largest_of", "the fixed radius is not above zero", "give a length above zero");
    }
    if (term.about_crown() && term.offset.value < 0) {
      fault("largest_of", "a crown cannot be shrunk by an offset", "use crown_times below 1");
    }
    if (term.kind == Kind::class_table) check_table(term);
    if (term.kind == Kind::vigour_table) check_matrix(term);
  }

  void check_table(const ZoneTerm& term) {
    if (term.rows.empty()) fault("largest_of", "the stem table is empty", "add rows");
    for (std::size_t i = 0; i < term.rows.size(); ++i) {
      const ZoneTerm::Row& row = term.rows[i];
      if (row.radius.value <= 0 || row.up_to.value <= 0) {
        fault("largest_of", "row " + std::to_string(i + 1) + " of the stem table is not above zero",
              "give diameter and radius with units, e.g. [\"30 cm\", \"2.4 m\"]");
      }
      if (i > 0 && row.up_to.length() <= term.rows[i - 1].up_to.length()) {
        fault("largest_of", "row " + std::to_string(i + 1) + " of the stem table does not rise",
              "order the rows from thin to thick stems");
      }
    }
    if (term.beyond_factor < 0) {
      fault("largest_of", "beyond_stem_times is negative", "give a factor, or leave it out");
    }
  }

  void check_matrix(const ZoneTerm& term) {
    const auto three_positive = [](const std::vector<double>& row) {
      return row.size() == kVigourSteps &&
             std::all_of(row.begin(), row.end(), [](double factor) { return factor > 0; });
    };
    if (term.matrix.size() == kVigourSteps &&
        std::all_of(term.matrix.begin(), term.matrix.end(), three_positive)) {
      return;
    }
    fault(
        "largest_of", "the tolerance and age table is not three rows of three factors above zero",
        "give rows for good, moderate, poor tolerance and columns for young, mature, over-mature");
  }

  void check_limit(const LimitDefinition& limit) {
    part_ = Part::limit;
    check_id(limit.id);
    const bool repeated = std::any_of(
        rule_.limits.begin(), rule_.limits.begin() + static_cast<std::ptrdiff_t>(index_),
        [&](const LimitDefinition& other) { return other.id == limit.id; });
    const bool zone_too =
        std::any_of(rule_.zones.begin(), rule_.zones.end(),
                    [&](const ZoneDefinition& zone) { return zone.id == limit.id; });
    if (repeated || zone_too) {
      fault("id", "the id \"" + limit.id + "\" is used twice", "give the limit another id");
    }
    check_limit_zone(limit);
    check_threshold(limit);
    if (limit.triggers.empty()) {
      fault("triggers", "the limit does not say what it triggers", "say it in words");
    }
  }

  void check_limit_zone(const LimitDefinition& limit) {
    std::vector<std::string> ids;
    for (const ZoneDefinition& zone : rule_.zones) ids.push_back(zone.id);
    if (std::find(ids.begin(), ids.end(), limit.zone) != ids.end()) return;
    fault("zone", "the limit names the zone \"" + limit.zone + "\", which the rule does not have",
          suggestion(limit.zone, ids));
  }

  void check_threshold(const LimitDefinition& limit) {
    using Measure = LimitDefinition::Measure;
    const bool share =
        limit.measure == Measure::area_share || limit.measure == Measure::unsurfaced_share ||
        limit.measure == Measure::trench_side || limit.measure == Measure::nearest_approach;
    if (share && (limit.threshold <= 0 || limit.threshold > 1)) {
      fault("threshold", "the threshold " + shortest_number(limit.threshold) + " is not a share",
            "give a share above 0 and up to 1, or a percentage as text, e.g. \"20 %\"");
    }
    if (limit.measure == Measure::nearest_distance && limit.depth.value <= 0) {
      fault("threshold", "the distance is not above zero", "write e.g. nearer_than = \"1.5 m\"");
    }
    if (limit.measure == Measure::level_change && limit.depth.value < 0) {
      fault("threshold", "the change of level is below zero", "write e.g. deeper_than = \"4 in\"");
    }
    if (limit.within <= 0 || limit.within > 1) {
      fault("within", "within is not a share of the radius", "give a number above 0 and up to 1");
    }
  }

  const ZoneRule& rule_;
  std::vector<RuleFault> faults_;
  Part part_ = Part::rule;
  std::size_t index_ = 0;
};

}  // namespace

std::vector<RuleFault> faults_of(const ZoneRule& rule) {
  return Check(rule).run();
}

}  // namespace rootstead
