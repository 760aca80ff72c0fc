#include "engine/cutting/auger_table.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <limits>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

constexpr double kFoot = 0.3048, kInch = 0.0254;
constexpr double kAll = std::numeric_limits<double>::infinity();

// Stems from `from` to `to` inches: so many feet. Between two rows the source says nothing; the
// next larger row is taken, the safe side.
struct Row {
  double from, to, feet;
  Status status;
};

// Morell 1984, as a bulletin on street trees repeats it; recalled.
constexpr std::array kBulletin = {
    Row{0, 2, 1, Status::memory},    Row{3, 4, 2, Status::memory},
    Row{5, 9, 5, Status::memory},    Row{10, 14, 10, Status::memory},
    Row{15, 19, 12, Status::memory}, Row{19, kAll, 15, Status::memory},
};
// A page that restates it, read: below 6 in the drip line, nothing above 19 in.
constexpr double kCopyCrownBelow = 6;
constexpr std::array kCopy = {
    Row{6, 9, 5, Status::published},
    Row{10, 14, 10, Status::published},
    Row{15, 19, 12, Status::published},
};

template <std::size_t n>
const Row* row_for(const std::array<Row, n>& rows, double inches) {
  const auto row =
      std::find_if(rows.begin(), rows.end(), [&](const Row& one) { return inches <= one.to; });
  return row == rows.end() ? nullptr : &*row;
}

std::string row_text(const Row& row) {
  const std::string feet = fixed_number(row.feet, 0) + " ft";
  if (row.to == kAll) return "over " + fixed_number(row.from, 0) + " in: " + feet;
  return fixed_number(row.from, 0) + " to " + fixed_number(row.to, 0) + " in: " + feet;
}

AugerDistance start(std::string version, Length diameter, const std::string& source) {
  AugerDistance one;
  one.figure.name = "cutting.auger-distance." + version;
  one.figure.unit = "m";
  one.figure.inputs = {{"D", "stem diameter", fixed_number(diameter.metres() / kInch, 1) + " in"}};
  one.figure.formula = "by the stem diameter, from the face of the trunk";
  one.figure.from = {source, "", Status::memory};
  one.version = std::move(version);
  return one;
}

void take(AugerDistance& one, const Row& row, double inches) {
  one.distance = Length::metres(row.feet * kFoot);
  one.between_rows = inches < row.from;
  one.figure.value = one.distance->metres();
  one.figure.from.place = row_text(row) + (one.between_rows ? ", the next larger row" : "");
  one.figure.from.status = one.between_rows ? Status::assumption : row.status;
}

// A stem of 17 in entered as 431.8 mm must not fall out of its row by rounding.
double inches_of(Length diameter) {
  constexpr double kGrain = 1e-6;
  const double inches = diameter.metres() / kInch;
  const double whole = static_cast<double>(static_cast<long>(inches + 0.5));
  return inches - whole < kGrain && whole - inches < kGrain ? whole : inches;
}

AugerDistance by_bulletin(Length diameter) {
  AugerDistance one = start("bulletin", diameter, "morell-1984");
  const double inches = inches_of(diameter);
  take(one, *row_for(kBulletin, inches), inches);
  return one;
}

AugerDistance by_copy(Length diameter, std::optional<Length> crown_radius) {
  AugerDistance one = start("copy", diameter, "auger-distance-copy");
  const double inches = inches_of(diameter);
  if (inches < kCopyCrownBelow) {
    if (!crown_radius) {
      one.missing =
          "this version takes the drip line for stems under 6 in, and no crown was measured";
      return one;
    }
    // The drip line is counted from the stem centre, the table from the face of the trunk.
    one.distance = std::max(Length(), *crown_radius - diameter / 2);
    one.figure.value = one.distance->metres();
    one.figure.inputs.push_back(
        {"R", "largest crown radius", fixed_number(crown_radius->metres(), 2) + " m"});
    one.figure.from.place = "under 6 in: the drip line";
    one.figure.from.status = Status::published;
    return one;
  }
  const Row* row = row_for(kCopy, inches);
  if (row == nullptr)
    one.missing = "this version ends at stems of 19 in";
  else
    take(one, *row, inches);
  return one;
}

}  // namespace

std::vector<AugerDistance> auger_distances(Length diameter, std::optional<Length> crown_radius) {
  assert(diameter > Length());
  return {by_bulletin(diameter), by_copy(diameter, crown_radius)};
}

Length governing(const std::vector<AugerDistance>& versions) {
  Length furthest;
  for (const AugerDistance& one : versions)
    if (one.distance) furthest = std::max(furthest, *one.distance);
  return furthest;
}

}  // namespace rootstead
