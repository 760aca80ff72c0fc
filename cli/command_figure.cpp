// figure: one published figure by hand.
#include <ostream>

#include "cli/command.hpp"
#include "cli/figure_text.hpp"
#include "cli/job.hpp"
#include "io/json.hpp"
#include "io/tables.hpp"

namespace rootstead::cli {
namespace {

struct FigureOptions {
  std::string name;
  std::vector<std::string> arguments;
  std::string rules_dir;
  bool list = false;
  bool json = false;
};

Result<FigureArguments> arguments_of(const std::vector<std::string>& texts) {
  FigureArguments arguments;
  for (const std::string& text : texts) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos || equals == 0) {
      return Error{Code::wrong_use, "input " + text, "it names no key",
                   "write key=value with its unit, such as stem=500mm"};
    }
    arguments.emplace_back(text.substr(0, equals), text.substr(equals + 1));
  }
  return arguments;
}

void print_kinds(const std::vector<FigureKind>& kinds, std::ostream& out) {
  for (const FigureKind& kind : kinds) {
    out << kind.name << (kind.unit.empty() ? "" : "  [" + kind.unit + "]") << "  " << kind.meaning
        << '\n';
    for (const FigureInput& input : kind.inputs) {
      out << "    " << input.symbol << '=' << input.value << "  " << input.meaning << '\n';
    }
  }
}

io::Json kind_json(const FigureKind& kind) {
  io::Json inputs = io::Json::array();
  for (const FigureInput& input : kind.inputs) {
    inputs.push_back({{"key", input.symbol}, {"meaning", input.meaning}, {"example", input.value}});
  }
  return {{"figure", kind.name},
          {"unit", kind.unit},
          {"meaning", kind.meaning},
          {"inputs", std::move(inputs)}};
}

Result<Exit> list_figures(const Tables& tables, bool json, std::ostream& out) {
  const std::vector<FigureKind> kinds = figure_kinds(tables);
  if (!json) {
    print_kinds(kinds, out);
    return Exit::done;
  }
  io::Json list = io::Json::array();
  for (const FigureKind& kind : kinds) list.push_back(kind_json(kind));
  out << io::written(list);
  return Exit::done;
}

// One figure is printed as an object, several as an array.
void print_json(const std::vector<Figure>& figures, const Tables& tables, std::ostream& out) {
  io::Json list = io::Json::array();
  for (const Figure& figure : figures) list.push_back(io::to_json(figure, tables));
  out << io::written(list.size() == 1 ? list.front() : list);
}

Result<Exit> compute_figure(const FigureOptions& options, const Console& console) {
  ROOTSTEAD_TRY(const Tables tables, io::load_tables(options.rules_dir));
  if (options.list) return list_figures(tables, options.json, console.out);
  if (options.name.empty()) {
    return Error{Code::wrong_use, "figure", "no figure is named",
                 "name one, or list them with `rootstead figure --list`"};
  }
  ROOTSTEAD_TRY(const FigureArguments arguments, arguments_of(options.arguments));
  ROOTSTEAD_TRY(const std::vector<Figure> figures, figure(tables, options.name, arguments));
  if (options.json) {
    print_json(figures, tables, console.out);
    return Exit::done;
  }
  for (const Figure& each : figures) console.out << trail_text(each, tables);
  return Exit::done;
}

}  // namespace

void add_figure(CLI::App& app, Job& chosen) {
  CLI::App& command = declare(app, "figure", "Compute one published figure by hand",
                              "rootstead figure bs5837-2012.zone stem=500mm\n"
                              "  rootstead figure --list");
  auto options = std::make_shared<FigureOptions>();
  command.add_option("NAME", options->name, "Figure, such as bs5837-2012.zone");
  command.add_option("INPUT", options->arguments, "key=value with its unit, such as stem=500mm");
  command.add_flag("--list", options->list, "List every figure with its inputs and units");
  command.add_flag("--json", options->json, "Print JSON (docs/formats/json.md)");
  command.add_option("--rules-dir", options->rules_dir, "Folder of your own rules and tables");
  when_parsed(command, options, chosen, compute_figure);
}

}  // namespace rootstead::cli
