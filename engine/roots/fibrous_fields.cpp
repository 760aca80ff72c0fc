// Palms and other monocots: thin roots that never thicken, from the face of the trunk, by absolute
// distances. The trunk's radius says where roots begin and nothing more.
#include <algorithm>

#include "engine/base/text.hpp"
#include "engine/roots/field_source.hpp"
#include "engine/roots/soil_depth.hpp"
#include "engine/tables/distribution.hpp"

namespace rootstead {
namespace {

constexpr double kLowestTopShare = 0.50, kHighestTopShare = 0.98;

struct FibrousConstants {
  Distribution reach, near_share, near_length, far_length, depth_limit, top_share;
  double face_per_radius = 1, sector_variation = 0;
};

class FibrousFields final : public FieldSource {
 public:
  FibrousFields(const Tree& tree, std::optional<Length> diameter, const Species* species,
                const Soil& soil, const Tables& tables);

  RootField central() const override;
  RootField draw(RandomStream& random) const override;
  std::vector<std::string> input_ids() const override;
  std::vector<Figure> figures() const override;
  std::vector<Note> notes() const override;

 private:
  DepthLaw depth(double top_share, double limit) const;
  bool large() const;
  std::string_view reach_id() const { return large() ? "palms.reach_large" : "palms.reach_small"; }

  const Tree& tree_;
  bool diameter_known_;
  double trunk_radius_;
  std::optional<double> species_top_share_;
  const Soil& soil_;
  const Tables& tables_;
  std::vector<DepthStep> steps_;
  FibrousConstants constants_;
};

FibrousFields::FibrousFields(const Tree& tree, std::optional<Length> diameter,
                             const Species* species, const Soil& soil, const Tables& tables)
    : tree_(tree),
      diameter_known_(diameter.has_value()),
      trunk_radius_(
          (diameter ? diameter->metres() : tables.parameter("palms.trunk_diameter").best) / 2),
      species_top_share_(species ? species->palm_top_share : std::nullopt),
      soil_(soil),
      tables_(tables),
      steps_(depth_steps(soil, tables)) {
  const auto spread = [&](std::string_view id) { return distribution_of(tables, id); };
  constants_ = {spread(reach_id()),
                spread("palms.near_share"),
                spread("palms.near_length"),
                spread("palms.far_length"),
                spread("palms.depth_limit"),
                spread("palms.top_share"),
                tables.parameter("palms.root_zone_per_radius").best,
                tables.parameter("roots.sector_variation").best};
}

// A palm of unknown height counts as large: the longer reach is the careful side.
bool FibrousFields::large() const {
  if (!tree_.height) return true;
  return tree_.height->length().metres() >= tables_.parameter("palms.large_from_height").best;
}

DepthLaw FibrousFields::depth(double top_share, double limit) const {
  const double clamped = std::clamp(top_share, kLowestTopShare, kHighestTopShare);
  return {beta_of_top_share(clamped), 0, rootstead::depth_limit(limit, soil_, tables_), steps_};
}

RootField FibrousFields::central() const {
  const FibrousConstants& c = constants_;
  const double face = trunk_radius_ * c.face_per_radius;
  RootField field;
  field.spread = FibrousSpread{face, face + c.reach.best(), c.near_share.best(),
                               c.near_length.best(), c.far_length.best()};
  field.depth = depth(species_top_share_.value_or(c.top_share.best()), c.depth_limit.best());
  return field;
}

RootField FibrousFields::draw(RandomStream& random) const {
  const FibrousConstants& c = constants_;
  const double face = trunk_radius_ * c.face_per_radius;
  const double reach = c.reach.draw(random);
  const double near_share = c.near_share.draw(random);
  const double near_length = c.near_length.draw(random);
  const double far_length = c.far_length.draw(random);
  // A species' own share keeps the scatter of the general one.
  const double scatter = c.top_share.draw(random) - c.top_share.best();
  const double top_share = species_top_share_.value_or(c.top_share.best()) + scatter;
  RootField field;
  field.spread = FibrousSpread{face, face + reach, near_share, near_length, far_length};
  const double deepest = c.depth_limit.draw(random);
  field.depth = depth(top_share, deepest);
  field.sectors = draw_sectors(c.sector_variation, random);
  field.pressing = draw_pressing(random);
  field.leak = draw_pressing(random);
  field.inputs = {reach, near_share, near_length, far_length, top_share, deepest, 0};
  return field;
}

std::vector<std::string> FibrousFields::input_ids() const {
  return {std::string(reach_id()),
          "palms.near_share",
          "palms.near_length",
          "palms.far_length",
          "palms.top_share",
          "palms.depth_limit",
          ""};
}

std::vector<Figure> FibrousFields::figures() const {
  const RootField field = central();
  Figure extent;
  extent.name = "roots.extent";
  extent.value = extent_of(field.spread);
  extent.unit = "m";
  extent.inputs = {{"rt", "trunk radius", fixed_number(trunk_radius_, 3) + " m"},
                   input_from(tables_.parameter(reach_id()), "reach"),
                   input_from(tables_.parameter("palms.near_share"), "w"),
                   input_from(tables_.parameter("palms.near_length"), "l1"),
                   input_from(tables_.parameter("palms.far_length"), "l2")};
  extent.formula =
      "R = 1.1 rt + reach; share of roots longer than x from the trunk: "
      "w exp(-x / l1) + (1 - w) exp(-x / l2), cut off at the reach";
  extent.from = {"rootstead", "docs/methods/roots.md", Status::assumption};

  Figure depth_law;
  depth_law.name = "roots.depth-beta";
  depth_law.value = field.depth.beta;
  depth_law.inputs = {{"t", "share of roots in the upper 30 of 60 cm",
                       shortest_number(species_top_share_.value_or(constants_.top_share.best())) +
                           (species_top_share_ ? " for this species" : " for palms in general")},
                      {"zmax", "deepest roots", fixed_number(field.depth.limit, 2) + " m"}};
  depth_law.formula = "b^30 = (1 - t) / t; share above d cm = (1 - b^d) / (1 - b^zmax)";
  depth_law.from = {"hodel-2005", "Table 5", Status::assumption};
  return {extent, depth_law};
}

std::vector<Note> FibrousFields::notes() const {
  std::vector<Note> notes = soil_notes(tree_, soil_);
  notes.push_back({NoteCode::palm_model, tree_.label(),
                   tree_.form == GrowthForm::other_monocot
                       ? "roots of this monocot are drawn as those of a palm: thin, unthickened, "
                         "by distance from the trunk; no study of its own was found"
                       : "palm roots are drawn by distance from the trunk, never by its "
                         "thickness"});
  if (!diameter_known_)
    notes.push_back({NoteCode::diameter_missing, tree_.label(),
                     "no trunk diameter is recorded: roots are taken to begin at the face of a "
                     "trunk of " +
                         fixed_number(2 * trunk_radius_, 2) + " m"});
  if (!species_top_share_)
    notes.push_back({NoteCode::depth_assumed, tree_.label(),
                     "the depth of this species' roots is not in the tables: the mean of sixteen "
                     "palms is used"});
  return notes;
}

}  // namespace

std::unique_ptr<FieldSource> fibrous_fields(const Tree& tree, std::optional<Length> diameter,
                                            const Species* species, const Soil& soil,
                                            const Tables& tables) {
  return std::make_unique<FibrousFields>(tree, diameter, species, soil, tables);
}

}  // namespace rootstead
