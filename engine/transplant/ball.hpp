// How large a ball of soil is lifted with a tree that thickens: by its calliper, conifers by their
// height. Never asked of palms and other monocots: their stems do not thicken with age, so a
// calliper says nothing of their roots (engine/transplant/palm_move.hpp has their own rules).
// Sources, and which tables are recalled rather than read: docs/methods/transplant.md.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/quantity.hpp"
#include "engine/base/result.hpp"
#include "engine/site/tree.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// A published or recalled table of least ball diameters.
struct BallTable {
  enum class By { calliper, height };
  // Sizes rising: a tree of up to `size` gets a ball of `least`; inches, of heights feet.
  struct Row {
    double size = 0, least_in = 0;
  };
  std::string id;    // "ansi-z60-shade"
  std::string name;  // in words
  By by = By::calliper;
  std::vector<Row> rows;
  Citation from;
};
const std::vector<BallTable>& ball_tables();

// The least diameter (m) by the first row that is not smaller than the tree; one row further for
// stock that was not grown for lifting (`collected`). Fails with unknown_name (no such table), or
// outside_rule_domain where the table ends before the tree: what then is left to a specialist.
Result<Figure> ball_diameter(std::string_view table, Length size, bool collected);
// The trade's rule, 10 to 12 inches a calliper inch.
Figure ball_diameter_by_practice(Length calliper, const Tables& tables);

// The least depth (m) as a share of the diameter; soil above the root flare does not count.
Figure ball_depth(Length diameter, const Tables& tables);

// The stem at 0.15 m above ground up to 4 inches, at 0.30 m above. Measured there, else the
// breast-height diameter stretched, as a range. Fails with missing_measurement, and with
// outside_rule_domain for palms and other monocots.
struct Calliper {
  Range metres;
  bool measured = false;
  Figure figure;
};
Result<Calliper> calliper_of(const Tree& tree, const Tables& tables);

// Why a palm or other monocot has no ball by calliper, as the error that every such rule answers.
Error no_calliper_rule(std::string subject);

}  // namespace rootstead
