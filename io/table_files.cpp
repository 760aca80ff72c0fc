#include "io/table_files.hpp"

#include <functional>

#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/embedded.hpp"

namespace rootstead::io {
namespace {

// One row, read cell by cell; the first cell that is wrong is the row's error.
class Row {
 public:
  Row(const CsvTable& table, const CsvRow& row, const std::string& file)
      : table_(table), row_(row), subject_(file + " row " + std::to_string(row.row)) {}

  std::string text(std::string_view column) {
    const auto at = column_of(table_, column);
    if (!at) fail("the column \"" + std::string(column) + "\" is missing", "add it to the header");
    if (!at || *at >= row_.cells.size()) return {};
    return std::string(trimmed(row_.cells[*at]));
  }

  double number(std::string_view column) {
    const auto value = number_from(text(column));
    if (!value) fail(std::string(column) + " is not a number", "write it with a decimal point");
    return value.value_or(0);
  }

  template <class Value>
  Value word(std::string_view column, Value if_empty,
             std::optional<Value> (*read)(std::string_view)) {
    const std::string written = text(column);
    if (written.empty()) return if_empty;
    const auto value = read(written);
    if (!value)
      fail("\"" + written + "\" is not known as " + std::string(column), "check the word");
    return value.value_or(if_empty);
  }

  Citation citation(const std::string& prefix) {
    return {text(prefix + "source"), text(prefix + "place"),
            word(prefix + "status", Status::assumption, status_from)};
  }

  void fail(std::string message, std::string remedy) {
    if (error) return;
    error = Error{Code::table_incoherent, subject_, std::move(message), std::move(remedy)};
  }

  std::optional<Error> error;

 private:
  const CsvTable& table_;
  const CsvRow& row_;
  std::string subject_;
};

template <class Fact>
std::vector<Fact> read_facts(std::string_view csv, const std::string& file,
                             std::vector<Error>& errors, Fact (*read)(Row&)) {
  const auto table = parse_csv(csv, file, ',');
  if (!table) {
    errors.push_back(table.error());
    return {};
  }
  std::vector<Fact> facts;
  for (const CsvRow& cells : table->rows) {
    Row row(*table, cells, file);
    Fact fact = read(row);
    if (cells.cells.size() != table->header.size()) {
      row.fail("the row has " + std::to_string(cells.cells.size()) + " cells, the header " +
                   std::to_string(table->header.size()),
               "put texts with commas in quotes");
    }
    if (row.error) errors.push_back(*row.error);
    if (!row.error) facts.push_back(std::move(fact));
  }
  return facts;
}

Source read_source(Row& row) {
  return {row.text("id"), row.text("title"), row.text("note")};
}

Species read_one_species(Row& row) {
  Species species;
  species.botanical_name = row.text("botanical_name");
  species.common_name = row.text("common_name");
  species.form = row.word("form", GrowthForm::unknown, growth_form_from);
  species.architecture =
      row.word("architecture", RootArchitecture::unknown, root_architecture_from);
  species.architecture_from = row.citation("architecture_");
  species.tolerance = row.word("tolerance", Tolerance::unknown, tolerance_from);
  const std::string disagree = lower_case(row.text("tolerance_disagree"));
  species.sources_disagree = disagree == "yes" || disagree == "true" || disagree == "1";
  species.tolerance_from = row.citation("tolerance_");
  if (!row.text("palm_top_share").empty()) species.palm_top_share = row.number("palm_top_share");
  return species;
}

Parameter read_parameter(Row& row) {
  return {row.text("id"),     row.number("low"), row.number("best"),  row.number("high"),
          row.text("spread"), row.text("unit"),  row.text("meaning"), row.citation("")};
}

AnchorageResistance read_resistance(Row& row) {
  AnchorageResistance resistance;
  resistance.botanical_name = row.text("botanical_name");
  resistance.synonym = row.text("synonym");
  resistance.trees = static_cast<int>(row.number("trees"));
  if (!row.text("geometric_mean").empty()) resistance.geometric_mean = row.number("geometric_mean");
  resistance.median = row.number("median");
  resistance.least = row.number("least");
  resistance.most = row.number("most");
  resistance.sd_ln = row.number("sd_ln");
  resistance.from = row.citation("");
  return resistance;
}

CrownDrag read_drag(Row& row) {
  CrownDrag drag;
  drag.taxon = row.text("taxon");
  drag.in_leaf = {row.number("low"), row.number("best"), row.number("high")};
  if (!row.text("bare_best").empty())
    drag.bare = {row.number("bare_low"), row.number("bare_best"), row.number("bare_high")};
  drag.from = row.citation("");
  return drag;
}

}  // namespace

std::vector<Source> read_sources(std::string_view csv, std::vector<Error>& errors) {
  return read_facts<Source>(csv, "sources.csv", errors, read_source);
}

std::vector<Species> read_species(std::string_view csv, std::vector<Error>& errors) {
  return read_facts<Species>(csv, "species.csv", errors, read_one_species);
}

std::vector<Parameter> read_parameters(std::string_view csv, const std::string& file,
                                       std::vector<Error>& errors) {
  return read_facts<Parameter>(csv, file, errors, read_parameter);
}

std::vector<AnchorageResistance> read_anchorage_resistances(std::string_view csv,
                                                            std::vector<Error>& errors) {
  return read_facts<AnchorageResistance>(csv, "anchorage_resistance.csv", errors, read_resistance);
}

std::vector<CrownDrag> read_crown_drags(std::string_view csv, std::vector<Error>& errors) {
  return read_facts<CrownDrag>(csv, "crown_drag.csv", errors, read_drag);
}

const std::vector<Source>& shipped_sources() {
  static const std::vector<Source> sources = [] {
    std::vector<Error> ignored;  // load_tables reports them
    return read_sources(embedded_file("sources.csv").value_or(""), ignored);
  }();
  return sources;
}

}  // namespace rootstead::io
