// What the readers of tables, vector files and drawings share. Private to the readers.
#pragma once

#include <filesystem>
#include <string>

#include "io/import.hpp"
#include "io/import_layers.hpp"
#include "io/import_problems.hpp"
#include "io/import_rows.hpp"

namespace rootstead::io {

struct SourceJob {
  const std::filesystem::path& file;
  const ImportOptions& options;
  const ReferenceSystem& project;
  ProblemLog& log;

  std::string name() const { return file.filename().string(); }
  const ColumnMap* map() const { return options.columns ? &*options.columns : nullptr; }
};

Outcome read_table(const SourceJob& job, Import& import);
Outcome read_vector(const SourceJob& job, Import& import);
Outcome read_dxf(const SourceJob& job, Import& import);

// What `as` means for every layer; nothing where it is empty. Fails with unknown_name.
Result<std::optional<LayerKind>> kind_asked_for(const std::string& as);

// The same for a file of shapes, which cannot be of the soil: that comes in a table.
Result<std::optional<LayerKind>> drawn_kind_asked_for(const SourceJob& job);

// The columns used: the caller's map where it names any, completed with its constants, else the
// proposed one; the answer to --length-unit goes where units are missing (not in drawings, where
// it is the drawing's unit).
Result<FieldTable> field_table(const SourceJob& job, const std::vector<std::string>& header,
                               Topic topic, ColumnMap& used);

// Says which headers no field took.
void report_unread(const FieldTable& table, const std::string& place, ProblemLog& log);

}  // namespace rootstead::io
