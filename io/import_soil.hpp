// Rows of a soil log to the soil of the site. Private to the readers.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "engine/base/result.hpp"
#include "engine/site/site.hpp"
#include "io/import_problems.hpp"
#include "io/import_quantity.hpp"
#include "io/import_rows.hpp"

namespace rootstead::io {

// A row with a lower depth is a layer; one without is about the whole soil. Water table, rooting
// depth, drainage, compaction and notes are of the whole soil in whichever row they stand. A value
// that no soil has is not taken, and a problem names its row.
class SoilReader {
 public:
  explicit SoilReader(ProblemLog& log) : log_(log) {}

  // Fails only with unit_missing, which is a question about the whole source.
  Outcome read(const Record& record, const FieldTable& table);

  Soil finish() { return std::move(soil_); }

 private:
  using Length = std::optional<EnteredLength>;

  Outcome read_whole(const Record& record, const FieldTable& table);
  Outcome read_layer(const Record& record, const FieldTable& table);
  Result<Length> read_top_and_bottom(const Record& record, const FieldTable& table, Length& top);
  void check_top(const Record& record, const EnteredLength& top);
  SoilTexture texture(const Record& record, const FieldTable& table);
  std::optional<double> number(const Record& record, const FieldTable& table, Quantity quantity);
  void read_particles(const Record& record, const FieldTable& table, SoilLayer& layer);
  static bool plainly_percent(const Record& record, const FieldTable& table);
  template <class Value>
  void keep(const Record& record, std::string_view what, Value& kept, const Value& unknown,
            const Value& said);

  ProblemLog& log_;
  Soil soil_;
};

}  // namespace rootstead::io
