#include "engine/anchorage/standing.hpp"

#include <algorithm>

#include "engine/roots/root_model.hpp"
#include "engine/site/diameter.hpp"

namespace rootstead {
namespace {

constexpr Length kLeastRooting = Length::metres(0.05);  // a record of less is a slip

std::optional<Length> deepest_root(const Soil& soil) {
  std::optional<Length> deepest;
  for (const auto& depth : {soil.rooting_depth, soil.water_table}) {
    if (!depth) continue;
    const Length limit = std::max(depth->length(), kLeastRooting);
    deepest = deepest ? std::min(*deepest, limit) : limit;
  }
  return deepest;
}

}  // namespace

std::string_view class_word(RootArchitecture architecture) {
  switch (architecture) {
    case RootArchitecture::plate:
      return "plate";
    case RootArchitecture::tap:
      return "tap";
    case RootArchitecture::heart:
    case RootArchitecture::unknown:
      return "heart";
  }
  return "heart";
}

AnchorageShares anchorage_shares(RootArchitecture architecture, bool palm, const Tables& tables) {
  const std::string prefix =
      "anchorage." + std::string(palm ? "palm" : class_word(architecture)) + "_";
  const auto best = [&](std::string_view name) { return tables.parameter(name).best; };
  const auto own = [&](std::string_view name) { return best(prefix + std::string(name)); };
  AnchorageShares shares;
  shares.tension = own("tension");
  shares.central = own("central");
  shares.plate = own("plate");
  shares.hinge = own("hinge");
  shares.u0 = own("u0");
  shares.u0_hinge = own("u0_hinge");
  shares.hinge_offset = best("anchorage.hinge_offset");
  shares.depth_scale = Length::metres(best("anchorage.depth_scale"));
  shares.plate_radius_per_unit = best("anchorage.plate_radius_per_diameter");
  if (palm) shares.unit = Length::metres(best("anchorage.palm_unit"));
  return shares;
}

AnchorageShares Standing::shares_of(RootArchitecture a) const {
  AnchorageShares shares = anchorage_shares(a, palm, tables);
  shares.deepest = deepest;
  return shares;
}

Result<Standing> standing_of(const Tree& tree, const Tables& tables, const Soil& soil) {
  if (!tree.position)
    return Error{Code::missing_measurement, "tree " + tree.label(),
                 "it has no position, so no cut can be placed against it", "enter its position"};
  const Species* species = tables.species_of(tree.botanical_name);
  Standing standing{tree, tables, {}};
  standing.palm = roots_like_a_palm(tree, species);
  const auto diameter = combined_diameter(tree, {});
  if (!diameter && !standing.palm) return diameter.error();
  standing.diameter_known = diameter.ok();
  standing.diameter =
      diameter ? *diameter : Length::metres(tables.parameter("palms.trunk_diameter").best);
  standing.form = tree.form;
  if (standing.form == GrowthForm::unknown && species) standing.form = species->form;
  if (species) standing.architecture = species->architecture;
  standing.architecture_known = standing.architecture != RootArchitecture::unknown;
  standing.deepest = deepest_root(soil);
  standing.shallow_soil =
      standing.deepest &&
      *standing.deepest < Length::metres(tables.parameter("anchorage.shallow_rooting").best);
  if (standing.shallow_soil) standing.architecture = RootArchitecture::plate;
  if (standing.architecture == RootArchitecture::unknown)
    standing.architecture = RootArchitecture::heart;
  return standing;
}

}  // namespace rootstead
