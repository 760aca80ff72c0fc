// FieldSource: makes root fields for one tree: the best guess, and draws of what it might be.
// Two kinds: trees that thicken, and palms and their like; nothing else knows which.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/base/random.hpp"
#include "engine/roots/root_field.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

class FieldSource {
 public:
  virtual ~FieldSource() = default;

  virtual RootField central() const = 0;
  // Takes the same number of numbers from the stream every time.
  virtual RootField draw(RandomStream& random) const = 0;

  // The trail: how far, how it thins out, how deep; values are those of central().
  virtual std::vector<Figure> figures() const = 0;
  virtual std::vector<Note> notes() const = 0;
};

// Requires: diameter > 0. `species` may be null.
std::unique_ptr<FieldSource> woody_fields(const Tree& tree, Length diameter, const Species* species,
                                          const Soil& soil, const Tables& tables);

// Palms and other monocots. A missing diameter is filled, with a note.
std::unique_ptr<FieldSource> fibrous_fields(const Tree& tree, std::optional<Length> diameter,
                                            const Species* species, const Soil& soil,
                                            const Tables& tables);

// Shared by both.
// Depth below which no roots are expected: the measured rooting depth where it is less than the
// law's own limit.
double depth_limit(double limit, const Soil& soil);
// Factor on the extent for sand, or wet or compacted ground.
double soil_factor(const Soil& soil, const Tables& tables);
std::vector<Note> soil_notes(const Tree& tree, const Soil& soil);
// Eight gamma multipliers with mean exactly 1 and about this coefficient of variation.
Sectors draw_sectors(double variation, RandomStream& random);
// -1 ... 1, so that the low, best and high of a range become its P10, P50 and P90.
double draw_pressing(RandomStream& random);

}  // namespace rootstead
