// Rows about the ground: limits of density, pressures of machines, ground protection, fill.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/range.hpp"
#include "engine/base/source.hpp"

namespace rootstead {

// Where roots are hindered in soil of one texture by one published table, g/cm3 oven dry. What a
// table does not say is left out.
struct BulkDensityLimit {
  std::string id;               // "harris.clay-loam"
  std::string table;            // "nrcs-short", "nrcs", "harris", "illinois", "coder"
  std::string texture;          // a USDA class, "fine sand", or a group: "sandy", "silty", "clayey"
  std::optional<double> ideal;  // below it roots are free
  std::optional<double> affects;    // from here they are hindered
  std::optional<double> restricts;  // from here they stop
  std::optional<double> air_share;  // share of air at that limit
  Citation from;
};

// What a machine, animal or person presses on the ground with where it touches it. The status is
// that of the pressure; mass, supports and shape are always our assumption.
struct GroundPressure {
  std::string name;             // "excavator, 20 t, tracks"
  std::string words;            // phrases of its names, parted by ";": "excavator;digger"
  Range pressure;               // kPa
  std::optional<Range> mass;    // kg, typical of the kind, loaded
  double supports = 4;          // wheels, tracks or feet that carry it
  double length_per_width = 1;  // of what touches the ground
  Citation from;
};

// One published way to protect ground, from the least to the most.
struct GroundProtection {
  std::string id;    // "chips-150-boards"
  std::string name;  // "linked boards on {depth} of wood chips"; {depth} stands for `chips`
  double chips = 0;  // m, loose
  std::optional<double> plate_width, plate_length;  // m, of one stiff plate
  std::optional<double> heaviest;  // kg gross, that the source allows; empty: not said
  Citation from;
};

// What one source says of fill over roots.
struct FillRule {
  std::string id;
  std::string texture;    // "clay", "sand", "loam" or "any"
  double thickness = 0;   // m
  bool harmless = false;  // found harmless up to there, or said to harm above it
  std::string text;       // one sentence
  Citation from;
};

enum class FillSensitivity { unknown, least, medium, very };

struct FillSensitivityRow {
  std::string botanical_name;  // a species or a genus
  FillSensitivity sensitivity = FillSensitivity::unknown;
  Citation from;
};

struct SoilTables {
  std::vector<BulkDensityLimit> density_limits;
  std::vector<GroundPressure> ground_pressures;
  std::vector<GroundProtection> protections;  // in rising order
  std::vector<FillRule> fill_rules;
  std::vector<FillSensitivityRow> fill_sensitivities;
};

std::string_view to_text(FillSensitivity sensitivity);  // "unknown", "least", "medium", "very"
std::optional<FillSensitivity> fill_sensitivity_from(std::string_view text);

}  // namespace rootstead
