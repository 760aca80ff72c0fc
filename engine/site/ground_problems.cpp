// What is missing, impossible or doubtful in the evidence, the soil and the wind.
#include <algorithm>
#include <optional>
#include <string>
#include <unordered_set>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/site/plausible.hpp"
#include "engine/site/problem_list.hpp"

namespace rootstead {
namespace {

using namespace plausible;

std::string subject_of(const Evidence& opening) {
  return subject_of(opening.origin, to_text(opening.kind), opening.id);
}

// One opening under examination.
class OpeningCheck {
 public:
  OpeningCheck(const Evidence& opening, const Site& site, ProblemList& problems)
      : opening_(opening), site_(site), problems_(problems) {}

  void run() {
    shape();
    tree();
    sizes();
    for (std::size_t i = 0; i < opening_.roots.size(); ++i) root(i);
    check_date(opening_.date, "date", site_, subject_of(opening_), problems_);
  }

 private:
  void add(bool blocks, NoteCode code, std::string message, std::string remedy) {
    problems_.add({blocks, code, subject_of(opening_), std::move(message), std::move(remedy)});
  }
  void blocks(NoteCode code, std::string message, std::string remedy) {
    add(true, code, std::move(message), std::move(remedy));
  }
  void doubtful(NoteCode code, std::string message, std::string remedy) {
    add(false, code, std::move(message), std::move(remedy));
  }

  void shape() {
    if (opening_.shape.empty()) {
      doubtful(NoteCode::shape_missing, "no place, so nothing can be learned from it",
               "give its coordinates, or draw it");
    } else if (!is_valid(opening_.shape.areas)) {
      doubtful(NoteCode::shape_doubtful, "an outline crosses itself or another",
               "draw it again without crossings");
    }
  }

  void tree() {
    if (opening_.tree.empty() || site_.tree(opening_.tree) != nullptr) return;
    doubtful(
        NoteCode::evidence_tree_unknown,
        "its roots are said to be of the tree " + opening_.tree + ", which is not in the survey",
        "correct the tree, or leave it out where it is not known");
  }

  void sizes() {
    const auto above_zero = [this](const std::optional<EnteredLength>& size, const char* what) {
      if (!size || size->length() > Length()) return;
      blocks(NoteCode::measure_doubtful,
             "the " + std::string(what) + " of " + to_text(*size) + " is not above zero",
             "enter it as it was measured, or leave it out");
    };
    above_zero(opening_.width, "width");
    above_zero(opening_.depth, "depth");
    if (opening_.depth && opening_.depth->length() > kDoubtfulDepth)
      doubtful(NoteCode::measure_doubtful,
               "the depth of " + to_text(*opening_.depth) + " is very deep",
               "check the unit and the reading");
  }

  void root(std::size_t index) {
    const FoundRoot& root = opening_.roots[index];
    const std::string name = "root " + std::to_string(index + 1) + " of " + to_text(root.diameter);
    if (!(root.diameter.length() > Length())) {
      blocks(NoteCode::root_doubtful, name + " has no diameter above zero",
             "enter its diameter, or take the root out");
    } else if (root.diameter.length() > kThickestRoot) {
      blocks(NoteCode::root_doubtful, name + " is thicker than a root can be",
             "check the unit and the reading");
    } else if (root.diameter.length() < opening_.counted_from.length()) {
      doubtful(NoteCode::root_thinner_than_counted,
               name + " is thinner than the " + to_text(opening_.counted_from) +
                   " from which roots were counted; it is kept",
               "give the diameter from which every root was written down");
    }
    depth_of_root(root, name);
    place_of_root(root, name);
  }

  void depth_of_root(const FoundRoot& root, const std::string& name) {
    if (!root.depth) return;
    const EnteredLength dug = opening_.depth.value_or(kDefaultOpeningDepth);
    const std::string at = name + " at " + to_text(*root.depth);
    if (root.depth->length() < Length()) {
      blocks(NoteCode::root_doubtful, at + " lies above ground",
             "enter depths downward as positive");
    } else if (root.depth->length() > dug.length()) {
      doubtful(NoteCode::root_doubtful,
               at + " is deeper than the opening, " + to_text(dug) +
                   (opening_.depth ? "" : " where nothing is said"),
               "correct one of the two depths");
    }
  }

  void place_of_root(const FoundRoot& root, const std::string& name) {
    if (!root.at || opening_.shape.empty()) return;
    const MultiPolygon ground = footprint(opening_);
    if (ground.empty() || distance_between(*root.at, ground) <= kBesideOpening) return;
    doubtful(NoteCode::root_doubtful, name + " was found outside the opening",
             "check the coordinates of both");
  }

  const Evidence& opening_;
  const Site& site_;
  ProblemList& problems_;
};

class SoilCheck {
 public:
  SoilCheck(const Soil& soil, ProblemList& problems) : soil_(soil), problems_(problems) {}

  void run() {
    depth(soil_.rooting_depth, "the rooting depth", false);
    depth(soil_.water_table, "the depth of the water table", true);
    Length above;
    for (std::size_t i = 0; i < soil_.layers.size(); ++i) {
      const SoilLayer& layer = soil_.layers[i];
      const std::string name = "layer " + std::to_string(i + 1);
      if (!(layer.bottom.length() > above))
        blocks(name + " ends at " + to_text(layer.bottom) + ", no deeper than what is above it",
               "give the layers from the top down, each by its underside");
      above = std::max(above, layer.bottom.length());
      numbers(layer, name);
    }
    if (above > kDeepestLayer)
      problems_.add({false, NoteCode::soil_doubtful, "soil",
                     "its layers go down to " + metres_text(above),
                     "check the unit of their depths"});
  }

 private:
  void blocks(std::string message, std::string remedy) {
    problems_.add({true, NoteCode::soil_doubtful, "soil", std::move(message), std::move(remedy)});
  }

  void depth(const std::optional<EnteredLength>& value, const std::string& what, bool may_be_nil) {
    if (!value) return;
    const bool fine = may_be_nil ? value->length() >= Length() : value->length() > Length();
    if (!fine) blocks(what + " of " + to_text(*value) + " is impossible", "enter it downward");
  }

  void numbers(const SoilLayer& layer, const std::string& name) {
    const auto within = [&](const std::optional<double>& value, double low, double high,
                            const std::string& what, const std::string& unit) {
      if (!value || (*value >= low && *value <= high)) return;
      blocks("the " + what + " of " + name + ", " + shortest_number(*value) + unit +
                 ", is none that a soil has",
             "enter a number from " + shortest_number(low) + " to " + shortest_number(high) +
                 ", or leave it out");
    };
    within(layer.bulk_density, kLightestSoil, kDensestSoil, "bulk density", " g/cm3");
    within(layer.air_filled, 0, 1, "air-filled share", "");
    within(layer.resistance, 0, kHardestSoil, "penetration resistance", " MPa");
    within(layer.sand, 0, 1, "share of sand", "");
    within(layer.silt, 0, 1, "share of silt", "");
    within(layer.clay, 0, 1, "share of clay", "");
    within(layer.organic_matter, 0, 1, "share of organic matter", "");
    within(layer.water, 0, 1, "share of water", "");
    particles(layer, name);
  }

  // Three shares make up the whole; two may leave something over, and no more than all.
  void particles(const SoilLayer& layer, const std::string& name) {
    double sum = 0;
    int given = 0;
    for (const auto& share : {layer.sand, layer.silt, layer.clay}) {
      if (!share) continue;
      if (!(*share >= 0 && *share <= 1)) return;  // told already
      sum += *share;
      ++given;
    }
    constexpr double kSlip = kTextureSumSlip * (1 + 1e-9);  // 0.33 + 0.33 + 0.33 is within it
    const bool short_of = given == 3 && sum < 1 - kSlip;
    if (!short_of && sum <= 1 + kSlip) return;
    blocks("the shares of sand, silt and clay of " + name + " add up to " +
               fixed_number(sum * 100, 0) + " %, not to 100",
           "correct them, or leave them out");
  }

  const Soil& soil_;
  ProblemList& problems_;
};

void add_wind(ProblemList& problems, bool blocks, std::string message, std::string remedy) {
  problems.add({blocks, NoteCode::wind_doubtful, "wind", std::move(message), std::move(remedy)});
}

void check_wind_speed(const Wind& wind, ProblemList& problems) {
  if (!(wind.basic_speed > 0)) {
    add_wind(problems, true, "no basic wind speed for " + std::string(to_text(wind.standard)),
             "set wind.speed from the map of the standard");
  } else if (wind.basic_speed < kCalmestWind || wind.basic_speed > kStormiestWind) {
    add_wind(problems, false,
             "a basic wind speed of " + shortest_number(wind.basic_speed) +
                 " m/s is outside those of any map",
             "check its unit");
  }
}

}  // namespace

void check_evidence(const Site& site, ProblemList& problems) {
  std::unordered_set<std::string> ids;
  for (const Evidence& opening : site.evidence) {
    OpeningCheck(opening, site, problems).run();
    if (opening.id.empty() || ids.insert(opening.id).second) continue;
    problems.add({true, NoteCode::tag_duplicate, subject_of(opening),
                  "the id " + opening.id + " is already that of another opening",
                  "give each opening an id of its own"});
  }
}

void check_soil(const Site& site, ProblemList& problems) {
  SoilCheck(site.soil, problems).run();
}

void check_wind(const Site& site, ProblemList& problems) {
  const Wind& wind = site.wind;
  if (wind.standard == Wind::Standard::none) return;
  check_wind_speed(wind, problems);
  const auto terrains = terrains_of(wind.standard);
  if (std::find(terrains.begin(), terrains.end(), wind.terrain) == terrains.end())
    add_wind(
        problems, true,
        (wind.terrain.empty() ? "no terrain" : "the terrain \"" + wind.terrain + "\" is none") +
            std::string(" of ") + std::string(to_text(wind.standard)),
        "set wind.terrain to one of " + joined(terrains, ", "));
  if (!(wind.return_years > 1))
    add_wind(problems, true,
             "a return period of " + shortest_number(wind.return_years) + " years is impossible",
             "set wind.return_years above 1; 50 is usual");
  if (wind.elevation < kLowestGround || wind.elevation > kHighestGround)
    add_wind(problems, false,
             "an elevation of " + shortest_number(wind.elevation) + " m is where no trees grow",
             "check its unit");
}

}  // namespace rootstead
