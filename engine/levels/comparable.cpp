// Can two surfaces be compared at all?
#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/levels/earthwork.hpp"
#include "engine/levels/level_words.hpp"
#include "engine/levels/survey_offset.hpp"

namespace rootstead {
namespace {

constexpr double kFoot = 0.3048;

struct MiddleHeights {
  bool any = false;
  double before = 0, after = 0;
};

double median(std::vector<double>& values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

// On a lattice of places where both have a height.
MiddleHeights middle_heights(const PreparedLevels& before, const PreparedLevels& after) {
  constexpr int kSide = 40;
  const Box a = before.extent(), b = after.extent();
  const Box box{std::max(a.min_x, b.min_x), std::max(a.min_y, b.min_y), std::min(a.max_x, b.max_x),
                std::min(a.max_y, b.max_y)};
  if (box.empty()) return {};
  std::vector<double> first, second;
  for (int i = 0; i < kSide * kSide; ++i) {
    const int column = i % kSide, row = i / kSide;
    const double east = (column + 0.5) / kSide, north = (row + 0.5) / kSide;
    const Point at{box.min_x + east * (box.max_x - box.min_x),
                   box.min_y + north * (box.max_y - box.min_y)};
    const auto h = before.height_at(at);
    const auto g = h ? after.height_at(at) : std::nullopt;
    if (!g) continue;
    first.push_back(*h);
    second.push_back(*g);
  }
  if (first.empty()) return {};
  return {true, median(first), median(second)};
}

bool near_ratio(double value, double wanted, double share) {
  return std::abs(value / wanted - 1) <= share;
}

void doubt_unit(const MiddleHeights& heights, const PreparedLevels& before,
                const PreparedLevels& after, const Tables& tables, std::vector<Note>& notes) {
  constexpr double kFarApart = 1;  // m: nearer heights are compared as they are
  if (!heights.any || std::abs(heights.after - heights.before) < kFarApart) return;
  const double ratio = heights.after / heights.before;
  const double share = tables.parameter("levels.feet_ratio").best;
  const bool after_in_feet = near_ratio(ratio, 1 / kFoot, share);
  if (!after_in_feet && !near_ratio(ratio, kFoot, share)) return;
  const PreparedLevels& feet = after_in_feet ? after : before;
  const PreparedLevels& other = after_in_feet ? before : after;
  notes.push_back({NoteCode::levels_unit_doubtful, feet.name(),
                   "heights of " + surface_words(feet) + " are about 3.28 times those of " +
                       surface_words(other) + " (" + fixed_number(heights.before, 2) + " and " +
                       fixed_number(heights.after, 2) +
                       " m): it may be in feet that were read as metres; read it again with its "
                       "unit."});
}

void doubt_datum(const PreparedLevels& before, const PreparedLevels& after,
                 std::vector<Note>& notes) {
  const bool first = before.surface().vertical_datum.empty();
  const bool second = after.surface().vertical_datum.empty();
  if (!first && !second) return;
  const std::string who = first && second
                              ? "neither surface states"
                              : surface_words(first ? before : after) + " does not state";
  notes.push_back({NoteCode::levels_datum_unknown, (first ? before : after).name(),
                   who + " its vertical datum: it is taken to be that of the other; ask the "
                         "surveyor."});
}

}  // namespace

Outcome same_datum(const PreparedLevels& before, const PreparedLevels& after) {
  const auto plain = [](const PreparedLevels& levels) {
    return lower_case(trimmed(levels.surface().vertical_datum));
  };
  const std::string first = plain(before), second = plain(after);
  if (first.empty() || second.empty() || first == second) return Nothing{};
  return Error{Code::value_invalid, surface_words(after),
               "its heights are above " + after.surface().vertical_datum + " and those of " +
                   surface_words(before) + " above " + before.surface().vertical_datum,
               "have one of them brought to the other's datum by the surveyor; nothing was "
               "compared"};
}

Result<std::vector<Note>> comparable(const PreparedLevels& before, const PreparedLevels& after,
                                     const Tables& tables) {
  ROOTSTEAD_CHECK(same_datum(before, after));
  const MiddleHeights heights = middle_heights(before, after);
  if (!heights.any && !(earthwork_between(before, after).area.square_metres() > 0)) {
    return Error{Code::empty_geometry, surface_words(after),
                 "it has no ground in common with " + surface_words(before),
                 "check the reference system and the unit of both, and that easting and northing "
                 "are not exchanged"};
  }
  std::vector<Note> notes;
  doubt_datum(before, after, notes);
  doubt_unit(heights, before, after, tables, notes);
  return notes;
}

}  // namespace rootstead
