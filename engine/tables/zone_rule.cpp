#include "engine/tables/zone_rule.hpp"

#include <algorithm>

#include "engine/base/words.hpp"

namespace rootstead {
namespace {

constexpr Words<ZoneTerm::Kind, 9> kKinds{{
    {ZoneTerm::Kind::stem_multiple, "stem times"},
    {ZoneTerm::Kind::girth_multiple, "girth times"},
    {ZoneTerm::Kind::power, "stem power"},
    {ZoneTerm::Kind::crown_outline, "crown outline"},
    {ZoneTerm::Kind::crown_circle, "crown circle"},
    {ZoneTerm::Kind::height_multiple, "height times"},
    {ZoneTerm::Kind::fixed, "fixed"},
    {ZoneTerm::Kind::class_table, "table"},
    {ZoneTerm::Kind::vigour_table, "tolerance and age table"},
}};

constexpr Words<ZoneCentre, 2> kCentres{{
    {ZoneCentre::stem_centre, "stem centre"},
    {ZoneCentre::bark, "bark"},
}};

constexpr Words<StemMeasure, 2> kMeasures{{
    {StemMeasure::standard, "standard"},
    {StemMeasure::basal, "basal"},
}};

constexpr Words<ZonePurpose, 4> kPurposes{{
    {ZonePurpose::vitality, "vitality"},
    {ZonePurpose::stability, "stability"},
    {ZonePurpose::crown, "crown"},
    {ZonePurpose::precaution, "precaution"},
}};

constexpr Words<LargestBy, 2> kLargestBy{{
    {LargestBy::reach, "reach"},
    {LargestBy::area, "area"},
}};

constexpr Words<LimitDefinition::Measure, 7> kLimitMeasures{{
    {LimitDefinition::Measure::area_share, "share of area"},
    {LimitDefinition::Measure::unsurfaced_share, "share of unsurfaced ground"},
    {LimitDefinition::Measure::any_entry, "any entry"},
    {LimitDefinition::Measure::nearest_approach, "share of radius"},
    {LimitDefinition::Measure::nearest_distance, "distance"},
    {LimitDefinition::Measure::level_change, "level change"},
    {LimitDefinition::Measure::trench_side, "share of area with far side"},
}};

constexpr Words<LimitDefinition::Weight, 4> kWeights{{
    {LimitDefinition::Weight::note, "note"},
    {LimitDefinition::Weight::measures, "measures"},
    {LimitDefinition::Weight::justify, "justify"},
    {LimitDefinition::Weight::refuse, "refuse"},
}};

}  // namespace

bool ZoneTerm::about_stem() const {
  return !about_crown() && kind != Kind::height_multiple && kind != Kind::fixed;
}

bool ZoneRule::needs_stem() const {
  return std::any_of(zones.begin(), zones.end(), [](const ZoneDefinition& zone) {
    return zone.centre == ZoneCentre::bark ||
           std::any_of(zone.terms.begin(), zone.terms.end(),
                       [](const ZoneTerm& term) { return term.about_stem(); });
  });
}

std::string_view to_text(ZoneTerm::Kind kind) {
  return word_for(kKinds, kind);
}
std::string_view to_text(ZoneCentre centre) {
  return word_for(kCentres, centre);
}
std::string_view to_text(StemMeasure measure) {
  return word_for(kMeasures, measure);
}
std::string_view to_text(ZonePurpose purpose) {
  return word_for(kPurposes, purpose);
}
std::string_view to_text(LargestBy largest_by) {
  return word_for(kLargestBy, largest_by);
}
std::string_view to_text(LimitDefinition::Measure measure) {
  return word_for(kLimitMeasures, measure);
}
std::string_view to_text(LimitDefinition::Weight weight) {
  return word_for(kWeights, weight);
}

std::optional<ZoneTerm::Kind> zone_term_kind_from(std::string_view text) {
  return value_for(kKinds, text);
}
std::optional<ZoneCentre> zone_centre_from(std::string_view text) {
  return value_for(kCentres, text);
}
std::optional<StemMeasure> stem_measure_from(std::string_view text) {
  return value_for(kMeasures, text);
}
std::optional<ZonePurpose> zone_purpose_from(std::string_view text) {
  return value_for(kPurposes, text);
}
std::optional<LargestBy> largest_by_from(std::string_view text) {
  return value_for(kLargestBy, text);
}
std::optional<LimitDefinition::Measure> limit_measure_from(std::string_view text) {
  return value_for(kLimitMeasures, text);
}
std::optional<LimitDefinition::Weight> limit_weight_from(std::string_view text) {
  return value_for(kWeights, text);
}

}  // namespace rootstead
