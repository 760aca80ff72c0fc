// LossCounter: takings laid on the grounds of a tree's draws once, and asked for every draw.
#pragma once

#include <memory>
#include <vector>

#include "engine/roots/root_draws.hpp"
#include "engine/roots/taken_ground.hpp"

namespace rootstead {

// A taking as rays and grid see it. Kept from one question to the next: where one work of many is
// moved, the others are as they were.
struct SeenTaking {
  GroundTaking taking;
  RayedTaking rayed;
  LaidTaking laid;
};

// Requires: a pressed share in every pressing taking.
SeenTaking seen_taking(const GroundTaking& taking, const RootDraws& draws, const Point& stem);

// Fields sorted into rings for the depths of the works last asked about; a work that moves keeps
// its depth. Only kept of few draws: a thousand take three megabytes a tree.
struct RingedFields {
  std::vector<std::vector<double>> depths;  // by ground
  std::vector<RingedField> fields;
};

class LossCounter {
 public:
  // `draws` must outlive it.
  LossCounter(const RootDraws& draws, const std::vector<std::shared_ptr<SeenTaking>>& takings);

  // A set of the takings, by index. Returns the number of the set.
  std::size_t add(const std::vector<std::size_t>& subset);

  // By field: all roots there are, per those in open ground. The same for every set of takings.
  std::vector<double> all_roots(const std::vector<RootField>& fields) const;
  // By set, then by field: the share of the roots lost. `all` is all_roots of the same fields.
  std::vector<std::vector<double>> count(const std::vector<RootField>& fields,
                                         const std::vector<double>& all) const;
  // The same, with what `kept` has of these fields and for the next time.
  std::vector<std::vector<double>> count(const std::vector<RootField>& fields,
                                         const std::vector<double>& all, RingedFields& kept) const;

 private:
  RingedField ringed(const RootField& field) const;
  void count(const RingedField& ringed, std::size_t ground, double all,
             std::vector<std::vector<double>>& lost) const;

  const RootDraws& draws_;
  std::vector<RayedTaking> rayed_;
  std::vector<WayMarks> marks_;
  std::vector<std::vector<double>> depths_;
  std::vector<std::vector<TakenGround>> sets_;
};

// Of all roots, in every field: the share above a depth; and within a distance of the stem.
std::vector<double> shares_above(const RootDraws& draws, Length depth);
std::vector<double> shares_within(const RootDraws& draws, const Point& stem, Length radius);
// Both at once: in an upright cylinder round the stem.
std::vector<double> shares_in_cylinder(const RootDraws& draws, const Point& stem, Length radius,
                                       Length depth);

}  // namespace rootstead
