// Can this tree be moved, and how: feasibility with reasons, ball, weights, what it costs in roots,
// how long it takes to recover, and the prescriptions in the order of the work.
// Health and lifting only: whether the tree stands afterwards is for bracing and inspection.
// Domain: trees of nursery to semi-mature size. What is larger than the tables gets no ball figure.
// Sources: docs/methods/transplant.md, docs/methods/palms_moved.md.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/note.hpp"
#include "engine/base/prescription.hpp"
#include "engine/base/result.hpp"
#include "engine/roots/root_model.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

enum class Feasibility { favourable, with_preparation, doubtful, not_advised };
std::string_view to_text(Feasibility feasibility);  // "possible with preparation" ...

struct MovingReason {
  std::string topic;  // "species", "size", "history", "condition", "life stage", "season"
  Feasibility weighs = Feasibility::favourable;
  std::string text;  // one sentence
  Citation from;
  bool sources_disagree = false;
};

enum class MovingRules { woody, palm, other_monocot };  // which rules the tree was advised by

struct MovedBall {
  Range diameter_m, depth_m, weight_kg;
  bool wider_than_road = false;  // than what travels without a permit
};

struct TransplantAdvice {
  std::string tree;
  MovingRules rules = MovingRules::woody;
  Feasibility feasibility = Feasibility::favourable;  // the worst that any reason weighs
  std::vector<MovingReason> reasons;

  std::optional<MovedBall> ball;
  std::string no_ball;                   // where there is none: why, and what a specialist decides
  std::optional<Range> total_weight_kg;  // ball, stem and crown
  std::optional<Range> roots_moved;      // share of absorbing roots, by our root model
  std::optional<Range> establishment_months;  // irrigated
  std::vector<Figure> figures;                // all of them, each with its trail

  // In the order of the work.
  std::vector<Prescription> before, lifting_day, planting, after;
  std::vector<Note> notes;

  std::vector<Prescription> prescriptions() const;  // the four in order
};

// Puts what engine/water prescribes for the moved ball behind the general words on irrigation.
void add_watering(TransplantAdvice& advice, std::vector<Prescription> watering);

// Works out the advice whatever the intent of the tree is. Fails with missing_measurement where
// nothing at all can be said (a woody tree without a stem size). A dead tree gets no prescriptions.
Result<TransplantAdvice> transplant_advice(const Tree& tree, const Site& site, const Tables& tables,
                                           const RootSimulation& how = {});

}  // namespace rootstead
