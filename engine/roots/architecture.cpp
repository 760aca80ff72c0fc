#include "engine/roots/architecture.hpp"

#include <cmath>
#include <optional>

#include "engine/roots/field_source.hpp"
#include "engine/roots/root_grower.hpp"
#include "engine/roots/root_model.hpp"
#include "engine/site/diameter.hpp"

namespace rootstead {
namespace {

constexpr std::string_view kStreamName = "/architecture";  // after the tree's id

RootArchitecture drawn_type(const Species* species, const Tables& tables, RandomStream& random) {
  const double u = random.uniform();
  if (species && species->architecture != RootArchitecture::unknown) return species->architecture;
  const double heart = tables.parameter("roots.unknown_share_heart").best;
  const double plate = tables.parameter("roots.unknown_share_plate").best;
  if (u < heart) return RootArchitecture::heart;
  return u < heart + plate ? RootArchitecture::plate : RootArchitecture::tap;
}

std::string_view down_share(RootArchitecture architecture) {
  if (architecture == RootArchitecture::plate) return "architecture.down_share_plate";
  if (architecture == RootArchitecture::tap) return "architecture.down_share_tap";
  return "architecture.down_share_heart";
}

// The central law, with the sectors and the number of main roots of one draw: which side has more
// is this system's own lot, how much there is in all is not.
ThickRootLaw lotted_law(const ThickRootSource& source, const FieldSource& fields,
                        RandomStream& random) {
  ThickRootLaw law = source.central(fields.central());
  const RootField field = fields.draw(random);
  const ThickRootLaw draw = source.draw(field, random);
  law.sectors = draw.sectors;
  law.main_roots = draw.main_roots;
  return law;
}

void grow_woody(Growing& growing, const Species* species) {
  const RootArchitecture architecture = drawn_type(species, growing.tables, growing.random);
  const double down = growing.best(down_share(architecture));
  grow_downward(growing, architecture, down);
  grow_laterals(growing, 1 - down);
  grow_aerial(growing);
}

}  // namespace

std::string_view to_text(RootKind kind) {
  switch (kind) {
    case RootKind::lateral:
      return "lateral";
    case RootKind::oblique:
      return "oblique root";
    case RootKind::sinker:
      return "sinker";
    case RootKind::tap:
      return "taproot";
    case RootKind::prop:
      return "prop root";
    case RootKind::aerial:
      return "aerial root";
    case RootKind::palm:
      return "palm root";
  }
  return "root";
}

Result<RootSystem> grow_roots(const Tree& tree, const Site& site, const Tables& tables,
                              std::uint64_t seed, Length thinnest) {
  // The same refusals as the estimate of fine roots.
  ROOTSTEAD_CHECK(root_model(tree, site, tables));
  const Species* species = tables.species_of(tree.botanical_name);
  const auto diameter = combined_diameter(tree, {});
  const Point stem = tree.position->at;
  RandomStream random(seed, tree.id + std::string(kStreamName));
  if (roots_like_a_palm(tree, species)) {
    const std::optional<Length> trunk = diameter ? std::optional(*diameter) : std::nullopt;
    const double reach =
        extent_of(fibrous_fields(tree, trunk, species, site.soil, tables)->central().spread);
    Growing growing{tree, site, tables, stem, {}, 0, Walls(site, stem, reach), random, {}};
    grow_palm(growing, species, trunk);
    return std::move(growing.roots);
  }
  const auto fields = woody_fields(tree, *diameter, species, site.soil, tables);
  const ThickRootSource source(tree, *diameter, species, tables);
  const ThickRootLaw law = lotted_law(source, *fields, random);
  Growing growing{tree,   site, tables, stem, law, thinnest.metres(), Walls(site, stem, law.extent),
                  random, {}};
  grow_woody(growing, species);
  return std::move(growing.roots);
}

std::vector<Crossing> crossings(const RootSystem& roots, const Point& a, const Point& b) {
  std::vector<Crossing> found;
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  if (length <= 0) return found;
  const Point unit{(b.x - a.x) / length, (b.y - a.y) / length};
  // Along the plane, and to its left.
  const auto along = [&](const Place3& p) { return (p.x - a.x) * unit.x + (p.y - a.y) * unit.y; };
  const auto aside = [&](const Place3& p) { return (p.y - a.y) * unit.x - (p.x - a.x) * unit.y; };
  for (std::size_t i = 0; i < roots.pieces.size(); ++i) {
    const RootPiece& piece = roots.pieces[i];
    const double from = aside(piece.from), to = aside(piece.to);
    if ((from < 0) == (to < 0)) continue;
    const double part = from / (from - to);
    const double place = std::lerp(along(piece.from), along(piece.to), part);
    if (place < 0 || place > length) continue;
    found.push_back({place, std::lerp(piece.from.z, piece.to.z, part),
                     std::lerp(piece.thickness_from, piece.thickness_to, part),
                     static_cast<int>(i)});
  }
  return found;
}

}  // namespace rootstead
