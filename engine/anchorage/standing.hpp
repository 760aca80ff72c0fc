// Everything known of a tree's hold before the cuts are looked at. Private to this room.
#pragma once

#include "engine/anchorage/anchorage.hpp"

namespace rootstead {

struct Standing {
  const Tree& tree;
  const Tables& tables;
  Length diameter;
  bool diameter_known = true;
  bool palm = false;
  GrowthForm form = GrowthForm::unknown;  // of the record, else of the species
  RootArchitecture architecture = RootArchitecture::unknown;
  bool architecture_known = false;
  bool shallow_soil = false;
  std::optional<Length> deepest = std::nullopt;  // rock, pan or water

  AnchorageShares shares() const { return shares_of(architecture); }
  AnchorageShares shares_of(RootArchitecture a) const;
};

Result<Standing> standing_of(const Tree& tree, const Tables& tables, const Soil& soil);

// "plate", "heart", "tap"; heart where it is not known.
std::string_view class_word(RootArchitecture architecture);

struct CutFacts;
Figure kept_figure(const AnchorageKept& kept, const Standing& standing, const CutFacts& facts);
std::vector<Note> notes_of(const AnchorageKept& kept, const Standing& standing);

}  // namespace rootstead
