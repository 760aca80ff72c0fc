// Trees from a source in blocks of rows, so that a file of any length is read in little memory.
// Private to the screening.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "engine/site/tree.hpp"
#include "io/import_rows.hpp"
#include "io/screening.hpp"

namespace rootstead::io {

// Rows of a block, whatever the source: part of the last result depends on where blocks begin, so
// this is never changed lightly.
inline constexpr std::size_t kBlockRows = 8192;

// As cut from the source, not yet understood.
struct TreeBlock {
  std::size_t number = 0, first_row = 0;
  std::string text;             // of a table
  std::vector<Record> records;  // of a vector layer, shapes as they are in it
};

struct TreesRead {
  std::vector<Tree> trees;
  std::vector<std::string> ids;   // as in the source, beside each tree
  std::vector<std::size_t> rows;  // its row or feature in the source
  std::vector<Problem> problems;
};

// Understands blocks. One for each thread.
class TreeBlockReader {
 public:
  virtual ~TreeBlockReader() = default;
  virtual Result<TreesRead> read(const TreeBlock& block) = 0;
};

class TreeBlocks {
 public:
  // `grid` is the system positions come out in, in metres.
  static Result<std::unique_ptr<TreeBlocks>> open(const ScreenJob& job,
                                                  const ReferenceSystem& grid);
  virtual ~TreeBlocks() = default;

  // The next block; false at the end. Where it is not wanted it is passed over, which is quicker.
  virtual Result<bool> next(TreeBlock& block, bool wanted) = 0;
  virtual Result<std::unique_ptr<TreeBlockReader>> reader() const = 0;
  virtual double done() const = 0;  // share of the source that is read, 0 to 1
};

bool is_database(const std::string& source);     // "PG:..."
std::string source_name(const std::string& of);  // for messages: never a password

Result<std::unique_ptr<TreeBlocks>> open_tree_table(const ScreenJob& job,
                                                    const ReferenceSystem& grid);
Result<std::unique_ptr<TreeBlocks>> open_tree_layer(const ScreenJob& job,
                                                    const ReferenceSystem& grid);

}  // namespace rootstead::io
