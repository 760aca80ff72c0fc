// Reads one rule from TOML. The file is described in docs/formats/rules.md; what a rule means is
// in engine/rules.
#include <toml++/toml.h>

#include <algorithm>
#include <array>
#include <memory>

#include "engine/base/nearest.hpp"
#include "engine/base/text.hpp"
#include "engine/tables/rule_faults.hpp"
#include "io/rule_parts.hpp"
#include "io/tables.hpp"
#include "io/toml_guard.hpp"
#include "io/toml_section.hpp"

namespace rootstead::io {
namespace {

constexpr double kDiametersPerFootPerInch = 12;
constexpr std::array kThresholds{"more_than", "reaching", "nearer_than", "deeper_than", "within"};

class RuleReader {
 public:
  RuleReader(const toml::table& root, Mistakes& mistakes)
      : mistakes_(mistakes), head_(root, mistakes) {}

  ZoneRule read() {
    read_head();
    for (const toml::table* table : head_.tables("zone")) {
      sections_of_zones_.push_back(std::make_unique<Section>(*table, mistakes_));
      read_zone(*sections_of_zones_.back());
    }
    for (const toml::table* table : head_.tables("limit")) {
      sections_of_limits_.push_back(std::make_unique<Section>(*table, mistakes_));
      read_limit(*sections_of_limits_.back());
    }
    head_.finish();
    for (const RuleFault& fault : faults_of(rule_)) report(fault);
    return std::move(rule_);
  }

 private:
  void read_head() {
    rule_.id = head_.text("id");
    rule_.title = head_.text("title");
    rule_.jurisdiction = head_.text("jurisdiction");
    rule_.edition = head_.text("edition");
    rule_.checked = head_.text("checked");
    rule_.off_by_default = head_.flag("draft").value_or(false);
    rule_.measured_at = head_.length("measured_at").value_or(EnteredLength{});
    rule_.round_diameter_to = head_.length("round_diameter_to");
    rule_.notes = head_.texts("notes");
    read_stems();
    for (const toml::table* table : head_.tables("sources"))
      rule_.sources.push_back(read_rule_source(*table, mistakes_));
    default_ = read_head_citation(head_, rule_.sources);
  }

  void read_stems() {
    rule_.diameter.stems =
        head_.word<StemConvention>("stems", stem_convention_from, stem_conventions())
            .value_or(StemConvention::root_sum_square);
    rule_.stems_status = read_status(head_, "stems_status");
    const toml::table* table = head_.table("many_stems");
    if (table == nullptr) return;
    Section many(*table, mistakes_);
    rule_.diameter.many_above = many.whole_number("more_than").value_or(0);
    rule_.diameter.many = many.word<StemConvention>("use", stem_convention_from, stem_conventions())
                              .value_or(rule_.diameter.stems);
    rule_.many_stems_status = read_status(many, "status");
    many.finish();
  }

  void read_zone(Section& section) {
    ZoneDefinition zone;
    zone.id = section.text("id");
    zone.name = section.text("name");
    using enum ZonePurpose;
    zone.purpose = section
                       .word<ZonePurpose>("purpose", zone_purpose_from,
                                          words_of({vitality, stability, crown, precaution}))
                       .value_or(vitality);
    zone.largest_by = section
                          .word<LargestBy>("largest_by", largest_by_from,
                                           words_of({LargestBy::reach, LargestBy::area}))
                          .value_or(LargestBy::reach);
    zone.centre = section
                      .word<ZoneCentre>("counted_from", zone_centre_from,
                                        words_of({ZoneCentre::stem_centre, ZoneCentre::bark}))
                      .value_or(ZoneCentre::stem_centre);
    zone.measure = section
                       .word<StemMeasure>("stem", stem_measure_from,
                                          words_of({StemMeasure::standard, StemMeasure::basal}))
                       .value_or(StemMeasure::standard);
    zone.at_least = section.length("at_least");
    zone.at_most = section.length("at_most");
    zone.redraw_at_barriers = section.flag("redraw_at_barriers").value_or(false);
    zone.bounds_status = read_status(section, "bounds_status");
    zone.redraw_status = read_status(section, "redraw_status");
    zone.note = section.text("note");
    zone.from = read_citation(section, default_, rule_.sources);
    if (const toml::table* table = section.table("for"))
      zone.applies = read_applies(*table, mistakes_);
    read_terms(section, zone);
    section.finish();
    rule_.zones.push_back(std::move(zone));
  }

  void read_terms(Section& section, ZoneDefinition& zone) {
    for (const toml::table* table : section.tables("largest_of")) {
      Section term(*table, mistakes_);
      zone.terms.push_back(read_term(term));
      term.finish();
    }
  }

  ZoneTerm read_term(Section& section) {
    using Kind = ZoneTerm::Kind;
    static const std::array<std::pair<const char*, Kind>, 10> kSizes{{
        {"stem_times", Kind::stem_multiple},
        {"stem_feet_per_inch", Kind::stem_multiple},
        {"girth_times", Kind::girth_multiple},
        {"crown_outline_plus", Kind::crown_outline},
        {"crown_circle_plus", Kind::crown_circle},
        {"height_times", Kind::height_multiple},
        {"fixed", Kind::fixed},
        {"stem_power", Kind::power},
        {"stem_table", Kind::class_table},
        {"tolerance_and_age_times", Kind::vigour_table},
    }};
    ZoneTerm term;
    int sizes = 0;
    for (const auto& [key, kind] : kSizes) {
      if (!section.has(key)) continue;
      ++sizes;
      term.kind = kind;
      read_size(section, key, term);
    }
    if (sizes > 1) {  // none at all: the unknown keys are reported, or the braces are empty
      section.mistake("largest_of", std::to_string(sizes) + " sizes in one pair of braces",
                      "give each size braces of its own, e.g. { stem_times = 12 }");
    }
    return term;
  }

  void read_size(Section& section, const std::string& key, ZoneTerm& term) {
    using Kind = ZoneTerm::Kind;
    switch (term.kind) {
      case Kind::stem_multiple:
      case Kind::girth_multiple:
      case Kind::height_multiple:
        term.factor = section.number(key).value_or(1);
        if (key == "stem_feet_per_inch") term.factor *= kDiametersPerFootPerInch;
        break;
      case Kind::crown_outline:
      case Kind::crown_circle:
        term.factor = section.number("crown_times").value_or(1);
        term.offset = section.length(key).value_or(EnteredLength{});
        break;
      case Kind::fixed:
        term.offset = section.length(key).value_or(EnteredLength{1, LengthUnit::metre});
        break;
      case Kind::power:
        read_power(section, term);
        break;
      case Kind::class_table:
        read_stem_table(section, term);
        break;
      case Kind::vigour_table:
        read_matrix(section, term);
        break;
    }
  }

  void read_power(Section& section, ZoneTerm& term) {
    const toml::table* table = section.table("stem_power");
    if (table == nullptr) return;
    Section power(*table, mistakes_);
    term.factor = power.number("times").value_or(1);
    term.base = power.number("stem_times").value_or(1);
    term.exponent = power.number("exponent").value_or(1);
    power.finish();
  }

  void read_stem_table(Section& section, ZoneTerm& term) {
    term.beyond_factor = section.number("beyond_stem_times").value_or(0);
    term.round_class_to = section.length("round_to");
    term.beyond_status = read_status(section, "beyond_status");
    term.between_status = read_status(section, "between_status");
    const toml::array* rows = section.list("stem_table");
    if (rows == nullptr) return;
    for (const toml::node& node : *rows) {
      if (const auto row = read_row(node.as_array())) {
        term.rows.push_back(*row);
      } else {
        mistakes_.add(node.source().begin.line, "a row of the stem table is not two lengths",
                      "write diameter up to and radius with units, e.g. [\"30 cm\", \"2.4 m\"]");
      }
    }
  }

  // ["30 cm", "2.4 m"], or with the status of this row: ["60 cm", "3.6 m", "from memory"].
  static std::optional<ZoneTerm::Row> read_row(const toml::array* row) {
    constexpr std::size_t kCells = 2;
    if (row == nullptr || (row->size() != kCells && row->size() != kCells + 1)) return std::nullopt;
    const auto cell = [&](std::size_t column) {
      return row->get(column)->value_exact<std::string>().value_or("");
    };
    const auto up_to = entered_length_from(cell(0)), radius = entered_length_from(cell(1));
    if (!up_to || !radius) return std::nullopt;
    const auto status = row->size() > kCells ? status_from(cell(kCells)) : std::nullopt;
    if (row->size() > kCells && !status) return std::nullopt;
    return ZoneTerm::Row{*up_to, *radius, status};
  }

  void read_matrix(Section& section, ZoneTerm& term) {
    const toml::array* rows = section.list("tolerance_and_age_times");
    if (rows == nullptr) return;
    for (const toml::node& node : *rows) {
      std::vector<double> factors;
      if (const toml::array* row = node.as_array()) {
        for (const toml::node& cell : *row) factors.push_back(cell.value<double>().value_or(0));
      }
      term.matrix.push_back(std::move(factors));
    }
  }

  void read_limit(Section& section) {
    LimitDefinition limit;
    limit.id = section.text("id");
    limit.zone = section.text("zone");
    limit.triggers = section.text("triggers");
    limit.kinds = read_works(section);
    using enum LimitDefinition::Weight;
    const auto weight = section.word<LimitDefinition::Weight>(
        "weight", limit_weight_from, words_of({note, measures, justify, refuse}));
    if (weight) limit.weight = *weight;
    if (!section.has("weight")) {
      section.mistake("weight", "the limit does not say what passing it means for the tree",
                      "add weight = \"note\", \"measures\", \"justify\" or \"refuse\"");
    }
    limit.from = read_citation(section, default_, rule_.sources);
    read_threshold(section, limit);
    section.finish();
    rule_.limits.push_back(std::move(limit));
  }

  std::vector<WorkKind> read_works(Section& section) {
    using enum WorkKind;
    return read_words<WorkKind>(
        section, "works", work_kind_from,
        words_of({trench, pit, cut, fill, paving, traffic, building, fence_posts, bore, root_cut}));
  }

  void read_threshold(Section& section, LimitDefinition& limit) {
    using enum LimitDefinition::Measure;
    const auto measure = section.word<LimitDefinition::Measure>(
        "counts", limit_measure_from,
        words_of({area_share, unsurfaced_share, any_entry, nearest_approach, nearest_distance,
                  level_change, trench_side}));
    if (!section.has("counts")) {
      section.mistake("counts", "the limit does not say what it counts",
                      "add e.g. counts = \"share of area\" or \"any entry\"");
    }
    if (!measure) {
      for (const char* key : kThresholds) section.has(key);
      section.mark("threshold");
      return;
    }
    limit.measure = *measure;
    read_threshold_of(section, limit);
    for (const char* key : kThresholds) {
      if (section.was_asked(key) || !section.has(key)) continue;
      section.mistake(key,
                      "counts = \"" + std::string(to_text(*measure)) + "\" has no use for " + key,
                      "leave it out, or change what the limit counts");
    }
  }

  void read_threshold_of(Section& section, LimitDefinition& limit) {
    using enum LimitDefinition::Measure;
    switch (limit.measure) {
      case any_entry:
        break;
      case area_share:
      case unsurfaced_share:
      case trench_side:
        read_share(section, limit);
        break;
      case nearest_approach:
        limit.inclusive = false;
        limit.threshold = section.share("nearer_than").value_or(0);
        require(section, "nearer_than", "nearer_than = 0.5 (a share of the radius)");
        break;
      case nearest_distance:
        limit.inclusive = false;
        limit.depth = section.length("nearer_than").value_or(EnteredLength{});
        require(section, "nearer_than", "nearer_than = \"1.5 m\"");
        break;
      case level_change:
        limit.inclusive = false;
        limit.depth = section.length("deeper_than").value_or(EnteredLength{});
        limit.within = section.share("within").value_or(1);
        require(section, "deeper_than", "deeper_than = \"4 in\"");
        break;
    }
  }

  // `reaching` is passed at the threshold itself, `more_than` only above it.
  void read_share(Section& section, LimitDefinition& limit) {
    const bool more = section.has("more_than"), reaching = section.has("reaching");
    const char* key = reaching ? "reaching" : "more_than";
    limit.inclusive = reaching;
    limit.threshold = section.share(key).value_or(0);
    if (more && reaching) {
      section.mistake("reaching", "both more_than and reaching are given", "keep one of them");
    }
    require(section, key, "more_than = \"20 %\", or reaching where 20 % itself is too much");
  }

  void require(Section& section, const std::string& key, const std::string& example) {
    if (section.reported(key)) section.mark("threshold");
    if (section.has(key)) return;
    section.mistake(key, "the limit has no threshold", "add e.g. " + example);
    section.mark("threshold");
  }

  void report(const RuleFault& fault) {
    Section& section = fault.part == RuleFault::Part::zone    ? *sections_of_zones_[fault.index]
                       : fault.part == RuleFault::Part::limit ? *sections_of_limits_[fault.index]
                                                              : head_;
    if (section.reported(fault.key)) return;
    std::string key = fault.key;
    for (const char* written : {"more_than", "reaching", "nearer_than", "deeper_than"}) {
      if (key == "threshold" && section.has(written)) key = written;
    }
    mistakes_.add(section.line_of(key), fault.message, fault.remedy);
  }

  Mistakes& mistakes_;
  Section head_;
  std::vector<std::unique_ptr<Section>> sections_of_zones_, sections_of_limits_;
  ZoneRule rule_;
  Citation default_;
};

}  // namespace

RuleReading read_rule(std::string_view toml, std::string_view file_name) {
  Mistakes mistakes{std::string(file_name)};
  RuleReading reading;
  if (auto unfit = unfit_for_toml(toml, std::string(file_name))) {
    reading.rule.file = std::string(file_name);
    reading.mistakes.push_back(std::move(*unfit));
    return reading;
  }
  try {
    const toml::table root = toml::parse(toml, file_name);
    reading.rule = RuleReader(root, mistakes).read();
  } catch (const toml::parse_error& error) {
    mistakes.add(error.source().begin.line, "this is not TOML: " + std::string(error.description()),
                 "compare the line with the example in docs/formats/rules.md");
  }
  reading.rule.file = std::string(file_name);
  reading.mistakes = std::move(mistakes).in_line_order();
  return reading;
}

}  // namespace rootstead::io
