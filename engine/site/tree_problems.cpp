// What is missing, impossible or doubtful in each tree by itself, and double ids and tags.
#include <cmath>
#include <numbers>
#include <string>
#include <unordered_map>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/site/plausible.hpp"
#include "engine/site/problem_list.hpp"

namespace rootstead {
namespace {

using namespace plausible;

constexpr std::string_view kTrees = "trees";

// One tree under examination.
class TreeCheck {
 public:
  TreeCheck(const Tree& tree, ProblemList& problems) : tree_(tree), problems_(problems) {}

  void run() {
    problems_.count(tree_.origin, kTrees);
    position();
    stems();
    height();
    crown();
    state();
    names();
  }

 private:
  void blocks(NoteCode code, std::string message, std::string remedy) {
    problems_.add({true, code, subject_of(tree_), std::move(message), std::move(remedy)});
  }
  void doubtful(NoteCode code, std::string message, std::string remedy) {
    problems_.add({false, code, subject_of(tree_), std::move(message), std::move(remedy)});
  }
  void absent(bool blocking, NoteCode code, std::string message, std::string remedy) {
    problems_.add_absent({blocking, code, subject_of(tree_), std::move(message), std::move(remedy)},
                         tree_.origin, kTrees);
  }

  void position() {
    if (!tree_.position) {
      absent(true, NoteCode::position_missing, "no position, so no work can be weighed against it",
             "measure the stem's position and enter it");
    } else if (!is_finite(tree_.position->at)) {
      blocks(NoteCode::position_missing, "the position is not a pair of numbers",
             "enter easting and northing");
    }
  }

  void stems() {
    // Palms and their like are never judged by their stem.
    if (tree_.stems.empty()) {
      absent(!tree_.is_monocot(), NoteCode::diameter_missing, "no stem diameter",
             "measure the diameter or girth of each stem and enter it");
    }
    for (std::size_t i = 0; i < tree_.stems.size(); ++i) stem(tree_.stems[i], stem_name(i));
  }

  std::string stem_name(std::size_t i) const {
    return tree_.stems.size() == 1 ? "the stem" : "stem " + std::to_string(i + 1);
  }

  void stem(const Stem& stem, const std::string& name) {
    const std::string entered = to_text(stem.size);
    const std::string read = stem.read == Stem::Read::girth ? "girth" : "diameter";
    const Length diameter = stem.diameter();
    if (!(diameter > Length())) {
      blocks(NoteCode::diameter_missing, name + "'s " + read + " is " + entered,
             "enter a " + read + " above zero, or remove the stem");
    } else if (girth_likely(stem)) {
      girth(stem, name);
    } else if (diameter > kImpossibleDiameter) {
      blocks(NoteCode::diameter_doubtful, name + "'s " + read + " of " + entered + " is impossible",
             "check the unit and the reading");
    } else if (diameter > kDoubtfulDiameter) {
      doubtful(NoteCode::diameter_doubtful,
               name + "'s " + read + " of " + entered + " is very rare",
               "check the unit, and that a girth is not entered as a diameter");
    } else {
      proportions(diameter, name, entered);
    }
  }

  // Too stout for the height as a diameter, but not as a girth?
  bool girth_likely(const Stem& stem) const {
    if (stem.read == Stem::Read::girth || tree_.is_monocot() || !tall_enough_to_judge())
      return false;
    const double stoutness = stem.diameter() / tree_.height->length();
    return stoutness > kStoutest && stoutness / std::numbers::pi <= kStoutest;
  }

  void girth(const Stem& stem, const std::string& name) {
    const bool impossible = stem.diameter() > kImpossibleDiameter;
    const double parts = stem.size.unit == LengthUnit::metre ? 100 : 10;  // no finer than a tape
    const EnteredLength as_girth{std::round(stem.size.value / std::numbers::pi * parts) / parts,
                                 stem.size.unit};
    problems_.add({impossible, NoteCode::girth_suspected, subject_of(tree_),
                   name + "'s diameter of " + to_text(stem.size) +
                       " is too stout for a height of " + to_text(*tree_.height) +
                       " and may be its girth",
                   "if it is, enter it as girth: the diameter is then " + to_text(as_girth)});
  }

  void proportions(Length diameter, const std::string& name, const std::string& entered) {
    if (tree_.is_monocot() || !tall_enough_to_judge()) return;
    const double stoutness = diameter / tree_.height->length();
    const std::string pair = entered + " with a height of " + to_text(*tree_.height);
    if (stoutness > kStoutest) {
      doubtful(NoteCode::diameter_doubtful, name + " is very stout: " + pair,
               "check both readings and their units");
    } else if (stoutness < 1 / kMostSlender) {
      doubtful(NoteCode::diameter_doubtful, name + " is very slender: " + pair,
               "check both readings and their units");
    }
  }

  // Stumps, pollards and saplings have proportions of their own.
  bool tall_enough_to_judge() const {
    constexpr Length kLeast = Length::metres(3);
    return tree_.height && tree_.height->length() >= kLeast &&
           tree_.height->length() <= kImpossibleHeight && tree_.condition != Condition::dead;
  }

  void height() {
    if (!tree_.height) return;
    const Length height = tree_.height->length();
    const std::string text = "the height of " + to_text(*tree_.height);
    if (!(height > Length())) {
      blocks(NoteCode::height_doubtful, text + " is not above zero",
             "enter the height, or leave it empty");
    } else if (height > kImpossibleHeight) {
      blocks(NoteCode::height_doubtful, text + " is more than any living tree's",
             "check the unit and the reading");
    } else if (height > kDoubtfulHeight) {
      doubtful(NoteCode::height_doubtful, text + " is very rare", "check the unit and the reading");
    }
  }

  void crown() {
    if (!tree_.crown || !(tree_.crown->largest_radius() > Length())) {
      absent(false, NoteCode::crown_missing,
             "no crown radius, so rules by the crown cannot be used",
             "measure the crown in four directions");
      return;
    }
    for (const EnteredLength& radius : tree_.crown->radius) {
      if (radius.length() < Length()) {
        blocks(NoteCode::crown_doubtful, "a crown radius is " + to_text(radius),
               "enter crown radii of zero or more");
        return;
      }
    }
    const Length largest = tree_.crown->largest_radius();
    if (largest > kDoubtfulCrownRadius) {
      doubtful(NoteCode::crown_doubtful,
               "a crown radius of " + metres_text(largest) + " is very rare",
               "check the unit, and that a diameter is not entered as a radius");
    } else if (tree_.height && tree_.height->length() > Length() &&
               largest > tree_.height->length()) {
      doubtful(NoteCode::crown_doubtful,
               "the crown radius of " + metres_text(largest) + " is more than the height of " +
                   to_text(*tree_.height),
               "check that a diameter is not entered as a radius");
    }
  }

  void state() {
    if (tree_.condition == Condition::dead) {
      doubtful(NoteCode::tree_dead, "the tree is recorded as dead",
               "see whether it is to be kept for wildlife or removed");
    }
    if (tree_.flare.state == Flare::State::buried) {
      const auto& by = tree_.flare.buried_by;
      doubtful(NoteCode::flare_buried,
               "the root flare is buried" + (by ? " by " + to_text(*by) : std::string()),
               "uncover it and look at the root collar before any work is planned");
    }
  }

  void names() {
    if (tree_.tag.empty()) {
      absent(false, NoteCode::tag_missing, "no tag", "give the tree a tag that is found on site");
    }
    if (tree_.botanical_name.empty() && tree_.common_name.empty()) {
      absent(false, NoteCode::species_missing, "no species, so its tolerance is not known",
             "enter the botanical name");
    }
    if (tree_.form == GrowthForm::unknown) {
      absent(false, NoteCode::form_unknown,
             "it is not said whether the tree is a broadleaf, a conifer, a palm or another monocot",
             "enter the growth form: palms follow other rules");
    }
  }

  const Tree& tree_;
  ProblemList& problems_;
};

// Names that occur twice: the first one keeps the name, each later one is a problem.
class Doubles {
 public:
  explicit Doubles(std::string_view what) : what_(what) {}

  // Was this name seen before?
  bool look_at(const std::string& name, const Tree& tree, ProblemList& problems) {
    if (name.empty()) return false;
    const auto [first, fresh] = seen_.try_emplace(name, &tree);
    if (fresh) return false;
    problems.add({true, NoteCode::tag_duplicate, subject_of(tree),
                  "the " + what_ + " " + name + " is already that of " + subject_of(*first->second),
                  "give each tree its own " + what_});
    return true;
  }

 private:
  std::string what_;
  std::unordered_map<std::string, const Tree*> seen_;
};

}  // namespace

void check_trees(const Site& site, ProblemList& problems) {
  Doubles ids("id"), tags("tag");
  for (const Tree& tree : site.trees) {
    TreeCheck(tree, problems).run();
    const bool told = ids.look_at(tree.id, tree, problems) && tree.id == tree.tag;
    if (!told) tags.look_at(tree.tag, tree, problems);
  }
}

}  // namespace rootstead
