// A screening written out, part by part. Private to the screening.
#pragma once

#include <filesystem>
#include <memory>
#include <string_view>
#include <vector>

#include "io/screening.hpp"

namespace rootstead::io {

class ScreenWriter {
 public:
  // Fails with format_unknown, naming the endings. `trees`: how many there will be.
  static Result<std::unique_ptr<ScreenWriter>> open(const ScreenJob& job,
                                                    const ReferenceSystem& grid,
                                                    const std::string& about, std::size_t trees);
  static Outcome check_format(const std::string& out);
  virtual ~ScreenWriter() = default;
  virtual Outcome add(std::string_view rows) = 0;  // lines of CSV
  virtual Result<std::vector<std::filesystem::path>> finish() = 0;
  std::size_t left_out = 0;  // rows without a place, of a format that takes none
};

}  // namespace rootstead::io
