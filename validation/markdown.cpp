#include "validation/markdown.hpp"

#include <algorithm>
#include <charconv>
#include <set>

#include "engine/base/text.hpp"

namespace rootstead::validation {
namespace {

constexpr const char* kHead =
    "# Held against published observations\n\n"
    "Made by `./dev validate`; do not edit. The test `validation` computes every figure again and "
    "fails where this page says something else, or where too few targets are hit.\n\n"
    "## How to read it\n\n"
    "Each line is one published observation. *Published* is what its source says, with the status "
    "of our reading: \"from memory\" was recalled and not read again. *Model now* was computed by "
    "the program with its shipped tables when this page was made. *Tolerance* is ours: the spread "
    "that the source itself gives where it gives one, else what a consultant could live with. A "
    "line marked *yes* under *shaped on it* was known when the model's constants were chosen: a "
    "hit "
    "there shows that the program does what was meant, not that it can predict; only the other "
    "lines are predictions. Misses stay, with what we know about their cause. Most observations "
    "come "
    "from a few trees in one place; a hit is no promise for a particular tree.\n\n";

std::string cell(std::string_view text) {
  std::string safe;
  for (const char c : text) {
    if (c == '|') safe += '\\';
    safe += c == '\n' ? ' ' : c;
  }
  return safe;
}

// The works that the targets cite, for the end of the page.
std::string sources_of(const std::vector<FoundArea>& areas, const Tables& tables) {
  std::set<std::string> cited;
  for (const FoundArea& area : areas)
    for (const Target& target : area.findings.targets) cited.insert(target.source);
  std::string text = "## Sources\n\n| id | work | how it was read |\n|---|---|---|\n";
  for (const std::string& id : cited) {
    const Source* source = tables.source(id);
    if (source)
      text += "| " + id + " | " + cell(source->title) + " | " + cell(source->note) + " |\n";
  }
  return text;
}

// "T9" before "T10", and T before V.
std::pair<char, int> order_of(const std::string& id) {
  int number = 0;
  if (!id.empty()) std::from_chars(id.data() + 1, id.data() + id.size(), number);
  return {id.empty() ? ' ' : id[0], number};
}

std::vector<Target> sorted(std::vector<Target> targets) {
  std::stable_sort(targets.begin(), targets.end(), [](const Target& a, const Target& b) {
    return order_of(a.id) < order_of(b.id);
  });
  return targets;
}

std::string line_of(const Target& target) {
  std::string line;
  for (const std::string& text :
       {target.id, target.observation, target.source + ", " + std::string(to_text(target.status)),
        target.published, target.model, target.tolerance,
        std::string(target.hit ? "hit" : "**MISS**"), std::string(target.calibrated ? "yes" : "no"),
        target.remark})
    line += "| " + cell(text) + " ";
  return line + "|\n";
}

std::string table_of(const std::vector<Target>& targets) {
  std::string table =
      "| id | observation | source | published | model now | tolerance | | shaped on it | remark "
      "|\n"
      "|---|---|---|---|---|---|---|---|---|\n";
  for (const Target& target : sorted(targets)) table += line_of(target);
  return table + "\n";
}

bool in_series(const Target& target, const Requirement& requirement) {
  const auto [series, number] = order_of(target.id);
  return series == requirement.series && number >= 1 && number <= requirement.count;
}

std::string totals_of(const std::vector<FoundArea>& areas) {
  std::string text =
      "## Totals\n\n| targets | hit | missed | not computed | wanted |\n|---|---|---|---|---|\n";
  for (const Requirement& requirement : kRequirements) {
    const Tally found = tally(areas, requirement);
    const std::string letter(1, requirement.series);
    text += "| " + requirement.name + ", " + letter + "1 to " + letter +
            std::to_string(requirement.count) + " | " + std::to_string(found.hits) + " | " +
            std::to_string(found.misses) + " | " + std::to_string(found.absent.size()) +
            " | at least " + std::to_string(requirement.least_hits) + " hit |\n";
  }
  int shaped = 0, hits_unshaped = 0, unshaped = 0, others = 0;
  for (const FoundArea& area : areas)
    for (const Target& target : area.findings.targets) {
      (target.calibrated ? shaped : unshaped) += 1;
      hits_unshaped += !target.calibrated && target.hit;
      others += std::none_of(kRequirements.begin(), kRequirements.end(),
                             [&](const Requirement& r) { return in_series(target, r); });
    }
  text += "\nOf all lines " + std::to_string(shaped) + " shaped the model; of the other " +
          std::to_string(unshaped) + " it hits " + std::to_string(hits_unshaped) + ".";
  if (others > 0) text += " " + std::to_string(others) + " lines are beyond the two series.";
  return text + "\n\n";
}

}  // namespace

Tally tally(const std::vector<FoundArea>& areas, const Requirement& requirement) {
  Tally result;
  std::set<int> seen;
  for (const FoundArea& area : areas)
    for (const Target& target : area.findings.targets) {
      if (!in_series(target, requirement)) continue;
      if (!seen.insert(order_of(target.id).second).second) continue;
      ++(target.hit ? result.hits : result.misses);
    }
  for (int i = 1; i <= requirement.count; ++i)
    if (!seen.contains(i)) result.absent.push_back(requirement.series + std::to_string(i));
  return result;
}

std::vector<std::string> shortcomings(const std::vector<FoundArea>& areas, const Tables& tables,
                                      bool partial) {
  std::vector<std::string> faults;
  for (const Requirement& requirement : kRequirements) {
    const Tally found = tally(areas, requirement);
    const int possible = found.hits + (partial ? static_cast<int>(found.absent.size()) : 0);
    if (possible < requirement.least_hits)
      faults.push_back("of the " + std::to_string(requirement.count) + " targets of " +
                       requirement.name + " only " + std::to_string(found.hits) + " are hit (" +
                       std::to_string(found.absent.size()) + " are not computed); " +
                       std::to_string(requirement.least_hits) + " are wanted");
  }
  std::set<std::string> ids;
  for (const FoundArea& area : areas)
    for (const Target& target : area.findings.targets) {
      if (!ids.insert(target.id).second) faults.push_back(target.id + " is there twice");
      if (tables.source(target.source) == nullptr)
        faults.push_back(target.id + ": the source \"" + target.source +
                         "\" is not in sources.csv");
      if (!target.hit && target.remark.empty())
        faults.push_back(target.id + " is missed without a remark that explains it");
    }
  return faults;
}

std::string page_of(const std::vector<FoundArea>& areas, const Tables& tables) {
  std::string page = kHead + totals_of(areas);
  for (const FoundArea& area : areas) {
    page += "## " + area.title + "\n\n" + table_of(area.findings.targets);
    for (const Plot& plot : area.findings.plots)
      page += "![" + plot.title + "](pictures/validation/" + plot.file + ")\n\n";
  }
  return page + sources_of(areas, tables);
}

}  // namespace rootstead::validation
