#include "io/rule_parts.hpp"

#include <algorithm>

#include "engine/base/nearest.hpp"
#include "io/table_files.hpp"

namespace rootstead::io {
namespace {

void check_source(Section& section, const std::string& id, const std::vector<Source>& own_sources) {
  std::vector<std::string> known;
  for (const Source& source : own_sources) known.push_back(source.id);
  for (const Source& source : shipped_sources()) known.push_back(source.id);
  if (std::find(known.begin(), known.end(), id) != known.end()) return;
  const std::string near = nearest(id, known);
  section.mistake(
      "source", "the source \"" + id + "\" is not known",
      near.empty() ? "add it to this file as [[sources]] with id and title"
                   : "perhaps \"" + near + "\" is meant; else add it to this file as [[sources]]");
}

std::vector<GrowthForm> read_forms(Section& section) {
  using enum GrowthForm;
  const auto written = section.texts("forms");
  if (written == std::vector<std::string>{"all"}) {
    return {unknown, broadleaf, conifer, palm, other_monocot};
  }
  auto known = words_of({broadleaf, conifer, palm, other_monocot});
  known.emplace_back("all");
  return read_words<GrowthForm>(section, "forms", growth_form_from, known);
}

}  // namespace

std::vector<std::string> stem_conventions() {
  using enum StemConvention;
  return words_of({single, root_sum_square, mean_times_root_count, largest_plus_half_rest, sum,
                   two_largest, largest});
}

std::optional<Status> read_status(Section& section, const std::string& key) {
  using enum Status;
  return section.word<Status>(key, status_from,
                              words_of({published, common_practice, memory, assumption}));
}

Source read_rule_source(const toml::table& table, Mistakes& mistakes) {
  Section section(table, mistakes);
  Source source{section.text("id"), section.text("title"), section.text("note")};
  if (source.id.empty() || source.title.empty()) {
    section.mistake("id", "a source needs an id and a title", "add what is missing");
  }
  section.finish();
  return source;
}

Citation read_head_citation(Section& head, const std::vector<Source>& own_sources) {
  Citation citation;
  citation.source = head.text("source");
  citation.place = head.text("place");
  citation.status = read_status(head, "status").value_or(citation.status);
  if (!head.has("status")) {
    head.mistake("status", "the status of the rule is missing",
                 "say whether it was read (\"published\"), is \"common practice\", is given "
                 "\"from memory\" or is \"our assumption\"");
  }
  if (citation.source.empty()) {
    head.mistake("source", "the source of the rule is missing",
                 "name a source of data/sources.csv, or add one as [[sources]]");
  } else if (!head.reported("source")) {
    check_source(head, citation.source, own_sources);
  }
  return citation;
}

Citation read_citation(Section& section, const Citation& head,
                       const std::vector<Source>& own_sources) {
  Citation citation = head;
  if (section.has("source")) citation = {section.text("source"), "", head.status};
  if (section.has("place")) citation.place = section.text("place");
  citation.status = read_status(section, "status").value_or(citation.status);
  if (section.has("source") && !citation.source.empty() && !section.reported("source")) {
    check_source(section, citation.source, own_sources);
  }
  return citation;
}

Applies read_applies(const toml::table& table, Mistakes& mistakes) {
  Section section(table, mistakes);
  Applies applies;
  applies.forms = read_forms(section);
  applies.conditions = read_words<Condition>(
      section, "conditions", condition_from,
      words_of({Condition::good, Condition::fair, Condition::poor, Condition::dead}));
  using enum LifeStage;
  applies.stages =
      read_words<LifeStage>(section, "stages", life_stage_from,
                            words_of({young, semi_mature, mature, over_mature, veteran}));
  applies.categories = section.texts("categories");
  applies.taxa = section.texts("taxa");
  applies.columnar = section.flag("columnar");
  applies.several_stems = section.flag("several_stems");
  applies.leaning = section.flag("leaning");
  section.finish();
  return applies;
}

}  // namespace rootstead::io
