#include "engine/assess/root_figures.hpp"

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

std::string length_text(Length length) {
  return fixed_number(length.metres(), 3) + " m";
}

Figure loss_figure(std::string name, const Range& loss, std::string formula) {
  return ranged_figure(std::move(name), loss, "", std::move(formula),
                       {"rootstead", "docs/methods/roots.md", Status::assumption});
}

// What the spread of the loss goes back to, and where a pit would narrow it.
void add_uncertainty_figures(const RootLoss& loss, std::vector<Figure>& figures) {
  if (loss.before_evidence)
    figures.push_back(loss_figure("roots.absorbing-loss-before-evidence", *loss.before_evidence,
                                  "the loss as it was before what was found on site"));
  for (const Influence& influence : loss.influences) {
    Figure figure;
    figure.name = "roots.spread-from." + influence.input;
    figure.value = influence.share;
    figure.formula = "squared rank correlation with the loss over the draws";
    figure.inputs = {{"input", "what varies", influence.meaning},
                     {"to narrow it", "what to look at", influence.narrowed_by}};
    figure.from = {"rootstead", "docs/methods/roots.md", Status::assumption};
    figures.push_back(std::move(figure));
  }
  if (!loss.next_pit) return;
  const NextPit& pit = *loss.next_pit;
  Figure figure;
  figure.name = "roots.next-pit";
  figure.value = pit.spread_left;
  figure.formula =
      "expected standard deviation of the loss after the pit, per that before; least of the places "
      "looked at";
  figure.inputs = {{"r", "from the stem centre", length_text(pit.from_stem)},
                   {"bearing", "from grid north", fixed_number(pit.bearing.degrees(), 0) + " deg"},
                   {"side", "of the square pit", length_text(pit.side)},
                   {"depth", "of the pit", length_text(pit.depth)}};
  figure.from = {"rootstead", "docs/methods/evidence.md", Status::assumption};
  figures.push_back(std::move(figure));
}

// Thick roots by work: how many, and how likely any.
void add_met_figures(const RootsMet& met, std::vector<Figure>& figures) {
  if (met.pieces.empty()) return;
  for (std::size_t i = 0; i < kSpokenThickness.size(); ++i) {
    const std::string name = "roots.met-" +
                             fixed_number(Length::metres(kSpokenThickness[i]).millimetres(), 0) +
                             "mm." + met.work;
    Figure count =
        loss_figure(name, met.expected[i],
                    "mean number of roots at least so thick on the side of the work that "
                    "faces the tree");
    count.unit = "roots";
    count.from = {"upson-burgess-2013", "docs/methods/thick_roots.md", Status::assumption};
    count.inputs = {
        {"pieces", "of a metre or less", std::to_string(met.pieces.size())},
        {"P", "chance of at least one, low to high",
         fixed_number(met.chance[i].low, 2) + " to " + fixed_number(met.chance[i].high, 2)}};
    figures.push_back(std::move(count));
  }
}

}  // namespace

void add_root_figures(const TreeAssessment& tree, std::vector<Figure>& figures) {
  if (tree.estimate) {
    figures.insert(figures.end(), tree.estimate->figures.begin(), tree.estimate->figures.end());
  }
  if (!tree.roots) return;
  figures.push_back(loss_figure(
      "roots.absorbing-loss", tree.roots->all,
      tree.roots->by_work.empty() ? "no new work within reach of the roots"
                                  : "share of the root field in, beneath or beyond the works, all "
                                    "together, nothing counted twice"));
  for (const RootLoss::ByWork& by : tree.roots->by_work) {
    figures.push_back(loss_figure("roots.absorbing-loss." + by.work, by.alone,
                                  "the same for this work as if it were the only one"));
  }
  add_uncertainty_figures(*tree.roots, figures);
  for (const RootsMet& met : tree.roots_met) add_met_figures(met, figures);
}

}  // namespace rootstead
