// Results in a project: the whole of one assessment, or none of it.
#include "io/project_change.hpp"
#include "io/project_settings.hpp"
#include "io/result_rows.hpp"
#include "io/stored_table.hpp"

namespace rootstead::io {
namespace {

Outcome clear(const Project::State& state) {
  for (const std::string& table : result_tables()) {
    Statement remove(state.database, "DELETE FROM " + table);
    ROOTSTEAD_CHECK(remove.run());
  }
  return Nothing{};
}

template <class Row>
Outcome insert_all(Inserter<Row>& insert, const std::vector<Row>& rows) {
  for (const Row& row : rows) ROOTSTEAD_CHECK(insert(row));
  return Nothing{};
}

Outcome write_head(const Project::State& state, const Site& site, const Assessment& assessment,
                   const std::string& when) {
  Inserter<AssessmentRow> insert(state.database, "assessment", state.frame);
  ROOTSTEAD_CHECK(
      insert({when, assessment.data_version, static_cast<std::int64_t>(assessment.simulation.seed),
              assessment.simulation.draws, static_cast<std::int64_t>(assessment.trees.size()),
              site.settings.demo}));
  Inserter<CautionRow> cautions(state.database, "cautions", state.frame);
  for (const std::string& caution : assessment.cautions) ROOTSTEAD_CHECK(cautions({caution}));
  return Nothing{};
}

Outcome write_trees(const Project::State& state, const Site& site, const Assessment& assessment) {
  const Database& database = state.database;
  Inserter<ZoneRow> zones(database, "zones", state.frame);
  Inserter<LossRow> losses(database, "losses", state.frame);
  Inserter<RootLossRow> root_losses(database, "root_losses", state.frame);
  Inserter<LimitRow> limits(database, "limits", state.frame);
  Inserter<AnchorageRow> anchorage(database, "anchorage", state.frame);
  Inserter<VerdictRow> verdicts(database, "verdicts", state.frame);
  const TreeFinder surveyed(site);
  for (const TreeAssessment& tree : assessment.trees) {
    ROOTSTEAD_CHECK(insert_all(zones, zone_rows(surveyed(tree.tree), tree)));
    ROOTSTEAD_CHECK(insert_all(losses, loss_rows(tree)));
    ROOTSTEAD_CHECK(insert_all(root_losses, root_loss_rows(tree)));
    ROOTSTEAD_CHECK(insert_all(limits, limit_rows(tree)));
    if (const auto row = anchorage_row(tree)) ROOTSTEAD_CHECK(anchorage(*row));
    ROOTSTEAD_CHECK(verdicts(verdict_row(surveyed(tree.tree), tree)));
  }
  return Nothing{};
}

}  // namespace

Outcome Project::save_assessment(const Site& site, const Assessment& assessment,
                                 const std::string& when) {
  std::vector<std::string> tables = result_tables();
  tables.insert(tables.end(), {"settings", "journal"});
  const std::string detail = std::to_string(assessment.trees.size()) + " trees, data " +
                             assessment.data_version + ", seed " +
                             std::to_string(assessment.simulation.seed) + ", " +
                             std::to_string(assessment.simulation.draws) + " draws";
  return change(*state_, when, "assess", detail, tables, [&]() -> Outcome {
    ROOTSTEAD_CHECK(check_unchanged(*state_, "while it was being assessed",
                                    "assess it again; the earlier results are untouched"));
    ROOTSTEAD_CHECK(clear(*state_));
    ROOTSTEAD_CHECK(write_settings(state_->database, site.settings));
    ROOTSTEAD_CHECK(write_head(*state_, site, assessment, when));
    return write_trees(*state_, site, assessment);
  });
}

}  // namespace rootstead::io
