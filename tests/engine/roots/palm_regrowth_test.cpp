// What becomes of a palm's cut roots.
#include "engine/roots/palm_regrowth.hpp"

#include <gtest/gtest.h>

#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

PalmRegrowth of(std::string_view name) {
  return palm_regrowth(tables().species_of(name), tables());
}

TEST(PalmRegrowth, IsThatOfPublishedTrials) {
  // Broschat & Donselman 1984: Cocos about half at any length, Sabal palmetto under 1 %, Syagrus
  // and Roystonea more the longer the stub.
  EXPECT_EQ(of("Cocos nucifera").kind, PalmRegrowth::Kind::any_length);
  EXPECT_EQ(of("Cocos nucifera").share_of_cut_roots->best, 0.5);
  EXPECT_EQ(of("Sabal palmetto").kind, PalmRegrowth::Kind::base_only);
  EXPECT_LE(of("Sabal palmetto").share_of_cut_roots->high, 0.01);
  EXPECT_EQ(of("Syagrus romanzoffiana").kind, PalmRegrowth::Kind::longer_more);
  EXPECT_EQ(of("Roystonea").kind, PalmRegrowth::Kind::longer_more);
  EXPECT_EQ(of("Cocos nucifera").from->status, Status::published);
}

TEST(PalmRegrowth, SaysWhereItIsAssumedOrUnknown) {
  EXPECT_EQ(of("Washingtonia robusta").from->status, Status::assumption);
  EXPECT_EQ(of("Howea forsteriana").kind, PalmRegrowth::Kind::unknown);
  EXPECT_EQ(palm_regrowth(nullptr, tables()).kind, PalmRegrowth::Kind::unknown);
  EXPECT_NE(in_words(palm_regrowth(nullptr, tables())).find("not known"), std::string::npos);
}

TEST(PalmRegrowth, HasWordsForTheReport) {
  EXPECT_EQ(in_words(of("Cocos nucifera")),
            "About 50 % of this palm's cut roots branch again, however short what is left of them. "
            "It sends few new roots from the base of the trunk.");
  EXPECT_NE(in_words(of("Sabal palmetto")).find("under 1 %"), std::string::npos);
}

}  // namespace
}  // namespace rootstead
