#include "cli/choices.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/text.hpp"
#include "engine/site/dates.hpp"
#include "engine/site/plausible.hpp"
#include "report/crew_sheet.hpp"

namespace rootstead::cli {
namespace {

Choice text_choice(const char* key, std::string ProjectSettings::*text) {
  return {key, "any text", [text](const Site& site) { return site.settings.*text; },
          [text](Site& site, const std::string& value, const Tables&) {
            site.settings.*text = value;
            return true;
          }};
}

Choice length_choice(const char* key, const char* takes,
                     std::optional<EnteredLength> Soil::*length) {
  return {key, takes,
          [length](const Site& site) {
            const auto& kept = site.soil.*length;
            return kept ? to_text(*kept) : std::string();
          },
          [length](Site& site, const std::string& value, const Tables&) {
            const auto read = entered_length_from(value);
            if (!value.empty() && !(read && std::isfinite(read->value) && read->value >= 0))
              return false;
            site.soil.*length = read;
            return true;
          }};
}

// A word of the engine's, a field of one part of the site; an empty text is its first.
template <class Part, class Word, class Reader>
Choice word_choice(const char* key, const char* takes, Part Site::*part, Word Part::*field,
                   Reader read) {
  return {key, takes,
          [part, field](const Site& site) { return std::string(to_text(site.*part.*field)); },
          [part, field, read](Site& site, const std::string& value, const Tables&) {
            const auto word = value.empty() ? std::optional(Word{}) : read(value);
            if (word) site.*part.*field = *word;
            return word.has_value();
          }};
}

struct SpeedUnit {
  std::string_view text;
  double metres_per_second;
};
// The statute mile is 1609.344 m, the nautical mile 1852 m, exactly.
constexpr std::array<SpeedUnit, 7> kSpeedUnits{{{"m/s", 1},
                                                {"ms-1", 1},
                                                {"km/h", 1 / 3.6},
                                                {"kmh", 1 / 3.6},
                                                {"kph", 1 / 3.6},
                                                {"mph", 1609.344 / 3600},
                                                {"kn", 1852.0 / 3600}}};

// Metres per second of "24m/s", "53 mph", "90km/h"; nothing where the unit is missing.
std::optional<double> speed_from(const std::string& text) {
  const auto number = leading_number(text);
  if (!number || !(number->value > 0)) return std::nullopt;
  const std::string unit = lower_case(trimmed(number->rest));
  for (const SpeedUnit& known : kSpeedUnits) {
    if (unit == known.text) return number->value * known.metres_per_second;
  }
  return std::nullopt;
}

Choice wind_speed() {
  return {"wind.speed", "the basic speed of the standard's map with its unit, such as 24m/s, 53mph",
          [](const Site& site) {
            const double speed = site.wind.basic_speed;
            return speed > 0 ? shortest_number(speed) + " m/s" : std::string();
          },
          [](Site& site, const std::string& value, const Tables&) {
            const auto speed = value.empty() ? std::optional(0.0) : speed_from(value);
            if (speed) site.wind.basic_speed = *speed;
            return speed.has_value();
          }};
}

Choice wind_terrain() {
  return {"wind.terrain", "0, I, II, III, IV (en1991) or B, C, D (asce7)",
          [](const Site& site) { return site.wind.terrain; },
          [](Site& site, const std::string& value, const Tables&) {
            std::string upper = value;
            for (char& c : upper) {
              if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
            }
            bool known = value.empty();
            for (const auto standard : {Wind::Standard::en1991, Wind::Standard::asce7_22}) {
              const auto terrains = terrains_of(standard);
              known = known || std::find(terrains.begin(), terrains.end(), upper) != terrains.end();
            }
            if (known) site.wind.terrain = upper;
            return known;
          }};
}

Choice wind_years() {
  return {"wind.return_years", "years above 1, such as 50",
          [](const Site& site) { return shortest_number(site.wind.return_years); },
          [](Site& site, const std::string& value, const Tables&) {
            const auto years =
                value.empty() ? std::optional(Wind{}.return_years) : number_from(value);
            const bool fine = years && std::isfinite(*years) && *years > 1;
            if (fine) site.wind.return_years = *years;
            return fine;
          }};
}

Choice wind_elevation() {
  return {"wind.elevation", "a height above the sea with its unit, such as 120m",
          [](const Site& site) { return shortest_number(site.wind.elevation) + " m"; },
          [](Site& site, const std::string& value, const Tables&) {
            const auto read = entered_length_from(value);
            if (!value.empty() && !(read && std::isfinite(read->value))) return false;
            site.wind.elevation = read ? read->length().metres() : 0;
            return true;
          }};
}

Choice soil_compacted() {
  return {"soil.compacted", "yes or no",
          [](const Site& site) { return std::string(site.soil.compacted ? "yes" : "no"); },
          [](Site& site, const std::string& value, const Tables&) {
            const std::string word = lower_case(value);
            if (word != "yes" && word != "no" && !word.empty()) return false;
            site.soil.compacted = word == "yes";
            return true;
          }};
}

Choice units() {
  return {"units", "metric or us",
          [](const Site& site) {
            return std::string(site.settings.units == UnitSystem::metric ? "metric" : "us");
          },
          [](Site& site, const std::string& value, const Tables&) {
            if (value != "metric" && value != "us") return false;
            site.settings.units = value == "us" ? UnitSystem::us_customary : UnitSystem::metric;
            return true;
          }};
}

Choice rules() {
  return {"rules", "ids of `rootstead rule list`, the main one first, such as bs5837-2012,crz-1.0",
          [](const Site& site) { return joined(site.settings.rules, ","); },
          [](Site& site, const std::string& value, const Tables& tables) {
            std::vector<std::string> ids;
            for (const std::string& part : split(value, ',')) {
              const std::string id(trimmed(part));
              const bool twice = std::find(ids.begin(), ids.end(), id) != ids.end();
              if (twice || tables.rule(id) == nullptr) return false;
              ids.push_back(id);
            }
            site.settings.rules = ids;
            return !ids.empty();
          }};
}

// A number of the climate within bounds that hold by definition, in `unit` or without one.
Choice climate_number(const char* key, const char* takes, std::optional<double> Climate::*number,
                      double low, double high) {
  return {key, takes,
          [number](const Site& site) {
            const auto& kept = site.climate.*number;
            return kept ? shortest_number(*kept) : std::string();
          },
          [number, low, high](Site& site, const std::string& value, const Tables&) {
            const auto read = number_from(value);
            if (!value.empty() && !(read && *read >= low && *read <= high)) return false;
            site.climate.*number = read;
            return true;
          }};
}

Choice hardiness_zone() {
  return {"climate.hardiness_zone", "a USDA zone from 1 to 13, such as 8 (8a and 8b count as 8)",
          [](const Site& site) {
            const auto& zone = site.climate.hardiness_zone;
            return zone ? std::to_string(*zone) : std::string();
          },
          [](Site& site, const std::string& value, const Tables&) {
            std::string number = lower_case(value);
            if (number.ends_with('a') || number.ends_with('b')) number.pop_back();
            const auto read = number_from(number);
            const bool fine = read && *read >= plausible::kColdestZone &&
                              *read <= plausible::kWarmestZone && *read == std::floor(*read);
            if (!value.empty() && !fine) return false;
            site.climate.hardiness_zone =
                fine ? std::optional(static_cast<int>(*read)) : std::nullopt;
            return true;
          }};
}

Choice climate_elevation() {
  return {"climate.elevation", "a height above the sea with its unit, such as 120m",
          [](const Site& site) {
            const auto& kept = site.climate.elevation;
            return kept ? shortest_number(*kept) + " m" : std::string();
          },
          [](Site& site, const std::string& value, const Tables&) {
            const auto read = entered_length_from(value);
            if (!value.empty() && !(read && std::isfinite(read->value))) return false;
            site.climate.elevation = read ? std::optional(read->length().metres()) : std::nullopt;
            return true;
          }};
}

// "0.5,0.9,1.6,...": twelve numbers from 0 to `most`; nothing where they are not that.
std::optional<std::vector<double>> months_from(const std::string& text, double most) {
  constexpr std::size_t kMonths = 12;
  std::vector<double> values;
  for (const std::string& part : split(text, ',')) {
    const auto value = number_from(part);
    if (!value || !(*value >= 0 && *value <= most)) return std::nullopt;
    values.push_back(*value);
  }
  return values.size() == kMonths ? std::optional(values) : std::nullopt;
}

Choice climate_months(const char* key, const char* takes, std::vector<double> Climate::*months,
                      double most) {
  return {key, takes,
          [months](const Site& site) {
            std::vector<std::string> texts;
            for (const double value : site.climate.*months) texts.push_back(shortest_number(value));
            return joined(texts, ",");
          },
          [months, most](Site& site, const std::string& value, const Tables&) {
            const auto read =
                value.empty() ? std::optional(std::vector<double>{}) : months_from(value, most);
            if (read) site.climate.*months = *read;
            return read.has_value();
          }};
}

Choice climate_source() {
  return {"climate.source", "any text: where the figures of the climate come from",
          [](const Site& site) { return site.climate.source; },
          [](Site& site, const std::string& value, const Tables&) {
            site.climate.source = value;
            return true;
          }};
}

// ---- what is advised by -------------------------------------------------------------------------

std::string other_of(const Site& site, const std::string& key) {
  const auto found = site.settings.other.find(key);
  return found == site.settings.other.end() ? std::string() : found->second;
}

void keep_other(Site& site, const std::string& key, const std::string& value) {
  if (value.empty())
    site.settings.other.erase(key);
  else
    site.settings.other[key] = value;
}

// A text of ProjectSettings::other, kept where `fits` says so; an empty one takes it away.
template <class Fits>
Choice other_choice(const char* key, const char* takes, std::string_view setting, Fits fits) {
  const std::string name(setting);
  return {key, takes, [name](const Site& site) { return other_of(site, name); },
          [name, fits](Site& site, const std::string& value, const Tables& tables) {
            if (!value.empty() && !fits(value, tables)) return false;
            keep_other(site, name, value);
            return true;
          }};
}

std::vector<std::string> ids_of_cut_standards(const Tables& tables) {
  std::vector<std::string> ids;
  for (const CutStandard& standard : cut_standards(tables)) ids.push_back(standard.id);
  return ids;
}

std::vector<std::string> ids_of_replacement_rules(const Tables& tables) {
  std::vector<std::string> ids;
  for (const ReplacementRule& rule : tables.replacement_rules) ids.push_back(rule.id);
  return ids;
}

bool is_one_of(const std::string& id, const std::vector<std::string>& ids) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

Choice chosen_cut_standard() {
  Choice choice = other_choice("cut_standard", "the id of one standard of root cutting",
                               kCutStandardKey, [](const std::string& id, const Tables& tables) {
                                 return is_one_of(id, ids_of_cut_standards(tables));
                               });
  choice.known = ids_of_cut_standards;
  return choice;
}

Choice chosen_replacement_rules() {
  Choice choice =
      other_choice("replacement_rules", "ids of replacement rules, separated by commas, each once",
                   kReplacementRulesKey, [](const std::string& list, const Tables& tables) {
                     const std::vector<std::string> known = ids_of_replacement_rules(tables);
                     std::vector<std::string> ids;
                     for (const std::string& part : split(list, ',')) {
                       const std::string id(trimmed(part));
                       if (is_one_of(id, ids) || !is_one_of(id, known)) return false;
                       ids.push_back(id);
                     }
                     return !ids.empty();
                   });
  choice.known = ids_of_replacement_rules;
  return choice;
}

// One day, so that visits can be counted from it.
bool is_one_day(const std::string& value) {
  const auto days = days_of(value);
  return days && days->first == days->last;
}

Choice works_date(const char* key, const char* takes, std::string_view setting) {
  return other_choice(key, takes, setting,
                      [](const std::string& value, const Tables&) { return is_one_day(value); });
}

Choice years_of_care() {
  return other_choice("years_of_care", "whole years from 1 to 5, such as 3", kYearsOfCareKey,
                      [](const std::string& value, const Tables&) {
                        constexpr double kFewest = 1, kMost = 5;
                        const auto years = number_from(value);
                        return years && *years >= kFewest && *years <= kMost &&
                               *years == std::floor(*years);
                      });
}

Choice sum_of_money(const char* key, const char* takes, std::string_view setting) {
  return other_choice(key, takes, setting, [](const std::string& value, const Tables&) {
    const auto sum = number_from(value);
    return sum && std::isfinite(*sum) && *sum > 0;
  });
}

Choice telephone() {
  return other_choice("telephone", "any text: the number under which the arborist is called",
                      kTelephoneKey, [](const std::string&, const Tables&) { return true; });
}

std::vector<Choice> all_choices() {
  return {
      text_choice("title", &ProjectSettings::title),
      text_choice("address", &ProjectSettings::address),
      text_choice("client", &ProjectSettings::client),
      text_choice("author", &ProjectSettings::author),
      text_choice("credentials", &ProjectSettings::credentials),
      text_choice("date", &ProjectSettings::date),
      text_choice("revision", &ProjectSettings::revision),
      text_choice("status", &ProjectSettings::status),
      units(),
      rules(),
      word_choice("soil.texture", "unknown, sand, loam, silt or clay", &Site::soil, &Soil::texture,
                  soil_texture_from),
      word_choice("soil.drainage", "unknown, free or poor", &Site::soil, &Soil::drainage,
                  drainage_from),
      length_choice("soil.rooting_depth", "the depth to rock or pan with its unit, such as 0.6m",
                    &Soil::rooting_depth),
      length_choice("soil.water_table", "the depth of its high level with its unit, such as 1.2m",
                    &Soil::water_table),
      soil_compacted(),
      word_choice("wind.standard", "none, en1991, asce7-16 or asce7-22", &Site::wind,
                  &Wind::standard, wind_standard_from),
      wind_speed(),
      wind_terrain(),
      wind_years(),
      wind_elevation(),
      hardiness_zone(),
      climate_number("climate.latitude", "degrees from -90 to 90, north positive, such as 51.5",
                     &Climate::latitude, -plausible::kPole, plausible::kPole),
      climate_elevation(),
      climate_months("climate.et0",
                     "twelve means of reference evapotranspiration in mm a day, January to "
                     "December, such as 0.5,0.8,1.5,2.4,3.2,3.8,3.9,3.3,2.2,1.2,0.6,0.4",
                     &Climate::evapotranspiration, plausible::kDriestAir),
      climate_months("climate.rain",
                     "twelve means of rain in mm a day, January to December, such as "
                     "1.8,1.5,1.4,1.5,1.6,1.6,1.5,1.8,1.7,2.2,2.1,1.9",
                     &Climate::rain, plausible::kWettestMonth),
      climate_source(),
      telephone(),
      chosen_cut_standard(),
      chosen_replacement_rules(),
      works_date("works_begin", "one day, such as 2026-03-02", kWorksBeginKey),
      works_date("works_end", "one day, such as 2026-09-30, not before works_begin", kWorksEndKey),
      years_of_care(),
      sum_of_money("planting_cost",
                   "a sum above 0, in the money of the rule: what planting all replacement trees "
                   "costs, such as 4200",
                   "planting cost"),
      sum_of_money("tree_value",
                   "a sum above 0, in the money of the rule: the appraised value of the trees kept "
                   "or moved, such as 18500",
                   "tree value")};
}

std::string takes_of(const Choice& choice, const Tables& tables) {
  if (!choice.known) return choice.takes;
  return choice.takes + ": " + joined(choice.known(tables), ", ");
}

std::string keys() {
  std::vector<std::string> names;
  for (const Choice& choice : choices()) names.push_back(choice.key);
  return joined(names, ", ");
}

}  // namespace

const std::vector<Choice>& choices() {
  static const std::vector<Choice> kChoices = all_choices();
  return kChoices;
}

Result<const Choice*> choose(const std::string& text, Site& site, const Tables& tables) {
  const auto equals = text.find('=');
  if (equals == std::string::npos || equals == 0)
    return Error{Code::wrong_use, "\"" + text + "\"", "this is no KEY=VALUE",
                 "write for example soil.texture=clay"};
  const std::string key(trimmed(std::string_view(text).substr(0, equals)));
  const std::string value(trimmed(std::string_view(text).substr(equals + 1)));
  const auto found = std::find_if(choices().begin(), choices().end(),
                                  [&key](const Choice& choice) { return choice.key == key; });
  if (found == choices().end())
    return Error{Code::unknown_name, "\"" + key + "\"", "there is no such key",
                 "use one of " + keys()};
  if (!found->set(site, value, tables))
    return Error{Code::value_invalid, key, "\"" + value + "\" cannot be taken",
                 "give " + takes_of(*found, tables)};
  return &*found;
}

Outcome choices_fit(const Site& site) {
  const auto begin = days_of(other_of(site, std::string(kWorksBeginKey)));
  const auto end = days_of(other_of(site, std::string(kWorksEndKey)));
  if (!begin || !end || end->first >= begin->first) return Nothing{};
  return Error{Code::value_invalid, "works_end",
               "the works would end on " + other_of(site, std::string(kWorksEndKey)) +
                   ", before they begin on " + other_of(site, std::string(kWorksBeginKey)),
               "give a day on or after works_begin, or take one of them away"};
}

}  // namespace rootstead::cli
