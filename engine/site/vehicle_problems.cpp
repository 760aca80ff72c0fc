// What is impossible or doubtful in the vehicles, covers and dates of works.
#include <string>

#include "engine/base/text.hpp"
#include "engine/site/dates.hpp"
#include "engine/site/plausible.hpp"
#include "engine/site/problem_list.hpp"

namespace rootstead {
namespace {

using namespace plausible;

constexpr double kGravity = 9.80665;  // m/s2, standard

// What drives on one work and lies under it, under examination.
class RecordCheck {
 public:
  RecordCheck(const Work& work, const Site& site, ProblemList& problems)
      : work_(work), site_(site), problems_(problems) {}

  void run() {
    if (work_.vehicle) vehicle(*work_.vehicle);
    if (work_.cover) cover(*work_.cover);
    // A planned work may well lie after the report.
    if (work_.state == WorkState::existing) {
      check_date(work_.date, "date", site_, subject_of(work_), problems_);
      if (work_.date.empty() && !work_.seen.empty())
        add(false, NoteCode::date_missing,
            "damage was seen, and no date says when the work was done",
            "enter the date, if only the year and month: what can still be done depends on it");
    } else if (!is_date(work_.date)) {
      check_date(work_.date, "date", site_, subject_of(work_), problems_);
    }
  }

 private:
  void add(bool blocks, NoteCode code, std::string message, std::string remedy) {
    problems_.add({blocks, code, subject_of(work_), std::move(message), std::move(remedy)});
  }
  void blocks(std::string message, std::string remedy) {
    add(true, NoteCode::vehicle_doubtful, std::move(message), std::move(remedy));
  }
  void doubtful(std::string message, std::string remedy) {
    add(false, NoteCode::vehicle_doubtful, std::move(message), std::move(remedy));
  }

  // Told, and true, where a number is not above zero.
  bool not_above_zero(const std::optional<double>& value, const std::string& what,
                      const std::string& unit) {
    if (!value || *value > 0) return false;
    blocks("the " + what + " of " + shortest_number(*value) + " " + unit + " is not above zero",
           "enter it as it is on the data plate, or leave it out");
    return true;
  }
  void above_zero(const std::optional<EnteredLength>& size, const std::string& what) {
    if (!size || size->length() > Length()) return;
    blocks("the " + what + " of " + to_text(*size) + " is not above zero",
           "enter it as it was measured, or leave it out");
  }

  void between(const std::optional<double>& value, double low, double high, const std::string& what,
               const std::string& unit) {
    if (not_above_zero(value, what, unit) || !value || (*value >= low && *value <= high)) return;
    doubtful("a " + what + " of " + shortest_number(*value) + " " + unit + " is hardly possible",
             "check its unit; usual are " + shortest_number(low) + " to " + shortest_number(high) +
                 " " + unit);
  }

  void vehicle(const Vehicle& vehicle) {
    between(vehicle.gross_mass, kLightestVehicle, kHeaviestVehicle, "gross mass", "kg");
    between(vehicle.contact_pressure, kLowestContact, kHighestContact, "contact pressure", "kPa");
    not_above_zero(vehicle.wheel_load, "wheel load", "kN");
    above_zero(vehicle.contact_width, "contact width");
    above_zero(vehicle.contact_length, "contact length");
    if (vehicle.passes && !(*vehicle.passes >= 0))
      blocks(shortest_number(*vehicle.passes) + " passes are impossible",
             "enter how often it drives there in all");
    weight(vehicle);
  }

  void weight(const Vehicle& vehicle) {
    if (!vehicle.wheel_load || !vehicle.gross_mass || !(*vehicle.gross_mass > 0)) return;
    const double all = *vehicle.gross_mass * kGravity / 1000;  // kN
    if (*vehicle.wheel_load <= all) return;
    blocks("the wheel load of " + shortest_number(*vehicle.wheel_load) +
               " kN is more than the whole weight of " + shortest_number(*vehicle.gross_mass) +
               " kg, " + fixed_number(all, 1) + " kN",
           "check the units of both: the load of one wheel or track is wanted");
  }

  void cover(const GroundCover& cover) {
    if (cover.chips && cover.chips->length() < Length()) {
      blocks("a layer of chips of " + to_text(*cover.chips) + " is negative",
             "enter its thickness");
    } else if (cover.chips && cover.chips->length() > kThickestChips) {
      doubtful("a layer of chips of " + to_text(*cover.chips) + " is very thick",
               "check the unit of its thickness");
    }
    above_zero(cover.plate_width, "plate width");
    above_zero(cover.plate_length, "plate length");
  }

  const Work& work_;
  const Site& site_;
  ProblemList& problems_;
};

}  // namespace

void check_records_of_works(const Site& site, ProblemList& problems) {
  for (const Work& work : site.works) RecordCheck(work, site, problems).run();
}

}  // namespace rootstead
