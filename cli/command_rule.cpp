// rule: list the zone rules, show one, or check a rule of your own.
#include <algorithm>
#include <fstream>
#include <iterator>
#include <ostream>

#include "cli/command.hpp"
#include "cli/job.hpp"
#include "cli/rule_text.hpp"
#include "io/json.hpp"
#include "io/tables.hpp"

namespace rootstead::cli {
namespace {

struct RuleOptions {
  std::string id;
  std::string file;
  std::string rules_dir;
  bool json = false;
};

Result<Exit> list_rules(const RuleOptions& options, const Console& console) {
  ROOTSTEAD_TRY(const Tables tables, io::load_tables(options.rules_dir));
  if (options.json) {
    io::Json list = io::Json::array();
    for (const ZoneRule& rule : tables.rules) list.push_back(io::to_json(rule, tables));
    console.out << io::written(list);
    return Exit::done;
  }
  std::vector<TableRow> rows{{"id", "where", "title", "weakest status"}};
  for (const ZoneRule& rule : tables.rules) {
    rows.push_back({rule.id, rule.jurisdiction,
                    rule.title + (rule.off_by_default ? " (off unless named)" : ""),
                    std::string(to_text(weakest_status(rule)))});
  }
  console.out << text_table(rows);
  return Exit::done;
}

Result<Exit> show_rule(const RuleOptions& options, const Console& console) {
  ROOTSTEAD_TRY(const Tables tables, io::load_tables(options.rules_dir));
  const ZoneRule* rule = tables.rule(options.id);
  if (rule == nullptr) {
    return Error{Code::unknown_name, "rule " + options.id, "there is no rule of this name",
                 "choose from `rootstead rule list`, or name your own folder with --rules-dir"};
  }
  console.out << (options.json ? io::written(io::to_json(*rule, tables))
                               : rule_text(*rule, tables));
  return Exit::done;
}

Result<std::string> text_of(const std::string& file) {
  std::ifstream stream(file, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(stream), {}};
  if (stream.is_open() && !stream.bad()) return text;
  return Error{Code::file_not_found, file, "the file cannot be read",
               "check its name, and that it is a readable file"};
}

void print_mistakes(const RuleOptions& options, const ZoneRule& rule,
                    const std::vector<Error>& mistakes, std::ostream& out) {
  for (const Error& mistake : mistakes) out << mistake.sentence() << '\n';
  if (mistakes.empty()) {
    out << options.file << ": rule " << rule.id
        << " is sound: " << counted(rule.zones.size(), "zone", "zones") << ", "
        << counted(rule.limits.size(), "limit", "limits") << ".\n";
  } else {
    out << counted(mistakes.size(), "mistake", "mistakes") << ".\n";
  }
}

io::Json mistakes_json(const std::vector<Error>& mistakes) {
  io::Json list = io::Json::array();
  for (const Error& mistake : mistakes) {
    list.push_back({{"code", static_cast<int>(mistake.code)},
                    {"subject", mistake.subject},
                    {"message", mistake.message},
                    {"remedy", mistake.remedy}});
  }
  return {{"mistakes", std::move(list)}};
}

Result<Exit> check_rule(const RuleOptions& options, const Console& console) {
  ROOTSTEAD_TRY(const Tables tables, io::load_tables(options.rules_dir));
  ROOTSTEAD_TRY(const std::string text, text_of(options.file));
  const io::RuleReading reading = io::read_rule(text, options.file);
  std::vector<Error> mistakes = reading.mistakes;
  if (mistakes.empty()) mistakes = coherence(reading.rule, tables.sources);
  if (options.json) {
    console.out << io::written(mistakes_json(mistakes));
  } else {
    print_mistakes(options, reading.rule, mistakes, console.out);
  }
  return mistakes.empty() ? Exit::done : Exit::problems;
}

CLI::App& declare_part(CLI::App& rule, const std::shared_ptr<RuleOptions>& options,
                       const char* name, const char* does, const char* example) {
  CLI::App& part = declare(rule, name, does, example);
  part.add_flag("--json", options->json, "Print JSON (docs/formats/json.md)");
  part.add_option("--rules-dir", options->rules_dir, "Folder of your own rules and tables");
  return part;
}

}  // namespace

void add_rule(CLI::App& app, Job& chosen) {
  CLI::App& command =
      declare(app, "rule", "List, show or check zone rules", "rootstead rule show bs5837-2012");
  command.require_subcommand(1);
  auto options = std::make_shared<RuleOptions>();

  CLI::App& list = declare_part(command, options, "list", "List every rule",
                                "rootstead rule list --rules-dir my-rules");
  when_parsed(list, options, chosen, list_rules);

  CLI::App& show = declare_part(command, options, "show", "Show one rule with its sources",
                                "rootstead rule show as4970-2009");
  show.add_option("ID", options->id, "Rule to show")->required();
  when_parsed(show, options, chosen, show_rule);

  CLI::App& check = declare_part(command, options, "check",
                                 "Explain every mistake in a rule of your own; exit code 1 if any",
                                 "rootstead rule check our-town.toml");
  check.add_option("FILE", options->file, "Rule to check, TOML")->required();
  when_parsed(check, options, chosen, check_rule);
}

}  // namespace rootstead::cli
