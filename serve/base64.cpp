#include "serve/base64.hpp"

#include <array>
#include <cstdint>

namespace rootstead::serve {
namespace {

constexpr std::string_view kLetters =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
constexpr std::uint8_t kNoLetter = 64;

constexpr std::array<std::uint8_t, 256> values_of_letters() {
  std::array<std::uint8_t, 256> values{};
  for (auto& value : values) value = kNoLetter;
  for (std::size_t i = 0; i < kLetters.size(); ++i)
    values[static_cast<unsigned char>(kLetters[i])] = static_cast<std::uint8_t>(i);
  return values;
}

}  // namespace

std::string base64_of(std::string_view bytes) {
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const auto byte = [&](std::size_t k) {
      return i + k < bytes.size()
                 ? static_cast<std::uint32_t>(static_cast<unsigned char>(bytes[i + k]))
                 : 0U;
    };
    const std::uint32_t group = byte(0) << 16 | byte(1) << 8 | byte(2);
    text += kLetters[group >> 18 & 63];
    text += kLetters[group >> 12 & 63];
    text += i + 1 < bytes.size() ? kLetters[group >> 6 & 63] : '=';
    text += i + 2 < bytes.size() ? kLetters[group & 63] : '=';
  }
  return text;
}

std::optional<std::string> from_base64(std::string_view text) {
  static constexpr auto kValues = values_of_letters();
  if (text.size() % 4 != 0) return std::nullopt;
  const std::size_t padded = text.ends_with("==") ? 2 : text.ends_with("=") ? 1 : 0;
  std::string bytes;
  bytes.reserve(text.size() / 4 * 3);
  for (std::size_t i = 0; i < text.size(); i += 4) {
    const std::size_t letters = i + 4 == text.size() ? 4 - padded : 4;
    std::uint32_t group = 0;
    for (std::size_t k = 0; k < 4; ++k) {
      const std::uint8_t value =
          k < letters ? kValues[static_cast<unsigned char>(text[i + k])] : std::uint8_t{0};
      if (value == kNoLetter) return std::nullopt;
      group = group << 6 | value;
    }
    for (std::size_t k = 0; k + 1 < letters; ++k)
      bytes += static_cast<char>(group >> (16 - 8 * k) & 255);
  }
  return bytes;
}

}  // namespace rootstead::serve
