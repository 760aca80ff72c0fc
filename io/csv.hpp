// Delimited text, as spreadsheets, survey programs and our own tables write it: RFC 4180 with any
// delimiter, LF, CRLF or CR, quoted cells with line breaks in them, a byte order mark, UTF-8,
// UTF-16 or Windows-1252 text, plain or gzip.
//
// Cells come as written, blanks included; a quote inside an unquoted cell (16") is itself.
// Rows are numbered as a spreadsheet numbers them: the first line of the file is row 1, a cell with
// line breaks takes one row, blank lines count and are passed over.
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/result.hpp"

namespace rootstead::io {

struct CsvRow {
  std::size_t row = 0;
  std::vector<std::string> cells;
};

// The text of a file as UTF-8 without byte order mark.
struct DecodedText {
  std::string text;
  std::string encoding;  // "UTF-8", "UTF-16" or "Windows-1252" (which Latin-1 is part of)
};
DecodedText decoded(std::string bytes);

// The whole file, unzipped where it is gzip. Fails with file_not_found or file_unreadable.
Result<std::string> read_bytes(const std::filesystem::path& file);

// Reads rows one after the other, so that a large table need not be held twice.
class CsvReader {
 public:
  // delimiter 0: the one of , ; tab | that cuts the first rows most evenly, or that a first line
  // "sep=;" names.
  explicit CsvReader(std::string_view text, char delimiter = 0);

  bool next(CsvRow& row);  // false at the end; reuses the cells of `row`
  char delimiter() const { return delimiter_; }
  // The row where a quote opens that is never closed, once the end is reached.
  std::optional<std::size_t> unclosed_quote() const { return unclosed_; }

 private:
  bool next_line_of_cells(CsvRow& row);
  bool read_cell(std::string& cell);
  void read_quoted(std::string& cell);
  bool at_line_end() const;
  void pass_line_end();

  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t row_ = 0;
  char delimiter_;
  std::optional<std::size_t> unclosed_;
};

struct CsvTable {
  std::vector<std::string> header;  // trimmed
  std::vector<CsvRow> rows;
  std::vector<std::size_t> ragged;  // rows with more or fewer cells than the header
  char delimiter = ',';
  std::string encoding;
};

// The first row is the header. Fails with format_broken: a quote that never closes, no rows at all.
// `subject` names the text in errors, e.g. "species.csv".
Result<CsvTable> parse_csv(std::string_view text, const std::string& subject, char delimiter = 0);
Result<CsvTable> read_csv(const std::filesystem::path& file, char delimiter = 0);

// The position of a header word, or nothing.
std::optional<std::size_t> column_of(const CsvTable& table, std::string_view header);

}  // namespace rootstead::io
