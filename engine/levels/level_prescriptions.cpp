#include "engine/levels/level_prescriptions.hpp"

#include <algorithm>
#include <map>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"

namespace rootstead {
namespace {

Figure height_figure(const char* name, Length height, const char* what) {
  Figure figure;
  figure.name = name;
  figure.value = height.metres();
  figure.unit = "m";
  figure.inputs = {{"z", "levels", "existing and proposed, as read"}};
  figure.formula = what;
  figure.from = {"rootstead", "docs/methods/levels.md", Status::assumption};
  return figure;
}

class Writer {
 public:
  Writer(LevelChanges& changes, const Site& site, const Tables& tables)
      : changes_(changes), site_(site), tables_(tables), say_{site.settings.units} {}

  void write() {
    const Length noticed = Length::metres(tables_.parameter("levels.trunk_fill_noticed").best);
    for (const TrunkFill& trunk : changes_.trunks) {
      if (trunk.height >= noticed) keep_fill_off(trunk);
      if (trunk.lowered >= noticed) keep_base(trunk);
    }
    write_lowered();
  }

 private:
  std::string label(const std::string& id) const {
    const Tree* tree = site_.tree(id);
    return tree == nullptr ? id : tree->label();
  }

  void add(std::string tree, std::string text, std::string reason, std::vector<Figure> figures,
           Citation from) {
    changes_.prescriptions.push_back({"levels", std::move(tree), "", std::move(text),
                                      std::move(reason), std::move(figures), std::move(from)});
  }

  void keep_fill_off(const TrunkFill& trunk) {
    const Parameter& clear = tables_.parameter("levels.trunk_clear");
    const Parameter& fall = tables_.parameter("levels.fall_from_trunk");
    const Figure height =
        height_figure("levels.fill-at-trunk", trunk.height,
                      "greatest proposed less existing level within the clear ring at the bark");
    add(trunk.tree,
        "Keep fill off the bark of tree " + label(trunk.tree) +
            ": the proposed ground lies up to " + say_.length(trunk.height) +
            " above the present one there. Change the levels, or leave " + "a well of " +
            say_.length(Length::metres(clear.low)) + " to " +
            say_.length(Length::metres(clear.high)) + " clear all round, open to its bottom.",
        "Bark that is buried stays wet and decays; drains under deep fill are an old practice "
        "whose "
        "effect is unproven, so they are no reason to accept it.",
        {height}, clear.from);
    add(trunk.tree,
        "Let the new ground fall away from tree " + label(trunk.tree) + " by at least " +
            percent(fall.best, 0) + " so that no water stands at the trunk or in the well.",
        "Fill upslope of a trunk makes water pond there.", {}, fall.from);
  }

  void keep_base(const TrunkFill& trunk) {
    const Figure depth =
        height_figure("levels.lowered-at-trunk", trunk.lowered,
                      "greatest existing less proposed level within the clear ring at the bark");
    add(trunk.tree,
        "Do not lower the ground at the base of tree " + label(trunk.tree) +
            ": the proposed levels take up to " + say_.length(trunk.lowered) +
            " there. Keep the present level and retain the difference outside the root zone.",
        "The roots at the base hold the tree; what is lost there is a matter of its stability, not "
        "only of its health.",
        {depth}, {"rootstead", "docs/methods/levels.md", Status::assumption});
  }

  // One sentence a tree: of the zone where most is lowered.
  void write_lowered() {
    const Parameter& takes = tables_.parameter("levels.lowering_takes_roots");
    std::map<std::string, const ZoneLevels*> worst;
    for (const ZoneLevels& zone : changes_.zones) {
      if (!(zone.depths.share_cut > 0)) continue;
      const ZoneLevels*& known = worst[zone.tree];
      if (known == nullptr || zone.depths.share_cut > known->depths.share_cut) known = &zone;
    }
    for (const auto& [tree, zone] : worst) {
      Figure depth = height_figure(
          "levels.lowered-over-roots", zone->depths.cut_depth,
          "depth that a share levels.depth_quantile of the lowered ground does not exceed");
      Figure share = depth;
      share.name = "levels.lowered-share";
      share.value = zone->depths.share_cut;
      share.unit = "";
      share.formula = "ground lowered by more than the threshold over the area of the zone";
      const bool most = zone->depths.cut_depth.metres() >= takes.low;
      add(tree,
          "Keep the ground over the roots of tree " + label(tree) + " at its present level: " +
              percent(zone->depths.share_cut) + " of its zone (" + zone->zone + ", " + zone->rule +
              ") would be lowered, by up to " + say_.length(zone->depths.cut_depth) + " over " +
              percent(tables_.parameter("levels.depth_quantile").best, 0) +
              " of that. Hold the difference by a wall or slope outside the zone.",
          most ? "Lowering the ground by " + say_.small_length(Length::metres(takes.low)) + " to " +
                     say_.small_length(Length::metres(takes.high)) +
                     " removes most of the absorbing roots there."
               : "Most absorbing roots lie near the surface.",
          {depth, share}, takes.from);
    }
  }

  LevelChanges& changes_;
  const Site& site_;
  const Tables& tables_;
  AmountText say_;
};

}  // namespace

void add_prescriptions(LevelChanges& changes, const Site& site, const Tables& tables) {
  Writer(changes, site, tables).write();
}

}  // namespace rootstead
