// What of a vehicle touches the ground, from as much of it as is known.
#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "engine/soil/traffic.hpp"

namespace rootstead {
namespace {

constexpr double kGravity = 9.80665;  // m/s2

// "8 t excavator", "excavator 3500kg": the mass in a name, kg.
std::optional<double> mass_in(std::string_view name) {
  const std::string text = lower_case(name);
  const std::vector<std::string> words = split(text, ' ');
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto number = leading_number(words[i]);
    if (!number || number->value <= 0) continue;
    std::string unit(trimmed(number->rest));
    if (unit.empty() && i + 1 < words.size()) unit = words[i + 1];
    if (unit == "t" || unit == "tonne" || unit == "tonnes") return number->value * 1000;
    if (unit == "kg") return number->value;
  }
  return std::nullopt;
}

double pick(const Range& range, int which) {
  return which == 0 ? range.low : which == 1 ? range.best : range.high;
}

Range same(double value) {
  return {value, value, value};
}

// The row that speaks for whatever has no row of its own.
const GroundPressure* any_machine(const Tables& tables) {
  for (const GroundPressure& row : tables.soil.ground_pressures)
    if (row.words.empty()) return &row;
  return nullptr;
}

class ContactFinder {
 public:
  ContactFinder(const Vehicle& vehicle, const GroundPressure& row, const Tables& tables)
      : vehicle_(vehicle), row_(row), uneven_(tables.parameter("ground.uneven_load")) {
    mass_ = vehicle.gross_mass ? vehicle.gross_mass : mass_in(vehicle.name);
    if (vehicle.contact_width) width_ = vehicle.contact_width->length();
    if (vehicle.contact_length) length_ = vehicle.contact_length->length();
  }

  Contact at(int which) const {
    const double mean = mean_load(which);
    const double load =
        loads_entered() ? mean : mean * pick({uneven_.low, uneven_.best, uneven_.high}, which);
    if (width_ && length_) return {load, *width_, *length_};
    // A heavier wheel stands on the same tyre; only an entered pressure stays what it is.
    const double area = vehicle_.contact_pressure ? load / *vehicle_.contact_pressure
                                                  : mean / pick(row_.pressure, which);
    return with_area(load, area);
  }

  std::optional<double> mass() const {
    if (mass_) return mass_;
    if (!loads_entered() && row_.mass) return row_.mass->best;
    return std::nullopt;
  }
  bool loads_entered() const {
    return vehicle_.wheel_load || (!mass_ && vehicle_.contact_pressure && width_ && length_);
  }
  bool all_entered() const {
    return loads_entered() && (vehicle_.contact_pressure || (width_ && length_));
  }

  // Load, pressure and size all entered, and not of one another.
  bool contradicts() const {
    if (!vehicle_.wheel_load || !vehicle_.contact_pressure || !width_ || !length_) return false;
    const double pressed =
        *vehicle_.contact_pressure * width_->metres() * length_->metres() / *vehicle_.wheel_load;
    return pressed > 1.25 || pressed < 0.8;
  }

 private:
  double mean_load(int which) const {
    if (vehicle_.wheel_load) return *vehicle_.wheel_load;
    const auto weight = [&](double mass) { return mass * kGravity / 1000 / row_.supports; };
    if (mass_) return weight(*mass_);
    if (loads_entered()) return *vehicle_.contact_pressure * width_->metres() * length_->metres();
    return weight(pick(row_.mass.value_or(same(5000)), which));
  }

  Contact with_area(double load, double area) const {
    const double side = std::sqrt(area / row_.length_per_width);
    if (width_) return {load, *width_, Length::metres(area / width_->metres())};
    if (length_) return {load, Length::metres(area / length_->metres()), *length_};
    return {load, Length::metres(side), Length::metres(side * row_.length_per_width)};
  }

  const Vehicle& vehicle_;
  const GroundPressure& row_;
  const Parameter& uneven_;
  std::optional<double> mass_;
  std::optional<Length> width_, length_;
};

}  // namespace

Pressure Contact::pressure() const {
  return Pressure::kilopascals(load_kn / (width * length).square_metres());
}

const GroundPressure* ground_pressure_of(std::string_view name, const Tables& tables) {
  const std::string text = lower_case(name);
  const GroundPressure* found = nullptr;
  std::size_t longest = 0;
  for (const GroundPressure& row : tables.soil.ground_pressures)
    for (const std::string& phrase : split(row.words, ';'))
      if (phrase.size() > longest && text.find(lower_case(phrase)) != std::string::npos) {
        found = &row;
        longest = phrase.size();
      }
  return found;
}

std::optional<VehicleContact> contact_of(const Vehicle& vehicle, const Tables& tables) {
  const GroundPressure* named = ground_pressure_of(vehicle.name, tables);
  const bool silent = named == nullptr && !vehicle.wheel_load && !vehicle.gross_mass &&
                      !vehicle.contact_pressure && !mass_in(vehicle.name);
  const GroundPressure* row = named != nullptr ? named : any_machine(tables);
  if (silent || row == nullptr) return std::nullopt;
  const ContactFinder finder(vehicle, *row, tables);
  VehicleContact contact{finder.at(0),
                         finder.at(1),
                         finder.at(2),
                         finder.mass(),
                         finder.all_entered(),
                         {},
                         {"survey", "", Status::published}};
  contact.contradicts = finder.contradicts();
  if (!contact.entered) {
    contact.filled = row->name;
    contact.from = row->from;
    contact.from.place += "; mass, supports and uneven load ours";
    contact.from.status = Status::assumption;
  }
  return contact;
}

}  // namespace rootstead
