#include "engine/soil/soil_figures.hpp"

#include <algorithm>
#include <iterator>

#include "engine/soil/soil_by_hand.hpp"

namespace rootstead {

std::vector<HandFigure> soil_figures(const Tables& tables) {
  std::vector<HandFigure> all = soil_by_hand::texture_figures(tables);
  const auto take = [&](std::vector<HandFigure> more) {
    std::move(more.begin(), more.end(), std::back_inserter(all));
  };
  take(soil_by_hand::stress_figures());
  take(soil_by_hand::strength_figures(tables));
  take(soil_by_hand::air_figures(tables));
  return all;
}

}  // namespace rootstead
