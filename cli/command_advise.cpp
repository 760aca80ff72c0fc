// advise: what is to be done, grouped by work and tree; what cannot stand as drawn; how much of it.
#include <algorithm>
#include <ostream>

#include "cli/command.hpp"
#include "cli/job.hpp"
#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "io/json.hpp"

namespace rootstead::cli {
namespace {

struct AdviseCommand {
  ProjectOptions project;
  bool json = false;
};

// What is said of one work at one tree; of the whole site where both are empty.
struct Group {
  std::string work, tree;
  std::vector<const Prescription*> prescriptions;
};

// In the order in which they are first spoken of: the whole site, works with their trees, trees.
std::vector<Group> grouped(const std::vector<Prescription>& prescriptions) {
  std::vector<Group> groups;
  for (const Prescription& one : prescriptions) {
    auto found = std::find_if(groups.begin(), groups.end(), [&one](const Group& group) {
      return group.work == one.work && group.tree == one.tree;
    });
    if (found == groups.end()) found = groups.insert(groups.end(), {one.work, one.tree, {}});
    found->prescriptions.push_back(&one);
  }
  const auto first_of = [&groups](const std::string& work) {
    return std::find_if(groups.begin(), groups.end(),
                        [&work](const Group& group) { return group.work == work; }) -
           groups.begin();
  };
  std::vector<std::pair<std::ptrdiff_t, Group>> ordered;
  for (const Group& group : groups) {
    const bool of_tree_alone = group.work.empty() && !group.tree.empty();
    const bool of_site = group.work.empty() && group.tree.empty();
    const auto last = static_cast<std::ptrdiff_t>(groups.size());
    ordered.emplace_back(of_site ? -1 : of_tree_alone ? last : first_of(group.work), group);
  }
  std::stable_sort(ordered.begin(), ordered.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<Group> in_order;
  for (auto& [place, group] : ordered) in_order.push_back(std::move(group));
  return in_order;
}

std::string tree_label(const Site& site, const std::string& id) {
  const Tree* tree = site.tree(id);
  if (tree == nullptr) return "tree " + id;
  return "tree " + tree->label() +
         (tree->botanical_name.empty() ? "" : " (" + tree->botanical_name + ")");
}

std::string title_of(const Group& group, const Site& site) {
  if (group.work.empty() && group.tree.empty()) return "The whole site";
  if (group.work.empty()) return "T" + tree_label(site, group.tree).substr(1);
  return work_label(site, group.work) +
         (group.tree.empty() ? "" : ", " + tree_label(site, group.tree));
}

void print_groups(const OpenProject& open, const std::vector<Prescription>& prescriptions,
                  std::ostream& out) {
  for (const Group& group : grouped(prescriptions)) {
    out << title_of(group, open.site) << '\n';
    for (const Prescription* one : group.prescriptions) {
      out << "  " << one->topic << ": " << one->text << '\n' << "    why: ";
      if (!one->reason.empty()) out << one->reason << ' ';
      out << source_text(one->from, open.tables) << " [" << to_text(one->from.status) << "]\n";
    }
    out << '\n';
  }
}

// What was asked for and cannot be answered: levels, moves, replacement rules.
std::vector<std::string> not_said(const Advice& advice) {
  std::vector<std::string> sentences;
  if (advice.no_levels) sentences.push_back(advice.no_levels->sentence());
  for (const TreeAdvice& tree : advice.trees) {
    if (tree.no_move) sentences.push_back(tree.no_move->sentence());
    if (tree.move && !tree.move->no_ball.empty())
      sentences.push_back("tree " + tree.tree + ": " + tree.move->no_ball);
  }
  for (const Error& error : advice.replacement.not_applied) sentences.push_back(error.sentence());
  return sentences;
}

std::string quantity_text(const BillItem& item, UnitSystem units) {
  const AmountText amounts{units};
  if (item.unit == "m") return amounts.length(Length::metres(item.quantity));
  if (item.unit == "m2") return amounts.area(Area::square_metres(item.quantity));
  if (item.unit == "m3") return amounts.volume(item.quantity);
  return shortest_number(item.quantity) + " " + item.unit;
}

void print_bill(const OpenProject& open, const ProtectionPlan& plan, std::ostream& out) {
  std::vector<TableRow> rows{{"quantity", "item", "source"}};
  for (const BillItem& item : plan.bill) {
    rows.push_back({quantity_text(item, open.site.settings.units), item.text,
                    source_text(item.from, open.tables) + " [" +
                        std::string(to_text(item.from.status)) + "]"});
  }
  out << "Bill of protection: " << counted(plan.bill.size(), "item", "items") << '\n'
      << text_table(rows, {0}) << '\n';
}

void print_clashes(const std::vector<Clash>& clashes, std::ostream& out) {
  out << counted(clashes.size(), "clash", "clashes") << '\n';
  for (const Clash& clash : clashes)
    out << "  " << to_text(clash.kind) << ": " << clash.text << ' ' << clash.remedy << '\n';
  out << '\n';
}

void print_advice(const OpenProject& open, const Assessment& assessment, const Advice& advice,
                  std::ostream& out) {
  if (open.site.settings.demo) out << "INVENTED DATA: a demonstration, no real place.\n\n";
  print_groups(open, advice.prescriptions(), out);
  for (const std::string& sentence : not_said(advice)) out << "Not said: " << sentence << '\n';
  if (advice.protection) {
    print_clashes(advice.protection->clashes, out);
    print_bill(open, *advice.protection, out);
  }
  for (const std::string& caution : advice.replacement.cautions)
    out << "Caution: " << caution << '\n';
  for (const std::string& caution : assessment.cautions) out << "Caution: " << caution << '\n';
}

io::Json json_of(const Prescription& one, const Tables& tables) {
  io::Json figures = io::Json::array();
  for (const Figure& figure : one.figures) figures.push_back(io::to_json(figure, tables));
  return {{"topic", one.topic},
          {"work", one.work},
          {"tree", one.tree},
          {"text", one.text},
          {"reason", one.reason},
          {"source", source_text(one.from, tables)},
          {"status", to_text(one.from.status)},
          {"figures", std::move(figures)}};
}

io::Json json_of(const Clash& clash) {
  return {
      {"kind", to_text(clash.kind)}, {"ids", clash.ids},      {"x", clash.at.x}, {"y", clash.at.y},
      {"text", clash.text},          {"remedy", clash.remedy}};
}

io::Json json_of(const BillItem& item, const Tables& tables) {
  return {{"item", item.name},
          {"text", item.text},
          {"unit", item.unit},
          {"quantity", item.quantity},
          {"parts", item.parts},
          {"source", source_text(item.from, tables)},
          {"status", to_text(item.from.status)}};
}

io::Json json_of(const OpenProject& open, const Assessment& assessment, const Advice& advice) {
  io::Json json = {{"prescriptions", io::Json::array()}, {"clashes", io::Json::array()},
                   {"bill", io::Json::array()},          {"not_said", not_said(advice)},
                   {"cautions", assessment.cautions},    {"data_version", assessment.data_version},
                   {"seed", assessment.simulation.seed}, {"draws", assessment.simulation.draws},
                   {"demo", open.site.settings.demo}};
  for (const Prescription& one : advice.prescriptions())
    json["prescriptions"].push_back(json_of(one, open.tables));
  for (const std::string& caution : advice.replacement.cautions)
    json["cautions"].push_back(caution);
  if (!advice.protection) return json;
  for (const Clash& clash : advice.protection->clashes) json["clashes"].push_back(json_of(clash));
  for (const BillItem& item : advice.protection->bill)
    json["bill"].push_back(json_of(item, open.tables));
  return json;
}

Result<Exit> advise_and_print(const AdviseCommand& options, const Console& console) {
  ROOTSTEAD_TRY(const OpenProject open, open_to_assess(options.project, console));
  ROOTSTEAD_TRY(const Assessment assessment, assess_project(open, console));
  ROOTSTEAD_TRY(const Advice advice, advise_project(open, assessment));
  if (options.json) {
    console.out << io::written(json_of(open, assessment, advice));
  } else {
    print_advice(open, assessment, advice, console.out);
  }
  const bool clashes = advice.protection && !advice.protection->clashes.empty();
  return clashes ? Exit::problems : Exit::done;
}

}  // namespace

void add_advise(CLI::App& app, Job& chosen) {
  CLI::App& command = declare(app, "advise",
                              "Say what is to be done, work by work and tree by tree; exit code 1 "
                              "if the protection plan clashes",
                              "rootstead advise mill-lane.gpkg --json > mill-lane-advice.json");
  auto options = std::make_shared<AdviseCommand>();
  take_project(command, options->project.file);
  command.add_flag("--json", options->json, "Print JSON (docs/formats/json.md)");
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, advise_and_print);
}

}  // namespace rootstead::cli
