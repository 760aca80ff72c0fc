// Rows with shapes to works, barriers, surfaces, boundary and gates. Private to the readers.
#pragma once

#include <string>
#include <vector>

#include "engine/base/result.hpp"
#include "io/import_layers.hpp"
#include "io/import_problems.hpp"
#include "io/import_rows.hpp"
#include "io/import_trees.hpp"

namespace rootstead::io {

class WorkReader {
 public:
  WorkReader(Import& import, ProblemLog& log) : import_(import), log_(log) {}

  // One row. Without a shape it becomes nothing, and a problem says so. Fails only with
  // unit_missing, which is a question about the whole source.
  Outcome read(const Record& record, const FieldTable& table, const LayerKind& of_layer);

 private:
  LayerKind kind_of(const Record& record, const FieldTable& table, const LayerKind& of_layer);
  Outcome read_work(const Record& record, const FieldTable& table, WorkKind kind);
  Outcome read_work_sizes(const Record& record, const FieldTable& table, Work& work);
  Outcome read_vehicle(const Record& record, const FieldTable& table, Work& work);
  Outcome read_cover(const Record& record, const FieldTable& table, Work& work);
  void read_work_words(const Record& record, const FieldTable& table, Work& work);
  Outcome read_barrier(const Record& record, const FieldTable& table, BarrierKind kind);
  void read_boundary(const Record& record);
  Outcome read_gate(const Record& record, const FieldTable& table);
  void read_surface(const Record& record, const FieldTable& table, bool permeable);
  // One that cannot be read blocks: a default in its place would not be what the source says.
  Result<std::optional<EnteredLength>> length(const Record& record, const FieldTable& table,
                                              Field field, std::string_view what);
  Shape as_areas(const Record& record, std::string_view what);
  std::string id_of(const Record& record, const FieldTable& table);

  Import& import_;
  ProblemLog& log_;
  UniqueIds work_ids_, barrier_ids_, surface_ids_, gate_ids_;
};

}  // namespace rootstead::io
