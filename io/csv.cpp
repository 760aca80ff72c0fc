#include "io/csv.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "engine/base/text.hpp"

namespace rootstead::io {
namespace {

constexpr std::array<char, 4> kDelimiters{',', ';', '\t', '|'};
constexpr std::size_t kRowsToSniff = 30;

// "sep=;" on the first line, as one spreadsheet program writes it.
std::optional<char> named_delimiter(std::string_view text) {
  if (text.size() < 6 || lower_case(text.substr(0, 4)) != "sep=") return std::nullopt;
  if (text[5] != '\n' && text[5] != '\r') return std::nullopt;
  return text[4];
}

struct Evenness {
  double share = 0;  // of the rows that have the commonest number of cells
  std::size_t cells = 0;
};

// A quote in the middle of a cell is a sign that the cell was cut at the wrong place; at the end
// it is an inch mark.
bool looks_cut(const std::string& cell) {
  const auto quote = cell.find('"');
  return quote != std::string::npos && quote + 1 < cell.size();
}

Evenness evenness_of(std::string_view text, char delimiter) {
  CsvReader reader(text, delimiter);
  std::map<std::size_t, std::size_t> rows_with;
  CsvRow row;
  std::size_t rows = 0;
  while (rows < kRowsToSniff && reader.next(row)) {
    ++rows;
    if (std::none_of(row.cells.begin(), row.cells.end(), looks_cut)) ++rows_with[row.cells.size()];
  }
  Evenness best;
  for (const auto& [cells, count] : rows_with) {
    const double share = static_cast<double>(count) / static_cast<double>(rows);
    if (cells > 1 && share >= best.share) best = {share, cells};
  }
  return best;
}

char sniffed_delimiter(std::string_view text) {
  char best = ',';
  Evenness most;
  for (const char candidate : kDelimiters) {
    const Evenness found = evenness_of(text, candidate);
    const bool wins =
        found.share > most.share || (found.share == most.share && found.cells > most.cells);
    if (wins) {
      most = found;
      best = candidate;
    }
  }
  return best;
}

}  // namespace

CsvReader::CsvReader(std::string_view text, char delimiter) : text_(text), delimiter_(delimiter) {
  if (delimiter_ != 0) return;
  if (const auto named = named_delimiter(text_)) {
    delimiter_ = *named;
    at_ = 5;
    pass_line_end();
    row_ = 1;
  } else {
    delimiter_ = sniffed_delimiter(text_);
  }
}

bool CsvReader::next(CsvRow& row) {
  while (next_line_of_cells(row)) {
    const bool blank = row.cells.size() == 1 && trimmed(row.cells.front()).empty();
    if (!blank) return true;
  }
  return false;
}

bool CsvReader::next_line_of_cells(CsvRow& row) {
  if (at_ >= text_.size()) return false;
  row.row = ++row_;
  std::size_t cells = 0;
  bool more = true;
  while (more) {
    if (cells == row.cells.size()) row.cells.emplace_back();
    more = read_cell(row.cells[cells++]);
  }
  row.cells.resize(cells);
  return true;
}

// Reads one cell and what ends it; true where a delimiter did, so that another cell follows.
bool CsvReader::read_cell(std::string& cell) {
  cell.clear();
  if (at_ < text_.size() && text_[at_] == '"') read_quoted(cell);
  while (at_ < text_.size() && text_[at_] != delimiter_ && !at_line_end()) cell += text_[at_++];
  if (at_ < text_.size() && text_[at_] == delimiter_) {
    ++at_;
    return true;
  }
  pass_line_end();
  return false;
}

void CsvReader::read_quoted(std::string& cell) {
  ++at_;
  while (at_ < text_.size()) {
    const char c = text_[at_++];
    if (c != '"') {
      cell += c;
    } else if (at_ < text_.size() && text_[at_] == '"') {
      cell += text_[at_++];
    } else {
      return;
    }
  }
  unclosed_ = row_;
}

bool CsvReader::at_line_end() const {
  return text_[at_] == '\n' || text_[at_] == '\r';
}

void CsvReader::pass_line_end() {
  if (at_ < text_.size() && text_[at_] == '\r') ++at_;
  // A lone CR ends a line too; CR LF is one end.
  const bool after_cr = at_ > 0 && text_[at_ - 1] == '\r';
  const bool line_feed = at_ < text_.size() && text_[at_] == '\n';
  if (line_feed && (after_cr || at_line_end())) ++at_;
}

Result<CsvTable> parse_csv(std::string_view text, const std::string& subject, char delimiter) {
  CsvTable table;
  CsvReader reader(text, delimiter);
  CsvRow row;
  if (!reader.next(row))
    return Error{Code::format_broken, subject, "the file is empty",
                 "give a table whose first row names the columns"};
  for (const std::string& cell : row.cells) table.header.emplace_back(trimmed(cell));
  while (reader.next(row)) {
    if (row.cells.size() != table.header.size()) table.ragged.push_back(row.row);
    table.rows.push_back(row);
  }
  if (const auto opened = reader.unclosed_quote())
    return Error{Code::format_broken, subject + " row " + std::to_string(*opened),
                 "a quotation mark opens here and never closes",
                 "close it, or remove it from the cell"};
  table.delimiter = reader.delimiter();
  table.encoding = "UTF-8";
  return table;
}

Result<CsvTable> read_csv(const std::filesystem::path& file, char delimiter) {
  ROOTSTEAD_TRY(std::string bytes, read_bytes(file));
  DecodedText text = decoded(std::move(bytes));
  auto table = parse_csv(text.text, file.filename().string(), delimiter);
  if (table) table->encoding = text.encoding;
  return table;
}

std::optional<std::size_t> column_of(const CsvTable& table, std::string_view header) {
  const auto found = std::find(table.header.begin(), table.header.end(), header);
  if (found == table.header.end()) return std::nullopt;
  return static_cast<std::size_t>(found - table.header.begin());
}

}  // namespace rootstead::io
