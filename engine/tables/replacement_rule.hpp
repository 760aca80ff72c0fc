// ReplacementRule: what one authority asks for trees that are removed, as data: what is to be
// planted, what is free of it, what is paid instead, and what is held as a guarantee. Read from
// data/replacement/*.toml (io does the parsing); docs/formats/tables.md describes the file, and
// engine/replacement computes with it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/source.hpp"
#include "engine/base/units.hpp"
#include "engine/site/diameter.hpp"
#include "engine/tables/zone_rule.hpp"

namespace rootstead {

// What is owed for one removed tree, or for all of them together.
struct ReplacementTerm {
  enum class Kind {
    diameter_share,  // stem diameter to be planted = factor * D
    number,          // trees to be planted = factor, for every tree
    by_class,        // by D: see rows; trees, or a factor of D
    by_category,     // by the class that a person enters as the tree's category: see rows
    by_sum,          // trees by the sum of D of all removed trees: see rows
  };
  Kind kind = Kind::diameter_share;
  enum class Gives { stem_diameter, trees };
  Gives gives = Gives::stem_diameter;  // what the factor and the rows count
  double factor = 1;

  struct Row {
    EnteredLength up_to;   // by_class, by_sum: D or the sum, up to and including
    std::string category;  // by_category
    double value = 0;      // trees, or factor of D
  };
  std::vector<Row> rows;  // by_class, by_sum: ascending; above the last there is no figure

  // Empty forms: all but palms and other monocots. A term that lists palms and takes D puts palms
  // through their stem diameter, because the authority does.
  Applies applies;
  std::optional<EnteredLength> at_least;     // D from which a tree counts
  std::optional<EnteredLength> clear_trunk;  // palms: clear trunk from which they count
  Citation from;
  std::string note;
};

// What may be removed without replacement.
struct ReplacementAllowance {
  double share = 0;  // of the sum of D of all trees of the site that the rule is for
  // Which trees use it up first: taxa, group after group; empty: not said in our copy.
  struct Group {
    std::string name;
    Applies applies;
  };
  std::vector<Group> order;
  Citation from;
  std::string note;
};

// Money, in the currency the source states.
struct Money {
  double amount = 0;
  std::string currency;  // "USD"
  friend bool operator==(const Money&, const Money&) = default;
};

// What is paid where nothing is planted, or where a tree was removed without leave.
struct ReplacementFee {
  enum class Kind {
    per_inch_removed,  // amount times D
    per_inch_owed,     // amount times the stem diameter owed
    per_tree,          // amount for every removed tree
    table,             // verbatim rows
  };
  Kind kind = Kind::per_inch_owed;
  enum class Due { instead_of_planting, without_leave };
  Due due = Due::instead_of_planting;
  Money amount;  // of a table: empty

  // A row as it is printed, slips included.
  struct Row {
    EnteredLength diameter;  // D of the removed tree, as printed
    EnteredLength owed;      // stem diameter owed for it, as printed
    double fee = 0;          // as printed
    std::string place;       // row or page
  };
  std::vector<Row> rows;                   // ascending
  std::optional<double> pattern_per_inch;  // what the other rows charge for an inch owed
  std::optional<Status> pattern_status;
  Citation from;
  std::string note;
};

// What is held until the trees have lived.
struct Guarantee {
  enum class Basis { planting_cost, tree_value, stated_elsewhere };
  Basis basis = Basis::planting_cost;
  std::optional<double> least_share, most_share;  // of the basis, 1.1 and 1.3
  std::optional<Money> at_most;

  struct Stage {
    std::optional<double> share;   // of the whole, released at this stage
    std::optional<double> months;  // after the start that `condition` names
    std::string condition;         // "at occupancy"
  };
  std::vector<Stage> stages;  // in the order of release
  Citation from;
  std::string note;
};

struct ReplacementRule {
  std::string id;            // "alachua-county-fl"
  std::string title;         // "Alachua County, Florida, fee in place of replacement"
  std::string jurisdiction;  // "USA, Florida, Alachua County"
  std::string edition;
  std::string checked;        // date the text was last read, or "not read"
  EnteredLength measured_at;  // height at which D is taken; 0: not said in our copy
  DiameterRule diameter;
  std::optional<Status> stems_status;
  // The first term that applies to a tree is the one that counts; without_leave apart.
  std::vector<ReplacementTerm> terms;
  std::vector<ReplacementTerm> terms_without_leave;
  std::optional<ReplacementAllowance> allowance;
  std::vector<ReplacementFee> fees;  // those of one Due add up
  std::optional<Guarantee> guarantee;
  std::vector<std::string> notes;
  std::vector<Source> sources;  // works the rule's own file names
  std::string file;             // where it was read from
};

// A published figure that breaks the pattern of its own table. It is used as printed, and said.
struct TableAnomaly {
  std::string rule;
  std::string row;     // "56 in, 107 in owed"
  double printed = 0;  // used
  double pattern = 0;  // what the other rows would give
  std::string unit;    // "USD", "trees"
  std::string sentence() const;
};

// Rows of the rule's tables that break their pattern: a fee more than 1 % off the middle fee per
// inch owed of its table (or off the pattern the file states), and classes in which a thicker tree
// owes less. Never an error: the source is what it is.
std::vector<TableAnomaly> anomalies_of(const ReplacementRule& rule);

// Everything wrong with the rule as a rule: rows out of order, shares outside 0 to 1, stages that
// release more than the whole, nothing in it at all. Each says what to do.
std::vector<Error> coherence(const ReplacementRule& rule, const std::vector<Source>& sources);

// Words of the rule files.
std::string_view to_text(ReplacementTerm::Kind kind);    // "share of diameter", "number" ...
std::string_view to_text(ReplacementTerm::Gives gives);  // "diameter", "trees"
std::string_view to_text(ReplacementFee::Kind kind);     // "per inch removed" ...
std::string_view to_text(ReplacementFee::Due due);       // "instead of planting", "without leave"
std::string_view to_text(Guarantee::Basis basis);        // "planting cost", "tree value" ...
std::optional<ReplacementTerm::Kind> replacement_kind_from(std::string_view text);
std::optional<ReplacementTerm::Gives> replacement_gives_from(std::string_view text);
std::optional<ReplacementFee::Kind> fee_kind_from(std::string_view text);
std::optional<ReplacementFee::Due> fee_due_from(std::string_view text);
std::optional<Guarantee::Basis> guarantee_basis_from(std::string_view text);

}  // namespace rootstead
