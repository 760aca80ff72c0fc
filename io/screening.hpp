// Screening files: the trees of one file against the works of another, as many as there are. Trees
// are read in blocks and never held all at once; works are held. docs/methods/screening.md.
//
// Every block that is done is a file in a folder of parts beside the output, and the output is made
// of them when all are there: a run that was killed goes on where it stopped, and it does not
// matter how many threads, processes or machines have worked at them. Same input, same rows.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/screening/screening.hpp"
#include "io/import.hpp"

namespace rootstead::io {

struct ScreenSource {
  std::string from;   // a file, or "PG:..." for a table of PostgreSQL
  std::string layer;  // empty: the only one
  std::optional<ColumnMap> columns;
};

struct ScreenJob {
  ScreenSource trees, works;
  std::string rule, zone;  // ids; no zone: the widest of the rule
  std::string crs;         // grid to measure in; empty: that of the works, else of the trees
  std::optional<LengthUnit> length_unit;
  Length look = kScreenLook;
  std::string out;    // .csv, .gpkg or .fgb file, or "PG:..."
  std::string layer;  // of the output, where it has layers
  std::string note;   // a sentence of the user's, told wherever the cautions are
  int threads = 1;
  // Of several processes that share the parts, this one does every `parts`th block from `part`,
  // counted from 0. Only the first joins them, once all are there; the others leave at their end.
  int part = 0, parts = 1;
  bool wait = false;  // may the first wait for the others? else it only joins what is there
};

struct ScreenReport {
  bool joined = false;  // false: other parts are still to be done
  std::vector<std::filesystem::path> files;
  std::string grid;  // the system measured in
  std::size_t trees = 0, works = 0, works_existing = 0, works_without_ground = 0;
  std::size_t blocks = 0, blocks_found = 0;  // of this process; found: done in an earlier run
  std::map<std::string, std::size_t> by_status;
  std::map<std::string, std::size_t> without_figure;  // why, how many
  std::map<std::string, std::size_t> remarks;
  double most_taken = 0;              // the largest share of any tree
  std::size_t tree_problems = 0;      // doubts of the reader of trees
  std::vector<std::string> problems;  // the first of them, and those of works, a sentence each
};

// What is being done, and how much of it: "screening", 0 to 1.
using ScreenProgress = std::function<void(const char* what, double done)>;

// Fails with one sentence: a file that cannot be read, a rule or zone that is not there, a grid
// that no length can be measured in, parts of another screening beside the output.
Result<ScreenReport> screen_network(const ScreenJob& job, const Tables& tables,
                                    const ScreenProgress& progress);

// What every output carries: rule, grid, files, cautions, how to go on.
std::string screening_about(const ScreenJob& job, const Tables& tables, const std::string& grid);

}  // namespace rootstead::io
