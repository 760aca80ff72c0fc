// BoreAdvice: beneath the roots instead of through them: where along its line a work must run below
// the roots of which trees, how deep, and where the pits may stand.
// Sources and limits: docs/methods/cutting.md. Soil, groundwater, services and the machine decide
// whether a bore is possible: this says only what the roots ask for.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/anchorage/anchorage.hpp"
#include "engine/base/note.hpp"
#include "engine/base/prescription.hpp"
#include "engine/base/result.hpp"
#include "engine/cutting/auger_table.hpp"
#include "engine/roots/root_model.hpp"
#include "engine/site/site.hpp"

namespace rootstead {

// How near to one tree a trench or pit may come before it must be a bore.
struct BoreClearance {
  std::string tree;
  bool palm = false;
  std::optional<Length> diameter;  // of woody trees
  Length from_trunk;               // the governing distance, from the trunk face
  Length trunk_radius;
  Length from_centre;                   // both together
  std::vector<AugerDistance> versions;  // woody trees: side by side
  std::vector<Figure> figures;
};
// Fails with missing_measurement for a woody tree without a stem diameter.
Result<BoreClearance> bore_clearance(const Tree& tree, const Tables& tables);

// Those of all trees of a site, in its order; nothing for trees that fail. Worked out once, they
// serve every work and tree of it.
struct BoreClearances {
  std::vector<std::optional<BoreClearance>> of_tree;
};
BoreClearances bore_clearances(const Site& site, const Tables& tables);

// Whether a trench or bore with a line comes so near to the tree that BoreAdvice is needed.
bool comes_within(const BoreClearance& clearance, const Tree& tree, const Work& work);

// One rule of how deep the crown of the bore must lie.
struct BoreDepth {
  std::string rule;  // "24 in at least", ...
  Length depth;      // to the crown of the bore
  bool applies = false;
  bool asked = false;  // a demand; else a preference that is shown beside it
  Figure figure;
};

// Every rule, for a line whose nearest point is `nearest` from the trunk face. `diameter`: nothing
// for palms, which count as larger trees.
std::vector<BoreDepth> bore_depths(std::optional<Length> diameter, Length nearest,
                                   const Tables& tables);

// A piece of the work's line, counted along it from its first point.
struct BoreStretch {
  std::size_t line = 0;     // of the work's lines
  double from = 0, to = 0;  // m along it
  std::vector<std::string> trees;
  Length depth;  // the deepest that any of them asks for
  // Where the line does not leave the distance before its end: the work cannot start or end in open
  // ground there.
  bool begins_inside = false, ends_inside = false;
};

// Where the face of a pit may stand that looks along the bore.
struct BorePit {
  std::size_t line = 0;
  double chainage = 0;  // m along it
  Point at;
  bool clear = false;  // outside the distances of all trees; else the line ends inside
};

struct BoreAdvice {
  std::string tree, work;
  bool needed = false;  // the line comes within this tree's distance
  std::optional<BoreClearance> clearance;
  std::optional<Error> no_clearance;   // why there is none
  std::optional<Length> nearest;       // of the line, from the trunk face
  std::vector<BoreDepth> depths;       // by rule, for this tree
  Length depth;                        // the deepest demanded: of the crown of the bore
  std::vector<BoreStretch> stretches;  // of the whole line, by all trees of the site
  std::vector<BorePit> pits;           // both ends of each stretch
  std::vector<Figure> figures;
  std::vector<Prescription> prescriptions;  // topic "bore"
  std::vector<Note> notes;
};

// For trenches and bores with a line; other works, and trees without a position, get only the
// clearance. Sentences in the units of site.settings.
BoreAdvice bore_advice(const Tree& tree, const Work& work, const Site& site, const Tables& tables);
// The same with `clearances` of this site at hand.
BoreAdvice bore_advice(const Tree& tree, const Work& work, const Site& site,
                       const BoreClearances& clearances, const Tables& tables);

// The same work dug, and bored as advised, by the engine's own losses: this work alone. Two answers
// each, health and stability.
struct TrenchOrBore {
  Range trench_loss, bore_loss;                 // share of absorbing roots
  std::optional<Range> trench_kept, bore_kept;  // anchorage, where it can be worked out
  std::vector<Work> bored;  // as counted: what stays a trench, then the bore with its pits
  std::vector<Figure> figures;
};
// Fails with missing_measurement as the root model does, and with outside_rule_domain where the
// work has no line.
Result<TrenchOrBore> trench_or_bore(const Tree& tree, const Work& work, const Site& site,
                                    const Tables& tables, const RootSimulation& how);

}  // namespace rootstead
