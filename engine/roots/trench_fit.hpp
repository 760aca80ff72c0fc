// A trench face on which roots were counted, beside what a law of thick roots says of it.
// The face runs outward from the trunk, cell by cell; counts by thickness class.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "engine/roots/thick_roots.hpp"

namespace rootstead {

struct TrenchFace {
  std::string tree;
  double cell = 0.2;            // m, side of a cell
  std::size_t columns = 0;      // outward from the trunk
  std::size_t rows = 0;         // downward
  std::vector<double> thicker;  // m, lower bound of each class, rising; the last is open
  std::vector<double> counts;   // column, then row, then class
  std::size_t index(std::size_t column, std::size_t row, std::size_t size) const {
    return (column * rows + row) * thicker.size() + size;
  }
};

// What the law expects in each cell, in the order of `counts`; roots below the face are left out.
std::vector<double> expected_counts(const ThickRootLaw& law, const TrenchFace& face);

// One observed shape beside the law's.
struct ShapeFit {
  std::vector<double> observed, expected;
  double correlation = 0;     // Pearson; 0 where either is even
  double rmse = 0;            // of the counts
  double chi_square = 0;      // sum of (o - e)^2 / (crowding e): as many as there are groups, if
                              // the law and its crowding hold
  double relative_error = 0;  // sum of |o - e| over sum of o
};

struct TrenchFit {
  std::string tree;
  double observed = 0, expected = 0;  // roots on the whole face
  ShapeFit by_distance;               // metres of face
  ShapeFit by_depth;                  // rows
  ShapeFit by_size;                   // classes
  ShapeFit by_distance_and_size;      // metres by classes
};

ShapeFit shape_fit(std::vector<double> observed, std::vector<double> expected, double crowding);
TrenchFit trench_fit(const ThickRootLaw& law, const TrenchFace& face);
// The same for any other expectation, such as the mean of other trees.
TrenchFit trench_fit(const std::vector<double>& expected, double crowding, const TrenchFace& face);

}  // namespace rootstead
