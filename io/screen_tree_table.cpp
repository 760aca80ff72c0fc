// Delimited text in blocks of rows, plain or gzip.
#include <zlib.h>

#include <algorithm>

#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/import_coordinates.hpp"
#include "io/import_source.hpp"
#include "io/import_trees.hpp"
#include "io/screen_trees.hpp"
#include "io/whole_file.hpp"

namespace rootstead::io {
namespace {

constexpr std::size_t kChunk = std::size_t{1} << 18;
constexpr std::size_t kLongestRow = std::size_t{1} << 22;  // a quote that never closes, not a row
constexpr std::string_view kUtf8Mark = "\xEF\xBB\xBF";

// Bytes of a file, unzipped where it is gzip, kept only from the row that is being read.
class Bytes {
 public:
  explicit Bytes(const std::string& file) : file_(gzopen(file.c_str(), "rb")) {}
  Bytes(const Bytes&) = delete;
  Bytes& operator=(const Bytes&) = delete;
  ~Bytes() {
    if (file_ != nullptr) gzclose(file_);
  }
  bool open() const { return file_ != nullptr; }
  bool failed() const { return failed_; }
  bool ended() const { return ended_; }
  std::string_view held() const { return std::string_view(text_).substr(from_); }
  void pass(std::size_t count) { from_ += count; }
  double at() const { return static_cast<double>(gzoffset(file_)); }

  void more() {
    text_.erase(0, from_);
    from_ = 0;
    const std::size_t before = text_.size();
    text_.resize(before + kChunk);
    const int got = gzread(file_, text_.data() + before, static_cast<unsigned>(kChunk));
    failed_ = got < 0;
    ended_ = got <= 0;
    text_.resize(before + static_cast<std::size_t>(std::max(got, 0)));
  }

 private:
  gzFile file_;
  std::string text_;
  std::size_t from_ = 0;
  bool failed_ = false, ended_ = false;
};

// Where the row that begins at `at` ends, behind its line end, as CsvReader reads it; npos where
// the text ends before it.
std::size_t row_end(std::string_view text, std::size_t at, char delimiter) {
  bool quoted = false, cell_begins = true;
  for (; at < text.size(); ++at) {
    const char c = text[at];
    if (quoted) {
      if (c != '"') continue;
      if (at + 1 >= text.size()) return std::string_view::npos;
      if (text[at + 1] == '"') {
        ++at;
      } else {
        quoted = false;
      }
      continue;
    }
    if (c == '"' && cell_begins) quoted = true;
    cell_begins = c == delimiter;
    if (c == '\n') return at + 1;
    if (c != '\r') continue;
    if (at + 1 >= text.size()) return std::string_view::npos;
    return at + (text[at + 1] == '\n' ? 2 : 1);
  }
  return std::string_view::npos;
}

struct Table {
  std::string file, name;
  ImportOptions options;
  ReferenceSystem grid;
  SourceSystem system;
  char delimiter = ',';
  std::vector<std::string> header;
  std::optional<FieldTable> fields;
};

class TableBlockReader : public TreeBlockReader {
 public:
  TableBlockReader(std::shared_ptr<const Table> table, Georeference georeference)
      : table_(std::move(table)), georeference_(std::move(georeference)) {}

  Result<TreesRead> read(const TreeBlock& block) override {
    ProblemLog log(table_->name);
    TreeReader reader(*table_->fields, georeference_, false, log);
    const DecodedText text = decoded(block.text);
    CsvReader rows(text.text, table_->delimiter);
    TreesRead read;
    CsvRow row;
    Record record;
    while (rows.next(row)) {
      row.cells.swap(record.cells);
      const std::size_t number = block.first_row + row.row - 1;
      record.place = "row " + std::to_string(number);
      record.spare_id = "row-" + std::to_string(number);
      ROOTSTEAD_CHECK(reader.read(record));
      read.ids.push_back(id_of(record));
      read.rows.push_back(number);
      row.cells.swap(record.cells);
    }
    read.trees = reader.finish();
    read.problems = log.take();
    return read;
  }

 private:
  std::string id_of(const Record& record) const {
    for (const Field field : {Field::id, Field::tag}) {
      const std::string_view text = table_->fields->text(record, field);
      if (!text.empty()) return std::string(text);
    }
    return record.spare_id;
  }
  std::shared_ptr<const Table> table_;
  Georeference georeference_;
};

class TableBlocks : public TreeBlocks {
 public:
  TableBlocks(const ScreenJob& job, const ReferenceSystem& grid)
      : bytes_(job.trees.from), table_(std::make_shared<Table>()) {
    table_->file = job.trees.from;
    table_->name = source_name(job.trees.from);
    table_->options.as = "trees";
    table_->options.columns = job.trees.columns;
    table_->options.length_unit = job.length_unit;
    table_->grid = grid;
  }

  Outcome begin() {
    std::error_code ignored;
    size_ = static_cast<double>(std::filesystem::file_size(table_->file, ignored));
    if (!bytes_.open()) return broken("the file cannot be opened", "check its permissions");
    for (int i = 0; i < 4 && !bytes_.ended(); ++i) bytes_.more();
    if (bytes_.held().starts_with(kUtf8Mark)) bytes_.pass(kUtf8Mark.size());
    if (bytes_.held().substr(0, 256).find('\0') != std::string_view::npos)
      return broken("the text is UTF-16", "save it as UTF-8 to screen it");
    ROOTSTEAD_CHECK(read_header());
    const std::filesystem::path path = table_->file;
    ProblemLog log(table_->name);
    const SourceJob source{path, table_->options, table_->grid, log};
    ColumnMap used;
    ROOTSTEAD_TRY(table_->fields, field_table(source, table_->header, Topic::trees, used));
    return take_system(used);
  }

  Result<bool> next(TreeBlock& block, bool wanted) override {
    block.number = blocks_;
    block.first_row = row_ + 1;
    block.text.clear();
    std::size_t rows = 0;
    while (rows < kBlockRows) {
      ROOTSTEAD_TRY(const std::size_t end, row_end_read());
      if (end == 0) break;
      if (wanted) block.text.append(bytes_.held().substr(0, end));
      bytes_.pass(end);
      ++rows;
    }
    row_ += rows;
    if (rows > 0) ++blocks_;
    return rows > 0;
  }

  Result<std::unique_ptr<TreeBlockReader>> reader() const override {
    ROOTSTEAD_TRY(Georeference georeference,
                  Georeference::make(table_->system, table_->grid, table_->name));
    return std::unique_ptr<TreeBlockReader>(
        std::make_unique<TableBlockReader>(table_, std::move(georeference)));
  }

  double done() const override { return size_ > 0 ? std::min(bytes_.at() / size_, 1.0) : 1; }

 private:
  Error broken(std::string what, std::string remedy) const {
    return {Code::format_broken, table_->name, std::move(what), std::move(remedy)};
  }

  // Of the row that comes next; 0 at the end of the file.
  Result<std::size_t> row_end_read() {
    while (true) {
      const std::size_t end = row_end(bytes_.held(), 0, table_->delimiter);
      if (end != std::string_view::npos) return end;
      if (bytes_.ended()) return bytes_.held().size();
      if (bytes_.held().size() > kLongestRow)
        return Error{Code::format_broken, table_->name + " row " + std::to_string(row_ + 1),
                     "a quotation mark opens here and never closes",
                     "close it, or remove it from the cell"};
      bytes_.more();
      if (bytes_.failed())
        return broken("the file cannot be read to its end", "copy or export it again");
    }
  }

  Outcome read_header() {
    std::string_view held = bytes_.held();
    if (!bytes_.ended()) held = held.substr(0, held.find_last_of("\r\n") + 1);  // whole letters
    const DecodedText first = decoded(std::string(held));
    CsvReader reader(first.text);
    CsvRow row;
    if (!reader.next(row)) return broken("the file is empty", "export it again");
    table_->delimiter = reader.delimiter();
    for (const std::string& cell : row.cells) table_->header.emplace_back(trimmed(cell));
    for (std::size_t passed = 0; passed < row.row; ++passed) {
      ROOTSTEAD_TRY(const std::size_t end, row_end_read());
      bytes_.pass(end);
    }
    row_ = row.row;
    return Nothing{};
  }

  Outcome take_system(const ColumnMap& used) {
    const FieldTable& fields = *table_->fields;
    const bool degrees =
        fields.has(Field::longitude) || fields.has(Field::lat_lon) || fields.has(Field::lon_lat);
    const bool grid = fields.has(Field::easting) && fields.has(Field::northing);
    if (!degrees && !grid && !fields.has(Field::wkt))
      return Error{Code::column_missing, table_->name, "no coordinate columns are found",
                   "map easting and northing, longitude and latitude, or wkt in a column map; the "
                   "columns are " +
                       joined(table_->header, ", ")};
    table_->system = {used.crs, fields.unit(Field::easting)};
    if (degrees && !grid && used.crs.empty()) table_->system.crs = "EPSG:4326";
    return Nothing{};
  }

  Bytes bytes_;
  std::shared_ptr<Table> table_;
  std::size_t row_ = 0, blocks_ = 0;
  double size_ = 0;
};

}  // namespace

Result<std::unique_ptr<TreeBlocks>> open_tree_table(const ScreenJob& job,
                                                    const ReferenceSystem& grid) {
  ROOTSTEAD_CHECK(check_file(job.trees.from));
  auto blocks = std::make_unique<TableBlocks>(job, grid);
  ROOTSTEAD_CHECK(blocks->begin());
  return std::unique_ptr<TreeBlocks>(std::move(blocks));
}

}  // namespace rootstead::io
