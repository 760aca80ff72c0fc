#include "serve/import_doubts.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"

namespace rootstead::serve {
namespace {

void put_places(const Shape& shape, std::vector<Point>& places) {
  if (!shape.points.empty()) places.push_back(shape.points.front());
  if (!shape.lines.empty() && !shape.lines.front().empty())
    places.push_back(shape.lines.front().front());
  if (!shape.areas.empty() && !shape.areas.front().outer.empty())
    places.push_back(shape.areas.front().outer.front());
}

void put_places(const std::vector<Tree>& trees, std::vector<Point>& places) {
  for (const Tree& tree : trees)
    if (tree.position) places.push_back(tree.position->at);
}

// One place of each thing that has one.
template <class Holder>
std::vector<Point> places_of(const Holder& holder) {
  std::vector<Point> places;
  put_places(holder.trees, places);
  for (const Work& work : holder.works) put_places(work.shape, places);
  for (const Barrier& barrier : holder.barriers) put_places(barrier.shape, places);
  for (const Surface& surface : holder.surfaces) put_places({{}, surface.area, {}}, places);
  for (const Evidence& opening : holder.evidence) put_places(opening.shape, places);
  for (const Gate& gate : holder.gates) places.push_back(gate.at);
  put_places({{}, holder.boundary, {}}, places);
  return places;
}

// The middle of the distances to the site's nearest edge, and how many are far.
struct Away {
  double median = 0, most = 0;  // m
  std::size_t far = 0;
};

Away away(const std::vector<Point>& places, const Box& site) {
  std::vector<double> metres;
  for (const Point& place : places)
    if (std::isfinite(place.x) && std::isfinite(place.y))
      metres.push_back(distance(place, site).metres());
  if (metres.empty()) return {};
  std::sort(metres.begin(), metres.end());
  const auto far =
      std::count_if(metres.begin(), metres.end(), [](double one) { return one > kFarFromSite; });
  return {metres[metres.size() / 2], metres.back(), static_cast<std::size_t>(far)};
}

bool exchange(io::ColumnMap& map, const char* one, const char* other) {
  const auto first = map.fields.find(one), second = map.fields.find(other);
  if (first == map.fields.end() || second == map.fields.end()) return false;
  std::swap(first->second, second->second);
  return true;
}

// Where the things lie if the two coordinates are the other way round: read again so where columns
// hold them, for their system may be another than the project's.
std::vector<Point> places_exchanged(const ImportAsked& asked, const io::ColumnMap& used,
                                    const std::vector<Point>& places, const Site& site) {
  io::ImportOptions options = asked.options;
  io::ColumnMap map = used;
  if (exchange(map, "easting", "northing") || exchange(map, "longitude", "latitude")) {
    options.columns = std::move(map);
    const auto again = io::read_source(asked.file.path(), options, site.system);
    return again ? places_of(*again) : std::vector<Point>{};
  }
  std::vector<Point> exchanged = places;
  for (Point& place : exchanged) std::swap(place.x, place.y);
  return exchanged;
}

std::string kilometres(double metres) {
  return fixed_number(metres / 1000, metres < 10'000 ? 1 : 0) + " km";
}

void doubt_places(const ImportAsked& asked, const io::Import& import, const io::ColumnMap& used,
                  const Site& site, std::vector<std::string>& doubts) {
  const auto told = std::find_if(import.problems.begin(), import.problems.end(), [](const auto& p) {
    return p.code == NoteCode::coordinates_swapped;
  });
  if (told != import.problems.end()) return doubts.push_back(told->sentence());
  std::vector<Point> there;
  put_places(site.trees, there);
  if (there.empty()) there = places_of(site);
  const std::vector<Point> places = places_of(import);
  if (there.empty() || places.empty()) return;
  const Box around = box_of(there);
  const Away as_read = away(places, around);
  if (as_read.far == 0) return;
  if (as_read.median > kFarFromSite) {
    const auto exchanged = places_exchanged(asked, used, places, site);
    constexpr double kFarBetter = 10;  // times nearer; our assumption
    const double other = away(exchanged, around).median;
    if (!exchanged.empty() && other * kFarBetter < as_read.median)
      return doubts.push_back(
          "The two coordinates look exchanged: as read, half of the things lie " +
          kilometres(as_read.median) + " or more from the site; the other way round, " +
          kilometres(other) + ".");
  }
  doubts.push_back(std::to_string(as_read.far) + " of " + std::to_string(places.size()) +
                   " lie more than 5 km from the site, up to " + kilometres(as_read.most) +
                   "; check the coordinate system and the unit.");
}

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

// What few stands of trees have half of their stems beyond; our assumptions.
constexpr double kThinStem = 0.03, kThickStem = 2.0;           // m, of diameters
constexpr double kUsualThinnest = 0.08, kUsualThickest = 1.2;  // m
constexpr std::size_t kFewestForMedian = 3;

void doubt_unit(const io::Import& import, std::vector<std::string>& doubts) {
  std::vector<double> metres, plain;  // diameters as read, and their numbers without a unit
  std::optional<LengthUnit> unit;
  for (const Tree& tree : import.trees)
    for (const Stem& stem : tree.stems) {
      metres.push_back(stem.diameter().metres());
      plain.push_back(stem.diameter().metres() / metres_per(stem.size.unit));
      unit = stem.size.unit;
    }
  if (metres.size() < kFewestForMedian) return;
  const double middle = median(metres), number = median(plain);
  if (middle >= kThinStem && middle <= kThickStem) return;
  constexpr std::array kUnits{LengthUnit::millimetre, LengthUnit::centimetre, LengthUnit::metre,
                              LengthUnit::inch, LengthUnit::foot};
  std::vector<std::string> better;
  for (const LengthUnit other : kUnits) {
    const double size = number * metres_per(other);
    if (other != *unit && size >= kUsualThinnest && size <= kUsualThickest)
      better.emplace_back(symbol(other));
  }
  doubts.push_back("Half of the stem diameters are " +
                   std::string(middle > kThickStem ? "above " : "below ") +
                   fixed_number(middle, middle > 1 ? 1 : 4) + " m" +
                   (better.empty() ? "; check their column and its unit."
                                   : "; they fit better in " + joined(better, " or ") + "."));
}

void doubt_girths(const io::Import& import, std::vector<std::string>& doubts) {
  const auto half = std::find_if(import.problems.begin(), import.problems.end(), [](const auto& p) {
    return p.code == NoteCode::girth_suspected && p.message.starts_with("half of");
  });
  if (half != import.problems.end()) return doubts.push_back(half->sentence());
  const auto count = std::count_if(
      import.problems.begin(), import.problems.end(),
      [](const Problem& problem) { return problem.code == NoteCode::girth_suspected; });
  if (count > 0)
    doubts.push_back(std::to_string(count) + (count == 1 ? " stem is" : " stems are") +
                     " rare as a diameter and common as a girth; check what the column holds.");
}

// A tree that is thicker than it is high: the two columns may stand in the wrong order.
void doubt_heights(const io::Import& import, std::vector<std::string>& doubts) {
  std::size_t both = 0, thicker = 0;
  for (const Tree& tree : import.trees) {
    if (!tree.height || tree.stems.empty()) continue;
    ++both;
    if (tree.stems.front().diameter() > tree.height->length()) ++thicker;
  }
  if (both < kFewestForMedian || thicker * 2 <= both) return;
  doubts.push_back(std::to_string(thicker) + " of " + std::to_string(both) +
                   " trees are thicker than they are high; stem diameter and height look "
                   "exchanged.");
}

void doubt_ids(const ImportAsked& asked, const io::Import& import,
               std::vector<std::string>& doubts) {
  std::vector<std::string> taken;
  const auto look = [&](const auto& things) {
    for (const auto& thing : things)
      if (asked.options.taken.contains(thing.id)) taken.push_back(thing.id);
  };
  look(import.trees);
  look(import.works);
  look(import.barriers);
  look(import.surfaces);
  look(import.evidence);
  if (taken.empty()) return;
  constexpr std::size_t kShown = 3;
  const std::size_t more = taken.size() > kShown ? taken.size() - kShown : 0;
  taken.resize(taken.size() - more);
  doubts.push_back(joined(taken, ", ") +
                   (more > 0 ? " and " + std::to_string(more) + " more" : "") +
                   (taken.size() == 1 ? " is" : " are") +
                   " in the project already; the file cannot be added as it is.");
}

}  // namespace

std::vector<std::string> doubts_of(const ImportAsked& asked, const io::Import& import,
                                   const io::ColumnMap& used, const Site& site) {
  std::vector<std::string> doubts;
  doubt_places(asked, import, used, site, doubts);
  doubt_unit(import, doubts);
  doubt_girths(import, doubts);
  doubt_heights(import, doubts);
  doubt_ids(asked, import, doubts);
  return doubts;
}

}  // namespace rootstead::serve
