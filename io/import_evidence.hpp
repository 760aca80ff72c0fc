// Rows to openings and the roots found in them. Private to the readers.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "engine/base/result.hpp"
#include "engine/site/evidence.hpp"
#include "io/import_layers.hpp"
#include "io/import_problems.hpp"
#include "io/import_rows.hpp"

namespace rootstead::io {

// Rows of the same id are one opening. What is said of the opening itself may stand in any of its
// rows; where two rows disagree the first is kept, and a problem says so. A row that has a root and
// a point of its own, other than that of the opening, tells where that root was.
class EvidenceReader {
 public:
  explicit EvidenceReader(ProblemLog& log) : log_(log) {}

  // One row: an opening, a root found in one, or both. `root_at` is the place of its root, where
  // the row gives one. Fails only with unit_missing, which is a question about the whole source.
  Outcome read(const Record& record, const FieldTable& table, const LayerKind& of_layer,
               const std::optional<Point>& root_at = {});

  // All openings, in the order in which they first appear.
  std::vector<Evidence> finish() { return std::move(openings_); }

 private:
  Evidence& opening_of(const Record& record, const FieldTable& table, bool& first);
  void read_kind(const Record& record, const FieldTable& table, const LayerKind& of_layer,
                 Evidence& opening, bool first);
  void read_texts(const Record& record, const FieldTable& table, Evidence& opening);
  Outcome read_sizes(const Record& record, const FieldTable& table, Evidence& opening);
  void read_shape(const Record& record, bool has_root, std::optional<Point>& root_at,
                  Evidence& opening);
  Outcome read_roots(const Record& record, const FieldTable& table,
                     const std::optional<Point>& root_at, Evidence& opening);
  bool read_alive(const Record& record, const FieldTable& table, Evidence& opening);
  void disagrees(const Record& record, const Evidence& opening, const std::string& what,
                 const std::string& said);
  std::string label(const Record& record, const Evidence& opening) const;

  ProblemLog& log_;
  std::vector<Evidence> openings_;
  std::map<std::string, std::size_t> by_id_;
  std::vector<bool> kind_said_, counted_from_said_;  // of each opening
};

}  // namespace rootstead::io
