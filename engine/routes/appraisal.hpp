// Appraisal: what a way of building a work really takes, by the whole model: each tree's fine roots
// and anchorage with it and without it, among all other works of the site, and its money.
//
// Two answers stay two: `loss` is health, `kept` is stability. Their weights in money only put
// routes in order; they are told apart.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/assess/live_assessment.hpp"
#include "engine/routes/search.hpp"

namespace rootstead {

inline EnteredLength in_metres(double metres) {
  return {metres, LengthUnit::metre};
}

// What one tree pays.
struct TreeToll {
  std::string tree;                         // id
  Range loss, loss_without;                 // fine roots, with the work and with all others alone
  std::optional<Range> kept, kept_without;  // anchorage, in the weakest direction
  double near_metres = 0;                   // dug nearer than the least distance for cuts
  // By the verdict, in which hand digging counts as digging.
  Action action = Action::undecided, action_without = Action::undecided;
  Concern vitality = Concern::unknown, stability = Concern::unknown;
  double roots_cost = 0, hold_cost = 0, near_cost = 0;  // weights in money
  double cost() const { return roots_cost + hold_cost + near_cost; }
};

struct Appraisal {
  std::vector<TreeToll> trees;  // those that pay anything, dearest first
  double building = 0;          // money
  double length = 0;            // m
  double roots_lost = 0;        // sum of best estimates over trees: 0.5 is half of one tree's roots
  double hold_lost = 0;         // the same of anchorage
  double trees_cost() const;
  double total() const { return building + trees_cost(); }
};

// A way of building: works that take the place of one, of which those dug by hand or air keep a
// share of what they would sever, and what building them costs.
struct Design {
  std::vector<Work> works;
  double building = 0, length = 0;
};

// A route as works; `drawn` gives what is not said by the route. Ids are made from its own.
Design design_of(const RouteWay& way, const Work& drawn, const LineSize& size,
                 const RoutePrices& prices, const SearchOptions& options);
LineSize line_size_of(const Work& work, const Tables& tables);

class Appraiser {
 public:
  // `work` is taken out of the site. Fails as assess() does. Tables must outlive it.
  static Result<Appraiser> start(const Site& site, const Work& work, const Tables& tables,
                                 const RoutePrices& prices, const RootSimulation& how);
  Appraiser(Appraiser&&) noexcept;
  Appraiser& operator=(Appraiser&&) noexcept;
  ~Appraiser();

  Appraisal appraise(const Design& design);
  // The same trees as assess() says of the site with these works in it, no credit for hand digging.
  std::vector<TreeAssessment> assessed(const std::vector<Work>& works);
  const std::vector<TreeAssessment>& without() const;  // in the order of the site's trees
  const Site& site() const;                            // with the works that were asked about last
  const Tables& tables() const;

 private:
  struct State;
  explicit Appraiser(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

// From the stem's centre, how near a cut may come without weight; 0 where no distance is known.
// In the order of the site's trees.
std::vector<double> least_from_centre(const Site& site, const Tables& tables);

}  // namespace rootstead
