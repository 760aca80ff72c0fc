#include "report/wording.hpp"

#include <cmath>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

constexpr const char* kFixedSpace = "\u00A0";  // a number and its unit never part
constexpr double kSquareFeetPerSquareMetre = 1 / (0.3048 * 0.3048);
constexpr double kInchesPerFoot = 12, kKilogramsPerPound = 0.45359237;
constexpr int kEnteredDecimals = 3, kBetaDecimals = 3;
constexpr double kLong = 1000;  // metres; all roots of a tree, end to end

// A range of a model means no more digits than these: 43566.49 is 43600.
double to_three_digits(double value) {
  const double step = std::pow(10, std::floor(std::log10(std::abs(value))) - 2);
  return std::round(value / step) * step;
}

std::string with_unit(std::string number, std::string_view unit) {
  if (unit.empty()) return number;
  return number + kFixedSpace + std::string(unit);
}

}  // namespace

std::string mark(Status status) {
  switch (status) {
    case Status::published:
      return "ᵖ";
    case Status::common_practice:
      return "ᶜ";
    case Status::memory:
      return "ᵐ";
    case Status::assumption:
      return "ᵃ";
  }
  return "ᵃ";
}

std::string legend_of_marks() {
  return "Raised letters say what a figure rests on: ᵖ published, ᶜ common practice, ᵐ from memory "
         "(not checked against the text), ᵃ our assumption. A derived figure has the weakest mark "
         "of what went into it.";
}

std::string with_thousands(double value, int decimals) {
  std::string text = fixed_number(value, decimals);
  std::size_t end = text.find('.');
  if (end == std::string::npos) end = text.size();
  const std::size_t first = text.starts_with('-') ? 1 : 0;
  for (std::size_t at = end; at > first + 3;) text.insert(at -= 3, ",");
  return text;
}

std::string Wording::length(Length length, int decimals) const {
  if (us()) return with_unit(fixed_number(in_unit(length, LengthUnit::foot), decimals), "ft");
  return with_unit(fixed_number(length.metres(), decimals), "m");
}

std::string Wording::small_length(Length length) const {
  if (us()) return with_unit(fixed_number(in_unit(length, LengthUnit::inch), 0), "in");
  return with_unit(fixed_number(length.millimetres(), 0), "mm");
}

std::string Wording::stem(Length diameter, int centimetre_decimals) const {
  if (us()) return with_unit(fixed_number(in_unit(diameter, LengthUnit::inch), 1), "in");
  return with_unit(fixed_number(diameter.centimetres(), centimetre_decimals), "cm");
}

std::string Wording::area(Area area) const {
  const double value = area.square_metres() * (us() ? kSquareFeetPerSquareMetre : 1);
  return with_unit(with_thousands(value, value < 10 ? 1 : 0), us() ? "ft²" : "m²");
}

std::string Wording::scale(int scale) const {
  const std::string plain = "1:" + with_thousands(scale);
  if (!us()) return plain;
  const double feet = scale / kInchesPerFoot;
  const int decimals = feet == std::round(feet) ? 0 : 1;
  return "1 in = " + fixed_number(feet, decimals) + " ft (" + plain + ")";
}

std::string Wording::figure(const Figure& f) const {
  const auto one = [&](double value) -> std::string {
    const bool long_range = f.range && std::abs(value) >= kLong;
    if (f.unit == "m" && long_range) return long_length(value);
    if (f.unit == "m") return length(Length::metres(value), 2);
    if (f.unit == "deg") return degrees(Angle::degrees(value));
    if (f.unit == "kg") return mass(value, f.range.has_value());
    if (f.unit == "m2") return area(Area::square_metres(value));
    if (f.name.ends_with("-beta")) return fixed_number(value, kBetaDecimals);  // no share
    if (f.unit.empty()) return share(value);
    return with_unit(fixed_number(value, 2), f.unit);
  };
  if (!f.range) return one(f.value);
  const std::string low = one(f.range->low), best = one(f.range->best), high = one(f.range->high);
  return low == best && high == best ? best : best + " (" + low + " to " + high + ")";
}

std::string Wording::long_length(double metres) const {
  const double value = us() ? in_unit(Length::metres(metres), LengthUnit::foot) : metres;
  return with_unit(with_thousands(to_three_digits(value)), us() ? "ft" : "m");
}

std::string Wording::mass(double kilograms, bool of_a_model) const {
  double value = us() ? kilograms / kKilogramsPerPound : kilograms;
  const double size = std::abs(value);
  if (of_a_model && size > 0) value = to_three_digits(value);
  return with_unit(with_thousands(value, size >= 100 ? 0 : size >= 10 ? 1 : 2), us() ? "lb" : "kg");
}

std::string share(double value) {
  const double percent = value * 100;
  const bool fine = std::abs(percent) < 10 && percent != 0;
  return with_unit(fixed_number(percent, fine ? 1 : 0), "%");
}

std::string share_of(const Range& r) {
  const auto bare = [](double v) {
    const std::string text = share(v);
    return text.substr(0, text.find(kFixedSpace));
  };
  if (bare(r.low) == bare(r.best) && bare(r.high) == bare(r.best)) return share(r.best);
  return share(r.best) + " (" + bare(r.low) + "–" + bare(r.high) + ")";
}

std::string entered(const EnteredLength& length) {
  std::string number = fixed_number(length.value, kEnteredDecimals);
  while (number.ends_with('0')) number.pop_back();
  if (number.ends_with('.')) number.pop_back();
  return with_unit(number, symbol(length.unit));
}

std::string entered(const std::optional<EnteredLength>& length) {
  return length ? entered(*length) : "–";
}

std::string degrees(Angle angle) {
  return fixed_number(angle.degrees(), 0) + "°";
}

Status weakest(const std::vector<Figure>& figures, Status otherwise) {
  if (figures.empty()) return otherwise;
  Status status = Status::published;
  for (const Figure& figure : figures) status = weaker(status, figure.from.status);
  return status;
}

std::string sentence_case(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = char(text[0] - 'a' + 'A');
  return text;
}

}  // namespace rootstead
