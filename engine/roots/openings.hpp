// Openings: pits and air trenches as the roots of one stem meet them, and how well each draw of the
// thick roots foretells what was found in them. Bayes' rule on draws: a draw weighs as much as it
// made the find likely.
// Sources: docs/methods/evidence.md. Counts are negative binomial (engine/roots/thick_roots.hpp).
#pragma once

#include <string>
#include <vector>

#include "engine/base/note.hpp"
#include "engine/roots/thick_roots.hpp"
#include "engine/site/site.hpp"

namespace rootstead {

// The near side of an opening as seen from a stem: rays that meet it, with where they do.
class OpeningFace {
 public:
  OpeningFace(const Point& stem, const MultiPolygon& opening, Length depth, double reach);

  bool met() const { return !rays_.empty(); }
  // Mean number of roots from `thinnest` up to below `thickest` metres that cross the near side.
  double expected(const ThickRootLaw& law, double thinnest, double thickest) const;

 private:
  struct Ray {
    double distance = 0, width = 0;  // m from the stem centre; m across the ray
    Sectors weights{};
  };
  std::vector<Ray> rays_;
  double depth_;
};

// What bears on one tree: what names it, and what names none and lies nearer to it than to others.
std::vector<const Evidence*> evidence_for(const Tree& tree, const Site& site);

struct DrawWeights {
  std::vector<double> weights;     // mean 1; empty where nothing was found that bears on the tree
  double effective_draws = 0;      // (sum w)^2 / sum w^2
  std::vector<std::string> used;   // ids of evidence
  std::vector<std::string> apart;  // ids that reach no roots of any draw, or are of dead roots only
};

// Requires: tree.position; one law a draw.
DrawWeights weigh_draws(const Tree& tree, const Site& site, const std::vector<ThickRootLaw>& laws);

// ln of the chance that a draw gives the find; 0 where the opening meets no ray.
double log_chance_of(const Evidence& evidence, const OpeningFace& face, const ThickRootLaw& law);

}  // namespace rootstead
