#include "engine/base/text.hpp"

#include <charconv>
#include <cmath>
#include <string>

namespace rootstead {

std::string shortest_number(double value) {
  char buffer[64];
  const double size = std::abs(value);
  const bool plain = value == 0 || (size >= 1e-7 && size < 1e15);
  const auto format = plain ? std::chars_format::fixed : std::chars_format::scientific;
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value + 0.0, format);
  return {buffer, end.ptr};
}

std::string fixed_number(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  const double rounded = std::round(value * scale) / scale;
  char buffer[400];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, rounded == 0 ? 0.0 : rounded,
                                 std::chars_format::fixed, decimals);
  return {buffer, end.ptr};
}

std::string percent(double share, int decimals) {
  return fixed_number(share * 100, decimals) + " %";
}

std::optional<LeadingNumber> leading_number(std::string_view text) {
  const std::string_view body = trimmed(text);
  std::size_t length = 0;
  while (length < body.size() &&
         std::string_view("+-.,0123456789").find(body[length]) != std::string_view::npos) {
    ++length;
  }
  std::string number(body.substr(0, length));
  if (const auto comma = number.find(','); comma != std::string::npos) number[comma] = '.';
  const char* begin = number.data() + (number.starts_with('+') ? 1 : 0);
  const char* end = number.data() + number.size();
  double value = 0;
  const auto read = std::from_chars(begin, end, value, std::chars_format::fixed);
  if (read.ec != std::errc() || read.ptr != end) return std::nullopt;
  return LeadingNumber{value, body.substr(length)};
}

std::optional<double> number_from(std::string_view text) {
  std::string body(trimmed(text));
  if (const auto comma = body.find(','); comma != std::string::npos) body[comma] = '.';
  if (body.starts_with('+')) body.erase(0, 1);
  double value = 0;
  const auto read = std::from_chars(body.data(), body.data() + body.size(), value);
  if (body.empty() || read.ec != std::errc() || read.ptr != body.data() + body.size())
    return std::nullopt;
  if (!std::isfinite(value)) return std::nullopt;
  return value;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view kBlanks = " \t\r\n";
  const auto first = text.find_first_not_of(kBlanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(kBlanks) - first + 1);
}

std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return lower;
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> parts;
  std::size_t start = 0;
  for (std::size_t at = text.find(separator); at != std::string_view::npos;
       at = text.find(separator, start)) {
    parts.emplace_back(text.substr(start, at - start));
    start = at + 1;
  }
  parts.emplace_back(text.substr(start));
  return parts;
}

std::string joined(const std::vector<std::string>& parts, std::string_view separator) {
  std::string text;
  for (const std::string& part : parts) {
    if (&part != &parts.front()) text += separator;
    text += part;
  }
  return text;
}

}  // namespace rootstead
