// The ground along a line, upright: what is dug, which zones it runs through, roots predicted and
// found beside it.
#pragma once

#include "io/json.hpp"
#include "serve/standing.hpp"

namespace rootstead::serve {

// SectionLine of api/schema.json, read.
struct SectionAsked {
  std::string work = {};  // id; empty where `line` is told
  Line line = {};         // at least two places apart; empty where `work` is told
  Length half_width = Length::metres(0.75);
};
// Fails with value_invalid.
Result<SectionAsked> section_asked(const io::Json& body);

// SectionView. Chainages run on from run to run of the line. Predicted roots are of every tree
// whose roots may reach the line, nearest first up to kMostTreesGrown; each is the part of a piece
// that lies within the half width. Fails with unknown_name, and with wrong_use where the work has
// no line to go along.
inline constexpr std::size_t kMostTreesGrown = 40;  // our assumption
Result<io::Json> section_view(const Standing& standing, const SectionAsked& asked);

}  // namespace rootstead::serve
