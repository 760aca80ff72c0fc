// Tables of pits and soil with bytes changed at random: one sentence, or rows that are sound. The
// fuzz target does the same with more patience (tests/fuzz/evidence_fuzz.cpp).
#include <cmath>
#include <cstdlib>
#include <iterator>
#include <random>

#include "tests/io/import_support.hpp"

namespace rootstead::io {
namespace {

class Mangled : public Sources {};

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::string mangled(std::string text, std::mt19937_64& chance) {
  constexpr std::string_view kBytes = "0123456789.,;-+\"\n~e \xC3\xFF/%xm";
  for (auto changes = 1 + chance() % 12; changes > 0 && !text.empty(); --changes) {
    const std::size_t at = chance() % text.size();
    switch (chance() % 3) {
      case 0:
        text[at] = kBytes[chance() % kBytes.size()];
        break;
      case 1:
        text.erase(at, 1 + chance() % 8);
        break;
      default:
        text.insert(at, 1, kBytes[chance() % kBytes.size()]);
    }
  }
  return text;
}

void expect_sound(const Import& import) {
  for (const Problem& problem : import.problems)
    EXPECT_EQ(problem.sentence().find('\n'), std::string::npos) << problem.sentence();
  EXPECT_LE(import.evidence.size(), import.rows_read);
  for (const Evidence& opening : import.evidence) {
    EXPECT_FALSE(opening.id.empty());
    for (const FoundRoot& root : opening.roots) {
      EXPECT_GE(root.diameter.value, 0);
      EXPECT_TRUE(!root.at || (std::isfinite(root.at->x) && std::isfinite(root.at->y)));
    }
  }
  if (!import.soil) return;
  EXPECT_LE(import.soil->layers.size(), import.rows_read);
  for (const SoilLayer& layer : import.soil->layers) EXPECT_GE(layer.bottom.value, 0);
}

TEST_F(Mangled, tables_give_one_sentence_or_sound_rows) {
  const std::filesystem::path root = std::getenv("ROOTSTEAD_SOURCE_DIR");
  const auto seed = std::random_device()();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937_64 chance(seed);
  constexpr int kTimes = 150;
  int read_well = 0;
  for (const auto& entry :
       std::filesystem::directory_iterator(root / "tests/fuzz/corpus/evidence")) {
    const std::string original = bytes_of(entry.path());
    for (int i = 0; i < kTimes; ++i) {
      ImportOptions options;
      options.as = chance() % 2 == 0 ? "evidence" : "soil";
      const std::string text = i == 0 ? original : mangled(original, chance);
      const auto import = read("mangled.csv", text, options, "EPSG:32632");
      if (!import) {
        const std::string sentence = import.error().sentence();
        EXPECT_FALSE(import.error().message.empty());
        EXPECT_EQ(sentence.find('\n'), std::string::npos) << sentence;
        continue;
      }
      ++read_well;
      expect_sound(*import);
    }
  }
  EXPECT_GT(read_well, kTimes / 2);
}

}  // namespace
}  // namespace rootstead::io
