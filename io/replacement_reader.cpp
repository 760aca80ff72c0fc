#include "io/replacement_reader.hpp"

#include <toml++/toml.h>

#include "io/rule_parts.hpp"
#include "io/toml_guard.hpp"
#include "io/toml_section.hpp"

namespace rootstead::io {
namespace {

class ReplacementReader {
 public:
  ReplacementReader(const toml::table& root, Mistakes& mistakes)
      : mistakes_(mistakes), head_(root, mistakes) {}

  ReplacementRule read() {
    read_head();
    rule_.terms = read_terms("planting");
    rule_.terms_without_leave = read_terms("planting_without_leave");
    if (const toml::table* table = head_.table("allowance")) read_allowance(*table);
    for (const toml::table* table : head_.tables("fee")) read_fee(*table);
    if (const toml::table* table = head_.table("guarantee")) read_guarantee(*table);
    head_.finish();
    return std::move(rule_);
  }

 private:
  void read_head() {
    rule_.id = head_.text("id");
    rule_.title = head_.text("title");
    rule_.jurisdiction = head_.text("jurisdiction");
    rule_.edition = head_.text("edition");
    rule_.checked = head_.text("checked");
    rule_.measured_at = head_.length("measured_at").value_or(EnteredLength{});
    rule_.notes = head_.texts("notes");
    rule_.diameter.stems =
        head_.word<StemConvention>("stems", stem_convention_from, stem_conventions())
            .value_or(StemConvention::root_sum_square);
    rule_.stems_status = read_status(head_, "stems_status");
    for (const toml::table* table : head_.tables("sources"))
      rule_.sources.push_back(read_rule_source(*table, mistakes_));
    default_ = read_head_citation(head_, rule_.sources);
  }

  Citation read_from(Section& section) { return read_citation(section, default_, rule_.sources); }

  std::vector<ReplacementTerm> read_terms(const std::string& key) {
    std::vector<ReplacementTerm> terms;
    for (const toml::table* table : head_.tables(key)) {
      Section section(*table, mistakes_);
      terms.push_back(read_term(section));
      section.finish();
    }
    return terms;
  }

  ReplacementTerm read_term(Section& section) {
    using enum ReplacementTerm::Kind;
    using enum ReplacementTerm::Gives;
    ReplacementTerm term;
    const auto kind = section.word<ReplacementTerm::Kind>(
        "kind", replacement_kind_from,
        words_of({diameter_share, number, by_class, by_category, by_sum}));
    if (!kind && !section.reported("kind"))
      section.mistake("kind", "the kind is missing", "add e.g. kind = \"share of diameter\"");
    term.kind = kind.value_or(diameter_share);
    const bool counts_trees = term.kind == number || term.kind == by_sum;
    term.gives = section
                     .word<ReplacementTerm::Gives>("gives", replacement_gives_from,
                                                   words_of({stem_diameter, trees}))
                     .value_or(counts_trees ? trees : stem_diameter);
    term.factor = section.share("factor").value_or(1);
    for (const toml::table* row : section.tables("rows")) term.rows.push_back(read_row(*row));
    if (const toml::table* table = section.table("for"))
      term.applies = read_applies(*table, mistakes_);
    term.at_least = section.length("at_least");
    term.clear_trunk = section.length("clear_trunk");
    term.note = section.text("note");
    term.from = read_from(section);
    return term;
  }

  ReplacementTerm::Row read_row(const toml::table& table) {
    Section section(table, mistakes_);
    ReplacementTerm::Row row;
    row.up_to = section.length("up_to").value_or(EnteredLength{});
    row.category = section.text("category");
    row.value = section.number("value").value_or(0);
    if (!section.has("value"))
      section.mistake("value", "the row has no value", "add e.g. value = 2");
    section.finish();
    return row;
  }

  void read_allowance(const toml::table& table) {
    Section section(table, mistakes_);
    ReplacementAllowance allowance;
    allowance.share = section.share("share").value_or(0);
    for (const toml::table* group : section.tables("order")) {
      Section part(*group, mistakes_);
      ReplacementAllowance::Group read{part.text("name"), {}};
      if (const toml::table* applies = part.table("for"))
        read.applies = read_applies(*applies, mistakes_);
      allowance.order.push_back(std::move(read));
      part.finish();
    }
    allowance.note = section.text("note");
    allowance.from = read_from(section);
    section.finish();
    rule_.allowance = std::move(allowance);
  }

  void read_fee(const toml::table& from) {
    using enum ReplacementFee::Kind;
    using enum ReplacementFee::Due;
    Section section(from, mistakes_);
    ReplacementFee fee;
    const auto kind = section.word<ReplacementFee::Kind>(
        "kind", fee_kind_from,
        words_of({per_inch_removed, per_inch_owed, per_tree, ReplacementFee::Kind::table}));
    if (!kind && !section.reported("kind"))
      section.mistake("kind", "the kind of fee is missing", "add e.g. kind = \"per inch owed\"");
    fee.kind = kind.value_or(per_inch_owed);
    fee.due = section
                  .word<ReplacementFee::Due>("due", fee_due_from,
                                             words_of({instead_of_planting, without_leave}))
                  .value_or(instead_of_planting);
    fee.amount = {section.number("amount").value_or(0), section.text("currency")};
    for (const toml::table* row : section.tables("rows")) fee.rows.push_back(read_fee_row(*row));
    fee.pattern_per_inch = section.number("pattern_per_inch");
    fee.pattern_status = read_status(section, "pattern_status");
    fee.note = section.text("note");
    fee.from = read_from(section);
    section.finish();
    rule_.fees.push_back(std::move(fee));
  }

  ReplacementFee::Row read_fee_row(const toml::table& table) {
    Section section(table, mistakes_);
    ReplacementFee::Row row;
    row.diameter = section.length("diameter").value_or(EnteredLength{});
    row.owed = section.length("owed").value_or(EnteredLength{});
    row.fee = section.number("fee").value_or(0);
    row.place = section.text("place");
    section.finish();
    return row;
  }

  void read_guarantee(const toml::table& table) {
    using enum Guarantee::Basis;
    Section section(table, mistakes_);
    Guarantee guarantee;
    guarantee.basis =
        section
            .word<Guarantee::Basis>("basis", guarantee_basis_from,
                                    words_of({planting_cost, tree_value, stated_elsewhere}))
            .value_or(stated_elsewhere);
    guarantee.least_share = section.share("least");
    guarantee.most_share = section.share("most");
    if (const auto most = section.number("at_most"))
      guarantee.at_most = Money{*most, section.text("currency")};
    for (const toml::table* stage : section.tables("stage")) {
      Section part(*stage, mistakes_);
      guarantee.stages.push_back(
          {part.share("share"), part.number("months"), part.text("condition")});
      part.finish();
    }
    guarantee.note = section.text("note");
    guarantee.from = read_from(section);
    section.finish();
    rule_.guarantee = std::move(guarantee);
  }

  Mistakes& mistakes_;
  Section head_;
  ReplacementRule rule_;
  Citation default_;
};

}  // namespace

ReplacementReading read_replacement_rule(std::string_view toml, std::string_view file_name) {
  Mistakes mistakes{std::string(file_name)};
  ReplacementReading reading;
  if (auto unfit = unfit_for_toml(toml, std::string(file_name))) {
    reading.mistakes.push_back(std::move(*unfit));
    return reading;
  }
  try {
    const toml::table root = toml::parse(toml, file_name);
    reading.rule = ReplacementReader(root, mistakes).read();
  } catch (const toml::parse_error& error) {
    mistakes.add(error.source().begin.line, "this is not TOML: " + std::string(error.description()),
                 "compare the line with the example in docs/formats/tables.md");
  }
  reading.rule.file = std::string(file_name);
  reading.mistakes = std::move(mistakes).in_line_order();
  return reading;
}

}  // namespace rootstead::io
