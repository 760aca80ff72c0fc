// screen: the trees of a town against the works of a network, by one rule.
#include <cstdlib>
#include <ostream>
#include <thread>

#include "cli/command.hpp"
#include "cli/job.hpp"
#include "engine/assess/assess.hpp"
#include "engine/base/text.hpp"
#include "io/screening.hpp"
#include "io/tables.hpp"

namespace rootstead::cli {
namespace {

constexpr int kMostThreads = 256, kMostParts = 100'000;

struct ScreenCommand {
  io::ScreenJob job;
  std::string tree_columns, work_columns, length_unit, look, part, rules_dir;
};

Result<std::optional<io::ColumnMap>> map_of(const std::string& file) {
  using Maybe = std::optional<io::ColumnMap>;
  if (file.empty()) return Maybe{};
  ROOTSTEAD_TRY(io::ColumnMap map, io::column_map_from_toml(file));
  return Maybe{std::move(map)};
}

std::optional<int> whole_number(const char* text) {
  const auto number = text == nullptr ? std::optional<double>() : number_from(text);
  if (!number || *number < 0 || *number > kMostParts) return std::nullopt;
  return static_cast<int>(*number);
}

// "2/8": the second of eight.
Outcome take_part(const std::string& text, io::ScreenJob& job) {
  const auto cut = text.find('/');
  const auto part =
      cut == std::string::npos ? std::nullopt : whole_number(text.substr(0, cut).c_str());
  const auto parts =
      cut == std::string::npos ? std::nullopt : whole_number(text.substr(cut + 1).c_str());
  if (!part || !parts || *part < 1 || *part > *parts)
    return Error{Code::wrong_use, "--part " + text, "this is no part of a whole",
                 "give two numbers, such as 2/8 for the second of eight"};
  job.part = *part - 1;
  job.parts = *parts;
  return Nothing{};
}

// Started by mpirun, each process knows its number from its environment; no library is needed.
void take_rank(io::ScreenJob& job) {
  const auto take = [&job](const char* rank_name, const char* size_name) {
    const auto rank = whole_number(std::getenv(rank_name));
    const auto size = whole_number(std::getenv(size_name));
    if (!rank || !size || *rank >= *size) return;
    job.part = *rank;
    job.parts = *size;
    job.wait = *size > 1;
  };
  take("PMI_RANK", "PMI_SIZE");
  take("OMPI_COMM_WORLD_RANK", "OMPI_COMM_WORLD_SIZE");
}

Outcome complete(ScreenCommand& command) {
  io::ScreenJob& job = command.job;
  ROOTSTEAD_TRY(job.trees.columns, map_of(command.tree_columns));
  ROOTSTEAD_TRY(job.works.columns, map_of(command.work_columns));
  if (!command.length_unit.empty()) {
    job.length_unit = length_unit_from(command.length_unit);
    if (!job.length_unit)
      return Error{Code::unit_unknown, "--length-unit " + command.length_unit,
                   "this is no unit of length", "give one of m, cm, mm, ft, us-ft, in"};
  }
  if (!command.look.empty()) {
    const auto look = entered_length_from(command.look);
    if (!look || look->length() < Length() || look->length() > Length::metres(1000))
      return Error{Code::value_invalid, "--look " + command.look, "this is no distance up to 1 km",
                   "give a number with its unit, such as 30m or 100ft"};
    job.look = look->length();
  }
  if (!command.part.empty()) {
    ROOTSTEAD_CHECK(take_part(command.part, job));
  } else {
    take_rank(job);
  }
  // Processes that share a machine have a core each; one alone has them all.
  if (job.threads == 0)
    job.threads =
        job.wait ? 1 : static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
  return Nothing{};
}

void print_counts(const std::string& head, const std::map<std::string, std::size_t>& counts,
                  std::ostream& out) {
  if (counts.empty()) return;
  out << head << '\n';
  for (const auto& [what, count] : counts) out << "  " << count << ": " << what << '\n';
}

void print_report(const io::ScreenReport& report, const io::ScreenJob& job, std::ostream& out) {
  if (!job.note.empty()) out << job.note << '\n';
  out << "Screened " << counted(report.trees, "tree", "trees") << " against "
      << counted(report.works, "work", "works") << " by the rule " << job.rule << " on "
      << report.grid << ".\n";
  if (report.works_existing > 0)
    out << report.works_existing << " of the works exist already and are not counted.\n";
  if (report.works_without_ground > 0)
    out << report.works_without_ground << " of the works take no ground in plan.\n";
  print_counts("Trees by status:", report.by_status, out);
  out << "The most that works take of any zone: " << percent(report.most_taken) << ".\n";
  print_counts("Without a figure, because:", report.without_figure, out);
  print_counts("Taken for want of a measurement:", report.remarks, out);
  if (report.blocks_found > 0)
    out << report.blocks_found << " of " << counted(report.blocks, "block", "blocks")
        << " were there from an earlier run.\n";
  if (report.tree_problems > 0)
    out << "Doubts of the reader about trees: " << report.tree_problems << ".\n";
  for (const std::string& problem : report.problems) out << "  " << problem << '\n';
  for (const auto& file : report.files) out << "Made " << file.string() << '\n';
  out << "\nThis sorts trees; it assesses none. Those in reach, and those without a figure near a "
         "work, go to the full model:\n"
         "  rootstead new site.gpkg --crs EPSG:n --rules "
      << job.rule
      << "\n  rootstead add site.gpkg TREES-IN-REACH --as trees; rootstead add site.gpkg WORKS "
         "--as "
         "works\n  rootstead assess site.gpkg\n\n";
  for (const std::string& caution : cautions()) out << "Caution: " << caution << '\n';
}

Result<Exit> run_screen(const ScreenCommand& asked, const Console& console) {
  ScreenCommand command = asked;
  ROOTSTEAD_CHECK(complete(command));
  ROOTSTEAD_TRY(const Tables tables, io::load_tables(command.rules_dir));
  std::string what;
  std::optional<Progress> line;
  const auto progress = [&](const char* doing, double done) {
    if (what != doing) line.emplace(console, what = doing);
    line->show(static_cast<std::size_t>(1000 * done), 1000);
  };
  ROOTSTEAD_TRY(const io::ScreenReport report, io::screen_network(command.job, tables, progress));
  line.reset();
  if (report.joined) {
    print_report(report, command.job, console.out);
  } else if (command.job.part == 0 || !command.part.empty()) {
    console.out << "Part " << command.job.part + 1 << " of " << command.job.parts
                << " is done: " << counted(report.blocks, "block", "blocks")
                << ". When all parts are, the same command without --part joins them.\n";
  }
  return Exit::done;
}

}  // namespace

void add_screen(CLI::App& app, Job& chosen) {
  CLI::App& command = declare(
      app, "screen", "Sort out, of a whole town, the trees that works come near",
      "rootstead screen --trees trees.csv.gz --works ducts.gpkg --rule bs5837-2012 --out near.csv");
  auto options = std::make_shared<ScreenCommand>();
  io::ScreenJob& job = options->job;
  job.threads = 0;
  job.layer = "screening";
  command
      .add_option("--trees", job.trees.from,
                  "Trees: .csv .tsv .txt (also .gz) .gpkg .fgb .geojson .shp, or PG:...")
      ->required();
  command
      .add_option("--works", job.works.from,
                  "Works: what `add --as works` reads, also .fgb, or PG:...")
      ->required();
  command.add_option("--rule", job.rule, "Rule that draws the zones")->required();
  command.add_option("--out", job.out, "File to write: .csv .gpkg .fgb, or PG:...")->required();
  command.add_option("--zone", job.zone, "One zone of the rule; else the widest of each tree");
  command.add_option("--crs", job.crs, "Grid to measure in; else that of the works or trees");
  command.add_option("--tree-layer", job.trees.layer, "Layer or table of the trees");
  command.add_option("--work-layer", job.works.layer, "Layer or table of the works");
  command.add_option("--tree-columns", options->tree_columns, "Column map of the trees, TOML");
  command.add_option("--work-columns", options->work_columns, "Column map of the works, TOML");
  command.add_option("--length-unit", options->length_unit,
                     "Unit of lengths that have none: m, cm, mm, ft, us-ft or in");
  command.add_option("--look", options->look,
                     "How far the nearest work is looked for beyond the zone; 30m if not given");
  command.add_option("--layer", job.layer, "Layer or table to write; `screening` if not given");
  command.add_option("--note", job.note, "A sentence that goes wherever the cautions go");
  command.add_option("--threads", job.threads, "Threads; all cores if not given, one under mpirun")
      ->check(CLI::Range(1, kMostThreads));
  command.add_option("--part", options->part, "Do one part of the trees only, such as 2/8");
  command.add_option("--rules-dir", options->rules_dir, "Folder of your own rules and tables");
  when_parsed(command, options, chosen, run_screen);
}

}  // namespace rootstead::cli
