// The words of the project file are part of its format (docs/formats/project.md): changing one here
// means a new format version.
#include "engine/site/site.hpp"

namespace rootstead {
namespace {

template <class Word, class Read>
void expect_words(const Read& read, std::initializer_list<const char*> words) {
  int value = 0;
  for (const char* word : words) {
    EXPECT_EQ(to_text(static_cast<Word>(value)), word);
    EXPECT_EQ(read(word), static_cast<Word>(value)) << word;
    ++value;
  }
}

TEST(FormatWords, are_those_of_the_documented_format) {
  expect_words<GrowthForm>(growth_form_from,
                           {"unknown", "broadleaf", "conifer", "palm", "other monocot"});
  expect_words<Condition>(condition_from, {"unknown", "good", "fair", "poor", "dead"});
  expect_words<LifeStage>(life_stage_from,
                          {"unknown", "young", "semi-mature", "mature", "over-mature", "veteran"});
  expect_words<Flare::State>(flare_state_from, {"unknown", "visible", "buried"});
  expect_words<WorkKind>(work_kind_from, {"trench", "pit", "cut", "fill", "paving", "traffic",
                                          "building", "fence posts", "bore", "root cut"});
  expect_words<WorkState>(work_state_from, {"proposed", "approved", "existing"});
  expect_words<DigMethod>(dig_method_from, {"machine", "hand", "air"});
  expect_words<BarrierKind>(barrier_kind_from, {"wall", "foundation", "kerb", "root barrier",
                                                "building", "rock", "water"});
}

}  // namespace
}  // namespace rootstead
