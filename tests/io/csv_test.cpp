#include "io/csv.hpp"

#include <zlib.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace rootstead::io {
namespace {

using Cells = std::vector<std::string>;

std::vector<Cells> rows_of(std::string_view text, char delimiter = 0) {
  CsvReader reader(text, delimiter);
  std::vector<Cells> rows;
  for (CsvRow row; reader.next(row);) rows.push_back(row.cells);
  return rows;
}

TEST(Csv, reads_quoted_cells_with_delimiters_quotes_and_line_breaks) {
  // RFC 4180, section 2, rules 5 to 7.
  const auto rows = rows_of("a,b\r\n\"x,1\",\"say \"\"hi\"\"\"\r\n\"two\r\nlines\",z\r\n");
  EXPECT_EQ(rows, (std::vector<Cells>{{"a", "b"}, {"x,1", "say \"hi\""}, {"two\r\nlines", "z"}}));
}

TEST(Csv, reads_every_kind_of_line_end_and_a_last_line_without_one) {
  for (const char* text : {"a,b\n1,2\n3,4", "a,b\r\n1,2\r\n3,4\r\n", "a,b\r1,2\r3,4\r"}) {
    EXPECT_EQ(rows_of(text), (std::vector<Cells>{{"a", "b"}, {"1", "2"}, {"3", "4"}})) << text;
  }
}

TEST(Csv, finds_the_delimiter) {
  EXPECT_EQ(CsvReader("a,b,c\n1,2,3\n").delimiter(), ',');
  EXPECT_EQ(CsvReader("a;b;c\n1,5;2,5;3,5\n").delimiter(), ';');
  EXPECT_EQ(CsvReader("a\tb\n1\t2,3\n").delimiter(), '\t');
  EXPECT_EQ(CsvReader("a|b|c\n1|2|3\n").delimiter(), '|');
  EXPECT_EQ(CsvReader("a;\"x,y,z\"\n1;\"p,q,r\"\n").delimiter(), ';');
  EXPECT_EQ(CsvReader("only\n1\n2\n").delimiter(), ',');
}

TEST(Csv, obeys_a_first_line_that_names_the_delimiter) {
  CsvReader reader("sep=;\r\na;b\r\n1;2\r\n");
  CsvRow row;
  ASSERT_TRUE(reader.next(row));
  EXPECT_EQ(row.cells, (Cells{"a", "b"}));
  EXPECT_EQ(row.row, 2u);
}

TEST(Csv, keeps_inch_marks_inside_cells) {
  EXPECT_EQ(rows_of("d,h\n16\",5'6\"\n"), (std::vector<Cells>{{"d", "h"}, {"16\"", "5'6\""}}));
}

TEST(Csv, numbers_rows_as_a_spreadsheet_does) {
  CsvReader reader("a,b\n\n1,2\n\"x\ny\",3\n4,5\n");
  std::vector<std::size_t> numbers;
  for (CsvRow row; reader.next(row);) numbers.push_back(row.row);
  EXPECT_EQ(numbers, (std::vector<std::size_t>{1, 3, 4, 5}));
}

TEST(Csv, names_rows_with_too_few_or_too_many_cells) {
  const auto table = parse_csv("a,b,c\n1,2,3\n1,2\n1,2,3,4\n", "t.csv");
  ASSERT_TRUE(table);
  EXPECT_EQ(table->ragged, (std::vector<std::size_t>{3, 4}));
  EXPECT_EQ(column_of(*table, "c"), 2u);
  EXPECT_EQ(column_of(*table, "d"), std::nullopt);
}

TEST(Csv, says_where_a_quote_never_closes) {
  const auto table = parse_csv("a,b\n1,2\n\"3,4\n5,6\n", "t.csv");
  ASSERT_FALSE(table);
  EXPECT_EQ(table.error().sentence(),
            "t.csv row 3: a quotation mark opens here and never closes; close it, or remove it "
            "from the cell.");
}

TEST(Csv, decodes_marks_utf16_and_windows_1252) {
  EXPECT_EQ(decoded("\xEF\xBB\xBFid").text, "id");
  EXPECT_EQ(decoded("B\xC3\xA4ume").encoding, "UTF-8");
  EXPECT_EQ(decoded("B\xE4ume \x80").text, "B\xC3\xA4ume \xE2\x82\xAC");
  EXPECT_EQ(decoded("B\xE4ume").encoding, "Windows-1252");
  EXPECT_EQ(decoded(std::string("\xFF\xFE"
                                "a\0\xE4\0",
                                6))
                .text,
            "a\xC3\xA4");
  EXPECT_EQ(decoded(std::string("\xFE\xFF\0a", 4)).text, "a");
}

class CsvFile : public ::testing::Test {
 protected:
  void SetUp() override {
    const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
    folder_ =
        std::filesystem::temp_directory_path() / (std::string("rootstead-csv-") + test->name());
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  std::filesystem::path folder_;
};

TEST_F(CsvFile, reads_gzip_and_refuses_a_cut_one) {
  const auto file = folder_ / "t.csv.gz";
  gzFile zipped = gzopen(file.c_str(), "wb");
  for (int i = 0; i < 5000; ++i) gzprintf(zipped, "%d,%d\n", i, i * 7919 % 4999);
  gzclose(zipped);
  const auto table = read_csv(file);
  ASSERT_TRUE(table);
  EXPECT_EQ(table->rows.size(), 4999u);

  std::filesystem::resize_file(file, std::filesystem::file_size(file) / 2);
  const auto cut = read_csv(file);
  ASSERT_FALSE(cut);
  EXPECT_EQ(cut.error().code, Code::file_unreadable);
}

TEST_F(CsvFile, fails_where_there_is_no_file) {
  EXPECT_EQ(read_csv(folder_ / "none.csv").error().code, Code::file_not_found);
  EXPECT_EQ(read_csv(folder_).error().code, Code::file_unreadable);
}

RC_GTEST_PROP(Csv, any_table_written_by_the_rfc_reads_back, ()) {
  const auto cell =
      rc::gen::container<std::string>(rc::gen::element('a', ',', '"', '\n', ' ', ';'));
  const auto width = *rc::gen::inRange<std::size_t>(2, 5);
  const auto row = rc::gen::container<std::vector<std::string>>(width, cell);
  const auto rows = *rc::gen::nonEmpty(rc::gen::container<std::vector<Cells>>(row));
  std::string text;
  for (const Cells& cells : rows) {
    for (std::size_t i = 0; i < cells.size(); ++i) {
      text += i == 0 ? "\"" : ",\"";
      for (const char c : cells[i]) text += c == '"' ? std::string("\"\"") : std::string(1, c);
      text += '"';
    }
    text += "\r\n";
  }
  RC_ASSERT(rows_of(text, ',') == rows);
}

}  // namespace
}  // namespace rootstead::io
