// What is impossible or doubtful in what was measured and found at the base of a tree.
#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/text.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/site/plausible.hpp"
#include "engine/site/problem_list.hpp"

namespace rootstead {
namespace {

using namespace plausible;

// The flare and clear trunk of one tree under examination.
class FlareCheck {
 public:
  FlareCheck(const Tree& tree, const Site& site, ProblemList& problems)
      : tree_(tree), site_(site), problems_(problems) {}

  void run() {
    for (const TaperReading& reading : tree_.flare.taper) taper(reading);
    growth_upward();
    if (tree_.flare.found) found(*tree_.flare.found);
    if (tree_.clear_trunk) clear_trunk();
  }

 private:
  void add(bool blocks, NoteCode code, std::string message, std::string remedy) {
    problems_.add({blocks, code, subject_of(tree_), std::move(message), std::move(remedy)});
  }
  void blocks(std::string message, std::string remedy) {
    add(true, NoteCode::flare_doubtful, std::move(message), std::move(remedy));
  }
  void doubtful(std::string message, std::string remedy) {
    add(false, NoteCode::flare_doubtful, std::move(message), std::move(remedy));
  }

  static std::string named(const TaperReading& reading) {
    return to_text(reading.diameter) + " at " + to_text(reading.height);
  }

  void taper(const TaperReading& reading) {
    const std::string name = "the taper reading of " + named(reading);
    if (reading.height.length() < Length()) {
      blocks(name + " lies below ground", "enter its height above the ground as it is today");
    } else if (!(reading.diameter.length() > Length())) {
      blocks(name + " has no diameter above zero", "enter the diameter, or take the reading out");
    } else if (reading.height.length() > kHighestTaper) {
      doubtful(name + " lies above " + metres_text(kHighestTaper) +
                   ", where it says nothing of the flare",
               "check the unit of its height");
    }
  }

  void growth_upward() {
    std::vector<TaperReading> up = tree_.flare.taper;
    std::stable_sort(up.begin(), up.end(), [](const TaperReading& a, const TaperReading& b) {
      return a.height.length() < b.height.length();
    });
    for (std::size_t i = 1; i < up.size(); ++i) {
      const Length below = up[i - 1].diameter.length(), above = up[i].diameter.length();
      if (!(below > Length()) || above <= below * (1 + kTaperSlip)) continue;
      doubtful(
          "the trunk is said to widen upward, from " + named(up[i - 1]) + " to " + named(up[i]),
          "check that heights and diameters are not exchanged");
      return;
    }
  }

  void found(const FlareRecord& record) {
    const auto depth = [this](const std::optional<EnteredLength>& value, const std::string& what) {
      if (!value || value->length() >= Length()) return;
      blocks("the " + what + " of " + to_text(*value) + " is negative",
             "enter depths downward and radii outward as positive");
    };
    depth(record.flare_depth, "depth of the flare");
    depth(record.first_main_root, "depth of the first main root");
    depth(record.excavation_radius, "excavation radius");
    if (record.girdled_share && !(*record.girdled_share >= 0 && *record.girdled_share <= 1))
      blocks("a girdled share of " + shortest_number(*record.girdled_share) +
                 " is none of a circumference",
             "enter a share from 0 to 1");
    if (record.flare_depth) deep(*record.flare_depth);
    check_date(record.date, "date its flare was uncovered", site_, subject_of(tree_), problems_);
  }

  void deep(const EnteredLength& flare) {
    if (flare.length() > kDeepestFlare) {
      doubtful("a flare found at " + to_text(flare) + " is very deep",
               "check the unit and the reading");
      return;
    }
    const auto dug = deepest_at_stem();
    if (!dug || flare.length() <= dug->length()) return;
    doubtful("its flare is said to be found at " + to_text(flare) +
                 ", deeper than was dug beside it, " + to_text(*dug),
             "correct one of the two depths");
  }

  // The depth of the deepest opening of this tree at its stem, where one is recorded.
  std::optional<EnteredLength> deepest_at_stem() const {
    std::optional<EnteredLength> deepest;
    if (!tree_.position) return deepest;
    for (const Evidence& opening : site_.evidence) {
      const bool its =
          opening.tree == tree_.id || (!tree_.tag.empty() && opening.tree == tree_.tag);
      if (!its || !opening.depth || opening.shape.empty()) continue;
      if (distance_between(tree_.position->at, footprint(opening)) > kAtTheFlare) continue;
      if (!deepest || opening.depth->length() > deepest->length()) deepest = opening.depth;
    }
    return deepest;
  }

  void clear_trunk() {
    const std::string trunk = "a clear trunk of " + to_text(*tree_.clear_trunk);
    const auto say = [&](bool blocking, std::string message, std::string remedy) {
      add(blocking, NoteCode::clear_trunk_doubtful, std::move(message), std::move(remedy));
    };
    if (tree_.clear_trunk->length() < Length()) {
      say(true, trunk + " is negative", "enter it from the ground to the lowest leaf base");
    } else if (!tree_.is_monocot() && tree_.form != GrowthForm::unknown) {
      say(false,
          trunk + " is given for a " + std::string(to_text(tree_.form)) +
              "; it is measured on palms only",
          "check the growth form, or enter it as the base of the crown");
    } else if (tree_.height && tree_.clear_trunk->length() > tree_.height->length()) {
      say(false, trunk + " is more than the height of " + to_text(*tree_.height),
          "check both readings and their units");
    }
  }

  const Tree& tree_;
  const Site& site_;
  ProblemList& problems_;
};

}  // namespace

void check_flares(const Site& site, ProblemList& problems) {
  for (const Tree& tree : site.trees) FlareCheck(tree, site, problems).run();
}

}  // namespace rootstead
