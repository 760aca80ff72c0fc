// The PDF itself, read back by tools that are not ours (poppler-utils, qpdf).
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <regex>

#include "report/report.hpp"
#include "tests/report/sample_plan.hpp"

namespace rootstead::test {
namespace {

namespace fs = std::filesystem;

class Pdf : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string name = (fs::temp_directory_path() / "rootstead-report-XXXXXX").string();
    ASSERT_NE(mkdtemp(name.data()), nullptr);
    folder_ = name;
  }
  void TearDown() override { fs::remove_all(folder_); }

  static std::string bytes(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  // Everything a command prints, and whether it ended well.
  static std::pair<std::string, bool> run(const std::string& command) {
    std::string out;
    FILE* pipe = popen((command + " 2>&1").c_str(), "r");
    if (pipe == nullptr) return {out, false};
    std::array<char, 4096> buffer{};
    for (std::size_t n = 0; (n = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;)
      out.append(buffer.data(), n);
    return {out, pclose(pipe) == 0};
  }
  static bool has(const std::string& tool) { return run("command -v " + tool).second; }

  fs::path written(const std::string& name = "report.pdf") {
    const fs::path file = folder_ / name;
    const Outcome outcome = write_report(sample_.plan(), {}, file);
    EXPECT_TRUE(outcome.ok()) << (outcome ? "" : outcome.error().sentence());
    return file;
  }
  // The report of the sample as it is, made once for all tests that only read it.
  fs::path shared() {
    static const std::string once = bytes(written());
    const fs::path file = folder_ / "report.pdf";
    std::ofstream(file, std::ios::binary) << once;
    return file;
  }

  fs::path folder_;
  Sample sample_ = sample();
};

TEST_F(Pdf, is_the_same_to_the_byte_when_made_twice) {
  const std::string first = bytes(written("one.pdf")), second = bytes(written("two.pdf"));
  ASSERT_FALSE(first.empty());
  EXPECT_TRUE(first == second);
}

TEST_F(Pdf, is_the_same_to_the_byte_where_the_date_is_no_date) {
  sample_.site.settings.date = "late autumn";
  EXPECT_TRUE(bytes(written("one.pdf")) == bytes(written("two.pdf")));
}

TEST_F(Pdf, is_tagged_titled_and_as_long_as_its_layout) {
  if (!has("pdfinfo")) GTEST_SKIP() << "pdfinfo is not installed";
  const auto meter = layout::pango_meter();
  const auto document = make_report(sample_.plan(), {}, *meter);
  ASSERT_TRUE(document.ok());
  const std::string info = run("pdfinfo " + shared().string()).first;
  EXPECT_TRUE(std::regex_search(info, std::regex("Tagged: +yes"))) << info;
  EXPECT_TRUE(std::regex_search(info, std::regex("Title: +Harbour Walk.*invented data")));
  EXPECT_TRUE(std::regex_search(info, std::regex("Author: +R. Alder")));
  EXPECT_TRUE(std::regex_search(
      info, std::regex("Pages: +" + std::to_string(document->pages.size()) + "\\b")));
}

TEST_F(Pdf, has_headings_tables_and_figures_in_its_structure) {
  if (!has("pdfinfo")) GTEST_SKIP() << "pdfinfo is not installed";
  const std::string tree = run("pdfinfo -struct " + shared().string()).first;
  for (const char* role : {"Document", "H1", "H2", "Table", "TR", "TH", "TD", "Figure", "P "})
    EXPECT_NE(tree.find(role), std::string::npos) << role;
}

TEST_F(Pdf, embeds_every_font) {
  if (!has("pdffonts")) GTEST_SKIP() << "pdffonts is not installed";
  const std::string fonts = run("pdffonts " + shared().string()).first;
  EXPECT_NE(fonts.find("Inter"), std::string::npos) << fonts;
  const std::regex row("(yes|no) +(yes|no) +(yes|no) +\\d+ +\\d+");
  int rows = 0;
  for (std::sregex_iterator i(fonts.begin(), fonts.end(), row), end; i != end; ++i, ++rows)
    EXPECT_EQ((*i)[1], "yes") << i->str();
  EXPECT_GT(rows, 2);
}

TEST_F(Pdf, keeps_the_size_of_every_sheet) {
  if (!has("pdfinfo")) GTEST_SKIP() << "pdfinfo is not installed";
  const std::string info = run("pdfinfo -f 1 -l 99 " + shared().string()).first;
  EXPECT_NE(info.find("1190.55 x 841.89"), std::string::npos) << info;
  EXPECT_NE(info.find("595.276 x 841.89"), std::string::npos);
}

TEST_F(Pdf, can_be_read_out_as_text) {
  if (!has("pdftotext")) GTEST_SKIP() << "pdftotext is not installed";
  const std::string text = run("pdftotext " + shared().string() + " -").first;
  EXPECT_NE(text.find("Platanus × hispanica"), std::string::npos);
  EXPECT_NE(text.find("Tree schedule"), std::string::npos);
}

TEST_F(Pdf, passes_the_check_of_qpdf) {
  if (!has("qpdf")) GTEST_SKIP() << "qpdf is not installed";
  const auto [said, well] = run("qpdf --check " + shared().string());
  EXPECT_TRUE(well) << said;
}

TEST_F(Pdf, that_cannot_be_written_says_so_and_leaves_nothing) {
  const fs::path file = folder_ / "no" / "such" / "folder.pdf";
  const Outcome outcome = write_report(sample_.plan(), {}, file);
  ASSERT_FALSE(outcome.ok());
  EXPECT_EQ(outcome.error().code, Code::file_unwritable);
  EXPECT_TRUE(fs::is_empty(folder_));
}

TEST_F(Pdf, leaves_an_older_report_alone_when_the_scale_is_refused) {
  const fs::path file = folder_ / "report.pdf";
  std::ofstream(file) << "older";
  EXPECT_FALSE(write_report(sample_.plan(), {SheetSize::a4, 50}, file).ok());
  EXPECT_EQ(bytes(file), "older");
}

TEST_F(Pdf, has_a_picture_of_its_plan_in_svg_and_png) {
  for (const char* name : {"plan.svg", "plan.png"}) {
    ASSERT_TRUE(write_plan_picture(sample_.plan(), folder_ / name).ok());
    EXPECT_GT(fs::file_size(folder_ / name), 10'000u);
  }
  const Outcome other = write_plan_picture(sample_.plan(), folder_ / "plan.bmp");
  ASSERT_FALSE(other.ok());
  EXPECT_EQ(other.error().code, Code::format_unknown);
}

}  // namespace
}  // namespace rootstead::test
