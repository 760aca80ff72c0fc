#include "cli/rule_text.hpp"

#include "cli/job.hpp"
#include "engine/base/text.hpp"

namespace rootstead::cli {
namespace {

std::string plus_offset(const EnteredLength& offset) {
  return offset.value == 0 ? "" : " + " + to_text(offset);
}

std::string rows_text(const ZoneTerm& term) {
  std::string text = "by D:";
  for (const ZoneTerm::Row& row : term.rows) {
    text += " to " + to_text(row.up_to) + ": " + to_text(row.radius) + ";";
  }
  if (term.beyond_factor > 0) text += " beyond: " + shortest_number(term.beyond_factor) + " D";
  return text;
}

std::string matrix_text(const ZoneTerm& term) {
  std::string text =
      "D times, by tolerance (good/moderate/poor) and age (young/mature/over-mature):";
  for (const auto& row : term.matrix) {
    text += " ";
    for (std::size_t i = 0; i < row.size(); ++i) {
      text += (i == 0 ? "" : "/") + shortest_number(row[i]);
    }
    text += ";";
  }
  return text;
}

std::string term_text(const ZoneTerm& term) {
  const std::string factor = shortest_number(term.factor);
  const std::string times = term.factor == 1 ? "" : factor + " x ";
  switch (term.kind) {
    case ZoneTerm::Kind::stem_multiple:
      return factor + " D" + plus_offset(term.offset);
    case ZoneTerm::Kind::girth_multiple:
      return factor + " U (girth)" + plus_offset(term.offset);
    case ZoneTerm::Kind::power:
      return factor + " (" + shortest_number(term.base) + " D)^" + shortest_number(term.exponent) +
             plus_offset(term.offset);
    case ZoneTerm::Kind::crown_outline:
      return times + "crown outline" + plus_offset(term.offset);
    case ZoneTerm::Kind::crown_circle:
      return times + "largest crown radius" + plus_offset(term.offset);
    case ZoneTerm::Kind::height_multiple:
      return factor + " H (height)" + plus_offset(term.offset);
    case ZoneTerm::Kind::fixed:
      return to_text(term.offset);
    case ZoneTerm::Kind::class_table:
      return rows_text(term);
    case ZoneTerm::Kind::vigour_table:
      return matrix_text(term);
  }
  return "";
}

std::string cited(const Citation& citation, const Tables& tables) {
  return source_text(citation, tables) + " [" + std::string(to_text(citation.status)) + "]";
}

template <class Items>
std::string names_of(const Items& items) {
  std::vector<std::string> names;
  for (const auto& item : items) names.emplace_back(to_text(item));
  return joined(names, ", ");
}

// Which trees a zone is for: "all but palms and other monocots; only mature; columnar crowns".
std::string trees_text(const Applies& applies) {
  std::vector<std::string> parts{applies.forms.empty() ? "all but palms and other monocots"
                                                       : names_of(applies.forms)};
  if (!applies.conditions.empty()) parts.push_back("condition " + names_of(applies.conditions));
  if (!applies.stages.empty()) parts.push_back(names_of(applies.stages));
  if (!applies.categories.empty()) {
    parts.push_back("category " + joined(applies.categories, ", "));
  }
  if (!applies.taxa.empty()) parts.push_back(joined(applies.taxa, ", "));
  if (applies.columnar) {
    parts.push_back(*applies.columnar ? "columnar crowns only" : "no columnar crowns");
  }
  if (applies.leaning) {
    parts.push_back(*applies.leaning ? "leaning trees only" : "no leaning trees");
  }
  return joined(parts, "; ");
}

std::string zone_text(const ZoneDefinition& zone, const Tables& tables) {
  std::string text = "\nzone " + zone.id + ": " + zone.name + "\n  for       " +
                     std::string(to_text(zone.purpose)) + "\n";
  for (const ZoneTerm& term : zone.terms) text += "  radius    " + term_text(term) + "\n";
  if (zone.terms.size() > 1) {
    text += "  largest   by " + std::string(to_text(zone.largest_by)) + "\n";
  }
  if (zone.at_least) text += "  at least  " + to_text(*zone.at_least) + "\n";
  if (zone.at_most) text += "  at most   " + to_text(*zone.at_most) + "\n";
  text += "  from      " + std::string(to_text(zone.centre)) + "\n";
  text += "  trees     " + trees_text(zone.applies) + "\n";
  if (zone.redraw_at_barriers) text += "  barriers  an equal area is kept on the tree's side\n";
  if (!zone.note.empty()) text += "  note      " + zone.note + "\n";
  return text + "  source    " + cited(zone.from, tables) + "\n";
}

std::string limit_text(const LimitDefinition& limit, const Tables& tables) {
  std::string text = "\nlimit " + limit.id + " on " + limit.zone + "\n  counts    " +
                     std::string(to_text(limit.measure)) + ", " +
                     (limit.inclusive ? "passed from " : "passed above ") +
                     shortest_number(limit.threshold) + "\n";
  if (!limit.kinds.empty()) text += "  works     " + names_of(limit.kinds) + "\n";
  text += "  then      " + limit.triggers + " (" + std::string(to_text(limit.weight)) + ")\n";
  return text + "  source    " + cited(limit.from, tables) + "\n";
}

}  // namespace

Status weakest_status(const ZoneRule& rule) {
  Status weakest = Status::published;
  for (const ZoneDefinition& zone : rule.zones) weakest = weaker(weakest, zone.from.status);
  for (const LimitDefinition& limit : rule.limits) weakest = weaker(weakest, limit.from.status);
  return weakest;
}

std::string rule_text(const ZoneRule& rule, const Tables& tables) {
  std::string text = rule.id + ": " + rule.title + "\n  where     " + rule.jurisdiction +
                     "\n  edition   " + rule.edition + "\n  checked   " + rule.checked +
                     "\n  measured  D at " + to_text(rule.measured_at) + "\n  stems     " +
                     std::string(to_text(rule.diameter.stems));
  if (rule.diameter.many_above > 0) {
    text += "; more than " + std::to_string(rule.diameter.many_above) + ": " +
            std::string(to_text(rule.diameter.many));
  }
  text += "\n";
  if (rule.off_by_default) text += "  off by default: applied only where it is named\n";
  for (const ZoneDefinition& zone : rule.zones) text += zone_text(zone, tables);
  for (const LimitDefinition& limit : rule.limits) text += limit_text(limit, tables);
  for (const std::string& note : rule.notes) text += "\nNote: " + note + "\n";
  return text;
}

}  // namespace rootstead::cli
