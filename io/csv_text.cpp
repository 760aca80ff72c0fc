// Bytes of a file to UTF-8 text.
#include <zlib.h>

#include <array>
#include <cstdint>
#include <memory>

#include "io/csv.hpp"

namespace rootstead::io {
namespace {

constexpr std::size_t kLargestText = std::size_t{2} << 30;  // a mistake or an attack beyond this
constexpr char32_t kReplacement = 0xFFFD;
constexpr std::string_view kUtf8Mark = "\xEF\xBB\xBF";

// Windows-1252 at 0x80..0x9F; elsewhere it is Latin-1, whose bytes are the code points.
constexpr std::array<char32_t, 32> kWindows1252{
    0x20AC, 0xFFFD, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0xFFFD, 0x017D, 0xFFFD, 0xFFFD, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0xFFFD, 0x017E, 0x0178};

std::uint8_t byte_at(std::string_view text, std::size_t at) {
  return static_cast<std::uint8_t>(text[at]);
}

void append_utf8(std::string& text, char32_t c) {
  const auto put = [&text](char32_t bits) { text += static_cast<char>(bits); };
  if (c < 0x80) {
    put(c);
  } else if (c < 0x800) {
    put(0xC0 | (c >> 6));
    put(0x80 | (c & 0x3F));
  } else if (c < 0x10000) {
    put(0xE0 | (c >> 12));
    put(0x80 | ((c >> 6) & 0x3F));
    put(0x80 | (c & 0x3F));
  } else {
    put(0xF0 | (c >> 18));
    put(0x80 | ((c >> 12) & 0x3F));
    put(0x80 | ((c >> 6) & 0x3F));
    put(0x80 | (c & 0x3F));
  }
}

// How many bytes the UTF-8 character at `at` has; 0 where there is none.
std::size_t utf8_length(std::string_view text, std::size_t at) {
  const std::uint8_t lead = byte_at(text, at);
  if (lead < 0x80) return 1;
  const std::size_t length = lead >= 0xF5   ? 0
                             : lead >= 0xF0 ? 4
                             : lead >= 0xE0 ? 3
                             : lead >= 0xC2 ? 2
                                            : 0;
  if (length == 0 || at + length > text.size()) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte_at(text, at + i) & 0xC0) != 0x80) return 0;
  }
  const std::uint8_t second = byte_at(text, at + 1);
  const bool overlong = (lead == 0xE0 && second < 0xA0) || (lead == 0xF0 && second < 0x90);
  const bool beyond = (lead == 0xED && second > 0x9F) || (lead == 0xF4 && second > 0x8F);
  return overlong || beyond ? 0 : length;
}

bool is_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = utf8_length(text, at);
    if (length == 0) return false;
    at += length;
  }
  return true;
}

std::string from_windows_1252(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size() + bytes.size() / 16);
  for (std::size_t at = 0; at < bytes.size(); ++at) {
    const std::uint8_t c = byte_at(bytes, at);
    append_utf8(text, c >= 0x80 && c < 0xA0 ? kWindows1252[c - 0x80u] : char32_t{c});
  }
  return text;
}

std::string from_utf16(std::string_view bytes, bool big_endian) {
  const auto unit = [&](std::size_t at) {
    const char32_t first = byte_at(bytes, at), second = byte_at(bytes, at + 1);
    return big_endian ? (first << 8 | second) : (second << 8 | first);
  };
  std::string text;
  for (std::size_t at = 2; at + 1 < bytes.size(); at += 2) {
    char32_t c = unit(at);
    const bool high = c >= 0xD800 && c < 0xDC00;
    const bool paired = high && at + 3 < bytes.size() && (unit(at + 2) & 0xFC00) == 0xDC00;
    if (paired) {
      c = 0x10000 + ((c - 0xD800) << 10) + (unit(at + 2) - 0xDC00);
      at += 2;
    } else if (c >= 0xD800 && c < 0xE000) {
      c = kReplacement;
    }
    append_utf8(text, c);
  }
  return text;
}

Error unreadable(const std::filesystem::path& file, const std::string& why) {
  return {Code::file_unreadable, file.filename().string(), why,
          "copy or download the file again and check that it opens elsewhere"};
}

struct CloseGzip {
  void operator()(gzFile file) const { gzclose(file); }
};
using Gzip = std::unique_ptr<gzFile_s, CloseGzip>;

}  // namespace

DecodedText decoded(std::string bytes) {
  if (bytes.starts_with("\xFF\xFE")) return {from_utf16(bytes, false), "UTF-16"};
  if (bytes.starts_with("\xFE\xFF")) return {from_utf16(bytes, true), "UTF-16"};
  if (bytes.starts_with(kUtf8Mark)) bytes.erase(0, kUtf8Mark.size());
  if (is_utf8(bytes)) return {std::move(bytes), "UTF-8"};
  return {from_windows_1252(bytes), "Windows-1252"};
}

Result<std::string> read_bytes(const std::filesystem::path& file) {
  std::error_code ignored;
  if (!std::filesystem::exists(file, ignored))
    return Error{Code::file_not_found, file.string(), "there is no such file",
                 "check the name and the folder"};
  if (std::filesystem::is_directory(file, ignored))
    return Error{Code::file_unreadable, file.string(), "this is a folder",
                 "name one file inside it"};
  const Gzip source(gzopen(file.c_str(), "rb"));  // reads plain files as they are
  if (!source) return unreadable(file, "the file cannot be opened");
  std::string bytes;
  std::array<char, 1 << 16> piece{};
  for (;;) {
    const int count = gzread(source.get(), piece.data(), static_cast<unsigned>(piece.size()));
    if (count < 0) return unreadable(file, "the file is damaged: it does not unzip");
    if (count == 0) break;
    bytes.append(piece.data(), static_cast<std::size_t>(count));
    if (bytes.size() > kLargestText) return unreadable(file, "the text is larger than 2 GiB");
  }
  int state = Z_OK;
  gzerror(source.get(), &state);
  if (state == Z_BUF_ERROR) return unreadable(file, "the file is damaged: it ends too early");
  return bytes;
}

}  // namespace rootstead::io
