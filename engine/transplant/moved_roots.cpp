#include "engine/transplant/moved_roots.hpp"

#include "engine/base/text.hpp"
#include "engine/transplant/trail.hpp"

namespace rootstead {
namespace {

Figure published(const Tables& tables, const char* measure, const char* id, const char* meaning) {
  const Parameter& share = tables.parameter(id);
  return Trail(std::string("transplant.moved-") + measure, "")
      .formula(meaning)
      .by(share, "share")
      .is(range_of(share));
}

}  // namespace

std::vector<Figure> published_shares_moved(const Tables& tables) {
  return {published(tables, "soil-volume", "transplant.moved.volume",
                    "by volume of soil with roots; not to be set beside the others"),
          published(tables, "length", "transplant.moved.length", "by length of root"),
          published(tables, "surface", "transplant.moved.surface", "by surface of root"),
          published(tables, "weight", "transplant.moved.weight",
                    "by weight of root, stems up to 20 cm"),
          published(tables, "weight-thin-stems", "transplant.moved.weight_thin",
                    "by weight of root, stems up to 6 cm")};
}

Result<Figure> share_in_ball(const Tree& tree, const Site& site, const Tables& tables,
                             Length radius, Length depth, const RootSimulation& how) {
  Tree placed = tree;
  Site open;  // for a tree whose place nobody wrote down
  open.soil = site.soil;
  if (!placed.position) placed.position = Position{};
  ROOTSTEAD_TRY(const auto model, root_model(placed, tree.position ? site : open, tables));
  return Trail("transplant.roots-in-ball", "")
      .formula("share of absorbing roots in a cylinder round the stem, our root model")
      .length("r", "radius from the middle of the stem", radius)
      .length("h", "depth", depth)
      .by(Citation{"rootstead", "docs/methods/roots.md", Status::assumption})
      .is(model->share_in_cylinder(radius, depth, how));
}

}  // namespace rootstead
