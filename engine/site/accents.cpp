#include "engine/site/accents.hpp"

#include <array>

namespace rootstead {
namespace {

// The letters U+00C0 to U+00FF, which UTF-8 writes as 0xC3 and one of 64 second bytes.
constexpr std::array<std::string_view, 64> kLatin1 = {
    "a", "a", "a", "a", "a", "a", "ae", "c", "e", "e", "e", "e", "i", "i", "i",  "i",
    "d", "n", "o", "o", "o", "o", "o",  "x", "o", "u", "u", "u", "u", "y", "th", "ss",
    "a", "a", "a", "a", "a", "a", "ae", "c", "e", "e", "e", "e", "i", "i", "i",  "i",
    "d", "n", "o", "o", "o", "o", "o",  "/", "o", "u", "u", "u", "u", "y", "th", "y"};
constexpr unsigned char kLead = 0xC3;
constexpr unsigned char kFirst = 0x80;

}  // namespace

std::string without_accents(std::string_view text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte == kLead && i + 1 < text.size()) {
      const unsigned second = static_cast<unsigned char>(text[i + 1]) - unsigned{kFirst};
      if (second < kLatin1.size()) {
        plain += kLatin1[second];
        ++i;
        continue;
      }
    }
    plain += text[i];
  }
  return plain;
}

}  // namespace rootstead
