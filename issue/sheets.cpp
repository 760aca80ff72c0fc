#include "issue/sheets.hpp"

#include <array>
#include <charconv>
#include <optional>
#include <utility>

namespace rootstead::issue {
namespace {

constexpr std::array<std::pair<const char*, SheetSize>, 7> kSheets{{{"a4", SheetSize::a4},
                                                                    {"a3", SheetSize::a3},
                                                                    {"a2", SheetSize::a2},
                                                                    {"a1", SheetSize::a1},
                                                                    {"letter", SheetSize::letter},
                                                                    {"tabloid", SheetSize::tabloid},
                                                                    {"arch-d", SheetSize::arch_d}}};

std::optional<SheetSize> sheet_from(const std::string& name) {
  for (const auto& [known, size] : kSheets) {
    if (name == known) return size;
  }
  return std::nullopt;
}

// 200 for "1:200" and for "200".
std::optional<int> scale_from(std::string_view text) {
  if (text.substr(0, 2) == "1:") text.remove_prefix(2);
  int scale = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), scale);
  if (fault != std::errc{} || end != text.data() + text.size() || scale <= 0) return std::nullopt;
  return scale;
}

}  // namespace

std::vector<std::string> sheet_names() {
  std::vector<std::string> names;
  for (const auto& [name, size] : kSheets) names.emplace_back(name);
  return names;
}

Result<ReportOptions> report_options(const std::string& sheet, const std::string& scale) {
  const std::optional<SheetSize> size = sheet_from(sheet);
  if (!size) {
    return Error{Code::wrong_use, "sheet " + sheet, "there is no sheet of this name",
                 "give one of a4, a3, a2, a1, letter, tabloid, arch-d"};
  }
  ReportOptions options;
  options.sheet = *size;
  if (scale.empty()) return options;
  const std::optional<int> asked = scale_from(scale);
  if (!asked) {
    return Error{Code::wrong_use, "scale " + scale, "this is no scale", "write it as 1:200"};
  }
  options.scale = *asked;
  return options;
}

}  // namespace rootstead::issue
