// Open data that lies about as gzip. Whoever includes this links ZLIB::ZLIB.
#pragma once

#include <zlib.h>

#include <filesystem>
#include <string>

namespace rootstead::test {

inline std::string gunzipped(const std::filesystem::path& path) {
  std::string text;
  gzFile file = gzopen(path.c_str(), "rb");
  char block[1 << 16];
  for (int read = gzread(file, block, sizeof block); read > 0;
       read = gzread(file, block, sizeof block))
    text.append(block, static_cast<std::size_t>(read));
  gzclose(file);
  return text;
}

}  // namespace rootstead::test
