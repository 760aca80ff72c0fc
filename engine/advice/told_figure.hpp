// Figures as `why` tells them: with the work or rule they speak of, where they do of one.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/advice/advice.hpp"

namespace rootstead {

struct ToldFigure {
  Figure figure;
  std::string work = {};  // id; empty: of no one work
  std::string rule = {};  // id of a replacement rule; empty: of none
};

// Does the work reach any zone of the tree, or its roots?
bool reaches(const TreeAssessment& tree, const std::string& work);

// Every figure of one tree: those of its assessment, then those of its advice (levels apart), and
// of the traffic and fills that reach it. Requires: `advice` and `assessed` are of one site.
std::vector<ToldFigure> figures_told(const TreeAssessment& assessed, const Advice& advice);

// Figures of exactly this name; where there are none, those whose name holds it. Fails with
// unknown_name, naming what there is.
Result<std::vector<ToldFigure>> figures_named(const std::vector<ToldFigure>& figures,
                                              std::string_view name, const std::string& tree);

}  // namespace rootstead
