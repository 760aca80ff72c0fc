// What drives on the ground, and what is laid under it.
#include <array>

#include "io/import_quantity.hpp"
#include "io/import_works.hpp"

namespace rootstead::io {
namespace {

// Exact by definition: standard gravity 9.80665 m/s2, the pound 0.45359237 kg, the inch 25.4 mm.
constexpr double kPound = 0.45359237;                                                // kg
constexpr double kKilogramForce = 0.00980665;                                        // kN
constexpr double kPoundPerSquareInch = kPound * kKilogramForce / (0.0254 * 0.0254);  // kPa

constexpr std::array<QuantityUnit, 5> kMasses{
    {{"kg", 1}, {"t", 1000}, {"tonnes", 1000}, {"lb", kPound}, {"lbs", kPound}}};
constexpr std::array<QuantityUnit, 5> kForces{{{"kn", 1},
                                               {"kg", kKilogramForce},
                                               {"t", 1000 * kKilogramForce},
                                               {"lb", kPound* kKilogramForce},
                                               {"lbs", kPound* kKilogramForce}}};
constexpr std::array<QuantityUnit, 6> kContactPressures{{{"kpa", 1},
                                                         {"kn/m2", 1},
                                                         {"mpa", 1000},
                                                         {"bar", 100},
                                                         {"kg/cm2", 98.0665},
                                                         {"psi", kPoundPerSquareInch}}};
constexpr std::array<QuantityUnit, 1> kPlain{{{"", 1}}};

// Beyond these a number cannot be meant; what is only unlikely is said by `check`.
constexpr double kHeaviest = 1e6;         // kg
constexpr double kLargestLoad = 1e4;      // kN
constexpr double kLargestPressure = 1e4;  // kPa
constexpr double kMostPasses = 1e6;

constexpr std::string_view kNoVehicle = "is none that a vehicle has";

}  // namespace

Outcome WorkReader::read_vehicle(const Record& record, const FieldTable& table, Work& work) {
  const auto number = [&](Quantity quantity) {
    quantity.unreadable = Unreadable::blocks;
    return quantity_cell(record, table, quantity, log_, record.place);
  };
  constexpr NoteCode kCode = NoteCode::vehicle_doubtful;
  Vehicle vehicle;
  vehicle.name = table.text(record, Field::vehicle);
  vehicle.gross_mass = number({Field::gross_mass, "gross mass", kMasses, 0, kHeaviest,
                               "8000 kg or 8 t", kNoVehicle, kCode});
  vehicle.wheel_load = number(
      {Field::wheel_load, "wheel load", kForces, 0, kLargestLoad, "25 kN", kNoVehicle, kCode});
  vehicle.contact_pressure = number({Field::contact_pressure, "contact pressure", kContactPressures,
                                     0, kLargestPressure, "120 kPa", kNoVehicle, kCode});
  vehicle.passes = number({Field::passes, "number of passes", kPlain, 0, kMostPasses, "40",
                           "is no number of passes", kCode});
  ROOTSTEAD_TRY(vehicle.contact_width,
                length(record, table, Field::contact_width, "contact width"));
  ROOTSTEAD_TRY(vehicle.contact_length,
                length(record, table, Field::contact_length, "contact length"));
  const bool any = !vehicle.name.empty() || vehicle.gross_mass || vehicle.wheel_load ||
                   vehicle.contact_pressure || vehicle.passes || vehicle.contact_width ||
                   vehicle.contact_length;
  if (any) work.vehicle = std::move(vehicle);
  return read_cover(record, table, work);
}

Outcome WorkReader::read_cover(const Record& record, const FieldTable& table, Work& work) {
  GroundCover cover;
  cover.name = table.text(record, Field::cover);
  ROOTSTEAD_TRY(cover.chips, length(record, table, Field::chips, "thickness of the chips"));
  ROOTSTEAD_TRY(cover.plate_width, length(record, table, Field::plate_width, "plate width"));
  ROOTSTEAD_TRY(cover.plate_length, length(record, table, Field::plate_length, "plate length"));
  const bool any = !cover.name.empty() || cover.chips || cover.plate_width || cover.plate_length;
  if (any) work.cover = std::move(cover);
  return Nothing{};
}

}  // namespace rootstead::io
