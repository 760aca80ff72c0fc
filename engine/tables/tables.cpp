#include "engine/tables/tables.hpp"

#include <algorithm>
#include <cassert>

#include "engine/base/text.hpp"
#include "engine/base/words.hpp"

namespace rootstead {
namespace {

constexpr Words<Tolerance, 4> kTolerances{{
    {Tolerance::unknown, "unknown"},
    {Tolerance::good, "good"},
    {Tolerance::moderate, "moderate"},
    {Tolerance::poor, "poor"},
}};

constexpr Words<RootArchitecture, 4> kArchitectures{{
    {RootArchitecture::unknown, "unknown"},
    {RootArchitecture::heart, "heart"},
    {RootArchitecture::plate, "plate"},
    {RootArchitecture::tap, "tap"},
}};

constexpr Words<LeafHabit, 3> kLeafHabits{{
    {LeafHabit::unknown, "unknown"},
    {LeafHabit::deciduous, "deciduous"},
    {LeafHabit::evergreen, "evergreen"},
}};

constexpr Words<WetSoil, 6> kWetSoil{{
    {WetSoil::unknown, "unknown"},
    {WetSoil::very_intolerant, "very intolerant"},
    {WetSoil::intolerant, "intolerant"},
    {WetSoil::intermediate, "intermediate"},
    {WetSoil::tolerant, "tolerant"},
    {WetSoil::very_tolerant, "very tolerant"},
}};

constexpr Words<FillSensitivity, 4> kFillSensitivities{{
    {FillSensitivity::unknown, "unknown"},
    {FillSensitivity::least, "least"},
    {FillSensitivity::medium, "medium"},
    {FillSensitivity::very, "very"},
}};

template <class Row>
const Row* row_of(const std::vector<Row>& rows, std::string_view id) {
  const auto found =
      std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.id == id; });
  return found == rows.end() ? nullptr : &*found;
}

// Genus and epithet in small letters, without hybrid signs, authors and cultivars; the epithet is
// empty for "Quercus", "Quercus sp." and "Quercus spp.".
struct TaxonName {
  std::string genus, epithet;
};

TaxonName taxon_name(std::string_view botanical_name) {
  constexpr std::string_view kHybridSign = "\xC3\x97";  // multiplication sign in UTF-8
  std::string plain = lower_case(botanical_name);
  for (auto at = plain.find(kHybridSign); at != std::string::npos; at = plain.find(kHybridSign)) {
    plain.replace(at, kHybridSign.size(), " ");
  }
  std::vector<std::string> words;
  for (const std::string& word : split(plain, ' ')) {
    const std::string kept(trimmed(word));
    if (!kept.empty() && kept != "x") words.push_back(kept);
  }
  TaxonName name;
  if (!words.empty()) name.genus = words[0];
  if (words.size() > 1 && words[1] != "sp." && words[1] != "spp." && words[1] != "sp" &&
      words[1] != "spp" && words[1].front() >= 'a' && words[1].front() <= 'z') {
    name.epithet = words[1];
  }
  return name;
}

bool same_letters(std::string_view a, std::string_view lower) {
  return std::equal(a.begin(), a.end(), lower.begin(), lower.end(), [](char x, char y) {
    return (x >= 'A' && x <= 'Z' ? static_cast<char>(x - 'A' + 'a') : x) == y;
  });
}

// The row of the species, else of its genus, else null.
template <class Row>
const Row* taxon_row(const std::vector<Row>& rows, std::string_view botanical_name) {
  const TaxonName name = taxon_name(botanical_name);
  if (name.genus.empty()) return nullptr;
  const std::string whole = name.genus + " " + name.epithet;
  const Row* genus = nullptr;
  for (const Row& row : rows) {
    if (!name.epithet.empty() && same_letters(row.botanical_name, whole)) return &row;
    if (same_letters(row.botanical_name, name.genus)) genus = &row;
  }
  return genus;
}

}  // namespace

const ZoneRule* Tables::rule(std::string_view id) const {
  return row_of(rules, id);
}

const ReplacementRule* Tables::replacement_rule(std::string_view id) const {
  const auto same = [&](const ReplacementRule& rule) { return rule.id == id; };
  const auto found = std::find_if(replacement_rules.begin(), replacement_rules.end(), same);
  return found == replacement_rules.end() ? nullptr : &*found;
}

const Source* Tables::source(std::string_view id) const {
  return row_of(sources, id);
}

const Species* Tables::species_of(std::string_view botanical_name) const {
  return taxon_row(species, botanical_name);
}

const CrownWidth* Tables::crown_width_of(std::string_view botanical_name) const {
  return taxon_row(crown_widths, botanical_name);
}

const WoodDensity* Tables::wood_density_of(std::string_view botanical_name) const {
  return taxon_row(wood_densities, botanical_name);
}

const Leaves* Tables::leaves_of(std::string_view botanical_name) const {
  return taxon_row(leaves, botanical_name);
}

const WetSoilTolerance* Tables::wet_soil_of(std::string_view botanical_name) const {
  return taxon_row(wet_soil, botanical_name);
}

const FillSensitivityRow* Tables::fill_sensitivity_of(std::string_view botanical_name) const {
  return taxon_row(soil.fill_sensitivities, botanical_name);
}

bool same_taxon(std::string_view botanical_name, std::string_view taxon) {
  const TaxonName name = taxon_name(botanical_name), wanted = taxon_name(taxon);
  return !wanted.genus.empty() && name.genus == wanted.genus &&
         (wanted.epithet.empty() || name.epithet == wanted.epithet);
}

const Parameter& Tables::parameter(std::string_view id) const {
  const Parameter* found = row_of(parameters, id);
  assert(found != nullptr && "a parameter that data/parameters does not have");
  return *found;
}

FigureInput input_from(const Parameter& parameter, std::string symbol) {
  std::string value = shortest_number(parameter.best);
  if (!parameter.unit.empty()) value += " " + parameter.unit;
  if (parameter.low != parameter.high)
    value += " (" + shortest_number(parameter.low) + " to " + shortest_number(parameter.high) + ")";
  if (parameter.own) value += "; your own figure, " + parameter.from.place;
  return {std::move(symbol), parameter.meaning, value};
}

std::string_view to_text(Tolerance tolerance) {
  return word_for(kTolerances, tolerance);
}
std::string_view to_text(RootArchitecture architecture) {
  return word_for(kArchitectures, architecture);
}
std::string_view to_text(LeafHabit habit) {
  return word_for(kLeafHabits, habit);
}
std::string_view to_text(WetSoil tolerance) {
  return word_for(kWetSoil, tolerance);
}
std::optional<LeafHabit> leaf_habit_from(std::string_view text) {
  return value_for(kLeafHabits, text);
}
std::string_view to_text(FillSensitivity sensitivity) {
  return word_for(kFillSensitivities, sensitivity);
}

std::optional<FillSensitivity> fill_sensitivity_from(std::string_view text) {
  return value_for(kFillSensitivities, text);
}

std::optional<WetSoil> wet_soil_from(std::string_view text) {
  return value_for(kWetSoil, text);
}
std::optional<Tolerance> tolerance_from(std::string_view text) {
  return value_for(kTolerances, text);
}
std::optional<RootArchitecture> root_architecture_from(std::string_view text) {
  return value_for(kArchitectures, text);
}

std::string source_text(const Citation& citation, const Tables& tables) {
  const Source* source = tables.source(citation.source);
  std::string text = source == nullptr ? citation.source : source->title;
  if (!citation.place.empty()) text += ", " + citation.place;
  return text;
}

}  // namespace rootstead
