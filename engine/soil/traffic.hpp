// Wheels and tracks over roots: what a vehicle does at the depth of most roots with and without
// what lies under it, and the least ground protection that is enough.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/amount_text.hpp"
#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/base/prescription.hpp"
#include "engine/base/range.hpp"
#include "engine/site/site.hpp"
#include "engine/soil/strength.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// The row whose words are all in `name`, the one with the most words; null where there is none.
const GroundPressure* ground_pressure_of(std::string_view name, const Tables& tables);

// What touches the ground: the heaviest wheel, track or foot, for a low, best and high reading of
// what is known of the vehicle.
struct Contact {
  double load_kn = 0;
  Length width, length;
  Pressure pressure() const;
};
struct VehicleContact {
  Contact low, best, high;
  std::optional<double> mass;  // kg gross, best
  bool entered = false;        // from the survey alone, nothing filled
  std::string filled;          // name of the row that filled the rest
  Citation from;
  bool contradicts = false;  // load, pressure and size were entered and do not fit together
};
// Nothing where neither name, mass, load nor pressure say anything.
std::optional<VehicleContact> contact_of(const Vehicle& vehicle, const Tables& tables);

// What lies under it. Plates are taken as rigid; chips spread the load at 2:1 once they have
// settled.
struct Cover {
  Length chips;  // loose
  std::optional<Length> plate_width, plate_length;
  bool nothing() const { return chips <= Length() && !plate_width && !plate_length; }
};
Cover cover_of(const GroundCover& cover);
// At `depth` below the old surface, on the axis of the load.
Pressure stress_below(const Contact& contact, const Cover& cover, Length depth, Moisture moisture,
                      const Tables& tables);

// Low over high, best over best, high over low.
Range ratio_of(const Range& stress, const Range& strength);

// One state of the ground: stress at 150 mm against strength.
struct TrafficCase {
  Moisture moisture = Moisture::moist;
  Range bare, covered, strength;  // kPa
  Range ratio;                    // stress with the cover over strength
  PressRisk risk = PressRisk::none_expected;
  Range density_rise;  // g/cm3 at 150 mm after the passes, with the cover
};

struct TrafficAdvice {
  std::string work;  // id
  std::optional<VehicleContact> contact;
  double passes = 0;
  bool covered = false;
  std::vector<TrafficCase> cases;           // dry, moist, wet
  std::size_t planned = 1;                  // the one the work is planned for
  const GroundProtection* least = nullptr;  // of the ladder; null where none is enough
  bool cover_is_enough = false;             // what is planned already does
  bool bare_is_enough = false;              // so light that no cover is needed; `least` is null
  std::vector<Figure> figures;
  std::vector<Prescription> prescriptions;  // topic "ground protection"
  std::vector<Note> notes;
  // Requires: contact.
  const TrafficCase& as_planned() const { return cases[planned]; }
};
// Requires: work.kind is traffic. `least` points into `tables`.
TrafficAdvice traffic_advice(const Work& work, const Soil& soil, const Tables& tables,
                             UnitSystem units = UnitSystem::metric);

// The way's name with the thickness of its layer: "6 in of wood chips over a geotextile".
std::string protection_words(const GroundProtection& way, const AmountText& amounts);

}  // namespace rootstead
