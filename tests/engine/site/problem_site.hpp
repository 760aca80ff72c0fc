// Things with which nothing is wrong, and what is found where something is.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "engine/site/site.hpp"

namespace rootstead {

inline EnteredLength metres(double value) {
  return {value, LengthUnit::metre};
}
inline EnteredLength centimetres(double value) {
  return {value, LengthUnit::centimetre};
}

inline Stem stem_of(const EnteredLength& size, Stem::Read read = Stem::Read::diameter) {
  Stem stem;
  stem.read = read;
  stem.size = size;
  return stem;
}

// A tree with which nothing is wrong.
inline Tree sound_tree(const std::string& tag, double x, double y) {
  Tree tree;
  tree.id = tag;
  tree.tag = tag;
  tree.botanical_name = "Quercus robur";
  tree.form = GrowthForm::broadleaf;
  tree.stems = {stem_of(centimetres(50))};
  tree.height = metres(16);
  tree.crown = Crown{};
  tree.crown->radius = {{metres(5), metres(5), metres(5), metres(5)}};
  tree.condition = Condition::good;
  tree.position = Position{{x, y}, "total station", metres(0.05)};
  tree.origin = {"survey.csv", "row " + tag};
  return tree;
}

inline Work sound_trench(const std::string& id) {
  Work work;
  work.id = id;
  work.shape.lines = {{{431000, 122000}, {431040, 122000}}};
  work.width = metres(0.6);
  work.depth = metres(1);
  work.origin = {"works.dxf", "entity 3F"};
  return work;
}

inline SoilLayer layer_to(const EnteredLength& bottom) {
  SoilLayer layer;
  layer.bottom = bottom;
  return layer;
}

// Twenty sound trees on a grid in the British National Grid, and a sound trench.
inline Site sound_site() {
  Site site;
  for (int i = 0; i < 20; ++i)
    site.trees.push_back(sound_tree(std::to_string(i + 1), 431000 + 7 * i, 122010 + 3 * (i % 4)));
  site.works.push_back(sound_trench("W1"));
  return site;
}

inline std::vector<Problem> with_code(const Site& site, NoteCode code) {
  std::vector<Problem> found = problems_of(site);
  std::erase_if(found, [&](const Problem& problem) { return problem.code != code; });
  return found;
}

// The only problem of the site is this one.
inline void expect_only(const Site& site, bool blocks, NoteCode code, const std::string& sentence) {
  const std::vector<Problem> found = problems_of(site);
  ASSERT_EQ(found.size(), 1u) << (found.empty() ? "nothing"
                                                : found.front().sentence() + " ... " +
                                                      found.back().sentence());
  EXPECT_EQ(found[0].blocks, blocks);
  EXPECT_EQ(found[0].code, code);
  EXPECT_EQ(found[0].sentence(), sentence);
}

}  // namespace rootstead
