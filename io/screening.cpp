#include "io/screening.hpp"

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <deque>
#include <mutex>
#include <thread>

#include "engine/assess/assess.hpp"
#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/screen_parts.hpp"
#include "io/screen_rows.hpp"
#include "io/screen_source.hpp"
#include "io/screen_trees.hpp"
#include "io/screen_works.hpp"
#include "io/screen_writers.hpp"
#include "io/source_look.hpp"

namespace rootstead::io {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kProblemsTold = 5;  // of a block, and of all
constexpr auto kPoll = std::chrono::milliseconds(200);

Result<std::string> system_named_by(const ScreenSource& source) {
  if (source.columns && !source.columns->crs.empty()) return source.columns->crs;
  if (is_database(source.from)) {
    ROOTSTEAD_TRY(const OpenLayer table, open_layer(source));
    return table.system;
  }
  const auto look = look_at_source(source.from);
  return look ? look->crs : std::string();
}

Result<ReferenceSystem> grid_of(const ScreenJob& job) {
  if (!job.crs.empty()) return reference_system(job.crs);
  for (const ScreenSource* source : {&job.works, &job.trees}) {
    ROOTSTEAD_TRY(const std::string named, system_named_by(*source));
    if (named.empty()) continue;
    if (auto grid = reference_system(named)) return grid;
  }
  return Error{Code::crs_unknown, "--crs", "neither source names a system that lengths are true in",
               "name the grid to measure in, such as --crs EPSG:32610"};
}

Result<const ZoneRule*> rule_of(const ScreenJob& job, const Tables& tables) {
  const ZoneRule* rule = tables.rule(job.rule);
  if (rule == nullptr)
    return Error{Code::unknown_name, "rule " + job.rule, "there is no rule of this name",
                 "choose from `rootstead rule list`, or name your own folder with --rules-dir"};
  std::vector<std::string> zones;
  for (const ZoneDefinition& zone : rule->zones) zones.push_back(zone.id);
  if (job.zone.empty() || std::find(zones.begin(), zones.end(), job.zone) != zones.end())
    return rule;
  return Error{Code::unknown_name, "zone " + job.zone, "the rule " + rule->id + " has no such zone",
               "use one of: " + joined(zones, ", ")};
}

// Size and time of a file tell whether it is still the same.
std::string identity(const std::string& source) {
  if (is_database(source)) return source_name(source);
  std::error_code ignored;
  const auto written = fs::last_write_time(source, ignored).time_since_epoch().count();
  return source_name(source) + " " + std::to_string(fs::file_size(source, ignored)) + " bytes " +
         std::to_string(written);
}

std::string what_is_screened(const ScreenJob& job, const Tables& tables, const std::string& grid) {
  const auto columns = [](const ScreenSource& source) {
    std::string text = source.columns ? to_toml(*source.columns) : std::string();
    std::replace(text.begin(), text.end(), '\n', ' ');
    return text;
  };
  return "trees " + identity(job.trees.from) + " layer " + job.trees.layer + "\ncolumns " +
         columns(job.trees) + "\nworks " + identity(job.works.from) + " layer " + job.works.layer +
         "\ncolumns " + columns(job.works) + "\nrule " + job.rule + " zone " + job.zone +
         "\ngrid " + grid + "\nlook " + shortest_number(job.look.metres()) + " m\nunit " +
         (job.length_unit ? std::to_string(static_cast<int>(*job.length_unit)) : "") + "\ndata " +
         tables.version + "\nrows of a block " + std::to_string(kBlockRows) + "\n";
}

fs::path parts_beside(const ScreenJob& job) {
  return is_database(job.out) ? fs::path(job.layer + ".parts") : fs::path(job.out + ".parts");
}

struct Network {
  const ScreenJob& job;
  const ZoneRule& rule;
  const Tables& tables;
  const NetworkWorks& works;
  double unit;
};

// What one thread needs to do blocks.
class BlockScreener {
 public:
  BlockScreener(const Network& network, std::unique_ptr<TreeBlockReader> reader)
      : network_(network),
        reader_(std::move(reader)),
        zones_(network.rule, network.tables, network.job.zone) {}

  Result<PartText> screened(const TreeBlock& block) {
    ROOTSTEAD_TRY(const TreesRead read, reader_->read(block));
    PartText part;
    part.trees = read.trees.size();
    part.problems = read.problems.size();
    for (std::size_t i = 0; i < std::min(kProblemsTold, read.problems.size()); ++i)
      part.first_problems.push_back(read.problems[i].sentence());
    std::vector<Point> places;
    places.reserve(read.trees.size());
    for (const Tree& tree : read.trees)
      places.push_back(tree.position ? tree.position->at : Point{});
    std::vector<TreeScreening> figures(read.trees.size());
    for (const std::uint32_t i : in_order_of_place(places))
      figures[i] = screen(read.trees[i], zones_.zone_of(read.trees[i]), network_.works.ground,
                          network_.job.look);
    for (std::size_t i = 0; i < read.trees.size(); ++i) {
      const Tree& tree = read.trees[i];
      add_screen_row({read.rows[i], read.ids[i], network_.rule.id, &tree, &zones_.zone_of(tree),
                      figures[i], network_.unit},
                     network_.works.ids, part.rows);
    }
    return part;
  }

 private:
  const Network& network_;
  std::unique_ptr<TreeBlockReader> reader_;
  ZoneMemory zones_;
};

// Hands blocks from the one who reads to those who screen; never more than a few wait.
class Handover {
 public:
  explicit Handover(std::size_t most) : most_(most) {}
  // False where somebody has failed.
  bool give(TreeBlock block) {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [&] { return waiting_.size() < most_ || error_; });
    if (error_) return false;
    waiting_.push_back(std::move(block));
    changed_.notify_all();
    return true;
  }
  std::optional<TreeBlock> take() {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [&] { return !waiting_.empty() || ended_ || error_; });
    if (waiting_.empty() || error_) return std::nullopt;
    TreeBlock block = std::move(waiting_.front());
    waiting_.pop_front();
    changed_.notify_all();
    return block;
  }
  void end() {
    const std::lock_guard lock(mutex_);
    ended_ = true;
    changed_.notify_all();
  }
  void fail(Error error) {
    const std::lock_guard lock(mutex_);
    if (!error_) error_ = std::move(error);
    changed_.notify_all();
  }
  const std::optional<Error>& error() const { return error_; }

 private:
  std::mutex mutex_;
  std::condition_variable changed_;
  std::deque<TreeBlock> waiting_;
  std::size_t most_;
  bool ended_ = false;
  std::optional<Error> error_;
};

class Screening {
 public:
  Screening(const Network& network, PartsFolder parts, TreeBlocks& blocks, ScreenReport& report)
      : network_(network), parts_(std::move(parts)), blocks_(blocks), report_(report) {}

  // Every block of this process that is not there yet. The number of all blocks of the source.
  Result<std::size_t> run(const ScreenProgress& progress) {
    const auto threads = static_cast<std::size_t>(std::max(network_.job.threads, 1));
    Handover handover(threads + 1);
    std::vector<std::thread> helpers;
    for (std::size_t i = 0; i < threads; ++i) helpers.emplace_back([&] { work(handover); });
    Result<std::size_t> all = read_blocks(handover, progress);
    if (!all) handover.fail(all.error());
    handover.end();
    for (std::thread& helper : helpers) helper.join();
    if (handover.error()) return *handover.error();
    return all;
  }

 private:
  // The reader is made in the thread that uses it: what moves its coordinates belongs to one
  // thread.
  void work(Handover& handover) {
    auto reader = blocks_.reader();
    if (!reader) return handover.fail(reader.error());
    BlockScreener screener(network_, std::move(reader).value());
    while (const auto block = handover.take()) {
      const auto part = screener.screened(*block);
      const Outcome written = part ? parts_.write(block->number, *part) : Outcome(part.error());
      if (!written) handover.fail(written.error());
    }
  }

  Result<std::size_t> read_blocks(Handover& handover, const ScreenProgress& progress) {
    const auto parts = static_cast<std::size_t>(network_.job.parts);
    const auto mine = static_cast<std::size_t>(network_.job.part);
    for (std::size_t number = 0;; ++number) {
      const bool ours = number % parts == mine;
      const bool found = ours && parts_.has(number);
      TreeBlock block;
      ROOTSTEAD_TRY(const bool any, blocks_.next(block, ours && !found));
      if (!any) return number;
      progress("screening", blocks_.done());
      report_.blocks += ours ? 1 : 0;
      report_.blocks_found += found ? 1 : 0;
      if (ours && !found && !handover.give(std::move(block))) return number;
    }
  }

  const Network& network_;
  PartsFolder parts_;
  TreeBlocks& blocks_;
  ScreenReport& report_;
};

// Counts what the rows say.
void count_rows(std::string_view rows, ScreenReport& report) {
  CsvReader reader(rows, ',');
  CsvRow row;
  const auto cell = [&row](ScreenColumn column) -> const std::string& {
    return row.cells[static_cast<std::size_t>(column)];
  };
  while (reader.next(row)) {
    if (row.cells.size() != kScreenColumns) continue;
    const std::string& status = cell(ScreenColumn::status);
    const std::string& remark = cell(ScreenColumn::remark);
    ++report.by_status[status];
    if (!remark.empty()) {
      const bool figure = !cell(ScreenColumn::share).empty();
      auto& reasons = figure ? report.remarks : report.without_figure;
      if (reasons.size() < 100 || reasons.contains(remark)) ++reasons[remark];
    }
    if (const auto share = number_from(cell(ScreenColumn::share)))
      report.most_taken = std::max(report.most_taken, *share);
  }
}

bool all_there(const PartsFolder& parts, std::size_t blocks) {
  for (std::size_t number = 0; number < blocks; ++number)
    if (!parts.has(number)) return false;
  return true;
}

Outcome join(const ScreenJob& job, const Tables& tables, const ReferenceSystem& grid,
             const PartsFolder& parts, std::size_t blocks, ScreenReport& report,
             const ScreenProgress& progress) {
  ROOTSTEAD_TRY(
      auto writer,
      ScreenWriter::open(job, grid, screening_about(job, tables, grid.code + " " + grid.name),
                         blocks * kBlockRows));
  for (std::size_t number = 0; number < blocks; ++number) {
    progress("writing", static_cast<double>(number) / static_cast<double>(blocks));
    ROOTSTEAD_TRY(const PartText part, parts.read(number));
    ROOTSTEAD_CHECK(writer->add(part.rows));
    count_rows(part.rows, report);
    report.trees += part.trees;
    report.tree_problems += part.problems;
    for (const std::string& problem : part.first_problems)
      if (report.problems.size() < 2 * kProblemsTold) report.problems.push_back(problem);
  }
  ROOTSTEAD_TRY(report.files, writer->finish());
  if (writer->left_out > 0)
    report.problems.push_back(
        std::to_string(writer->left_out) +
        " trees without a position are left out of the file, because the "
        "format holds only things that have a place; .csv and .gpkg hold them.");
  report.joined = true;
  parts.remove();
  return Nothing{};
}

}  // namespace

Result<ScreenReport> screen_network(const ScreenJob& job, const Tables& tables,
                                    const ScreenProgress& progress) {
  ROOTSTEAD_CHECK(ScreenWriter::check_format(job.out));
  ROOTSTEAD_TRY(const ZoneRule* rule, rule_of(job, tables));
  ROOTSTEAD_TRY(const ReferenceSystem grid, grid_of(job));
  ROOTSTEAD_TRY(const auto blocks, TreeBlocks::open(job, grid));
  ROOTSTEAD_TRY(const NetworkWorks works, read_network(job, grid, progress));
  ScreenReport report;
  report.grid = grid.code + " " + grid.name;
  report.works = works.ids.size();
  report.works_existing = works.existing;
  report.works_without_ground = works.without_ground;
  for (std::size_t i = 0; i < std::min(kProblemsTold, works.problems.size()); ++i)
    report.problems.push_back(works.problems[i].sentence());
  ROOTSTEAD_TRY(const PartsFolder parts,
                PartsFolder::beside(parts_beside(job), what_is_screened(job, tables, grid.code)));
  const Network network{job, *rule, tables, works, metres_per(grid.file_unit)};
  ROOTSTEAD_TRY(const std::size_t all, Screening(network, parts, *blocks, report).run(progress));
  if (all == 0)
    return Error{Code::format_broken, source_name(job.trees.from), "there are no rows",
                 "export the table with its rows"};
  if (job.part != 0) return report;
  while (!all_there(parts, all)) {
    if (!job.wait) return report;
    std::this_thread::sleep_for(kPoll);
  }
  ROOTSTEAD_CHECK(join(job, tables, grid, parts, all, report, progress));
  return report;
}

std::string screening_about(const ScreenJob& job, const Tables& tables, const std::string& grid) {
  const ZoneRule* rule = tables.rule(job.rule);
  std::string text = "Screening of trees against works\n";
  if (!job.note.empty()) text += job.note + '\n';
  text +=
      "Trees: " + source_name(job.trees.from) + "\nWorks: " + source_name(job.works.from) + '\n';
  text += "Grid: " + grid + "\nData version: " + tables.version + '\n';
  if (rule != nullptr) {
    text += "Rule: " + rule->id + ", " + rule->title + '\n';
    for (const ZoneDefinition& zone : rule->zones)
      text += "Zone " + zone.id + ": " + source_text(zone.from, tables) + " (" +
              std::string(to_text(zone.from.status)) + ")\n";
  }
  text += job.zone.empty() ? "Screened by the widest zone that the rule draws round each tree.\n"
                           : "Screened by the zone " + job.zone + ".\n";
  text +=
      "share and taken_m2: ground of the zone that proposed and approved works take, with their "
      "working room, each piece of ground counted once; exact geometry. worst_work: the work that "
      "takes most by itself. nearest_m: from the stem centre, looked for as far as the zone or " +
      shortest_number(job.look.metres()) +
      " m (our assumption). x, y: in the grid.\n"
      "in reach: a work takes ground of the zone. clear: none in the file does, which says nothing "
      "else of the tree. no figure: the rule gives this tree no zone, and remark says why; the "
      "nearest work is told all the same.\n"
      "Not looked at: barriers, depths, levels, how roots grow, stability. Trees in reach go to "
      "the "
      "full model: rootstead new, add, assess.\n";
  for (const std::string& caution : cautions()) text += "Caution: " + caution + '\n';
  return text;
}

}  // namespace rootstead::io
