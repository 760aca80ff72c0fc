// A program killed at any moment leaves the project as it was before, or as it is after: child
// processes are killed (SIGKILL) at their n-th call to the disk. Which n are tried differs from run
// to run; ROOTSTEAD_EVERY_KILL=1 tries all of them.
#include <sqlite3.h>
#include <sys/mman.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <functional>
#include <random>

#include "tests/io/sample_site.hpp"
#include "tests/support/temp_folder.hpp"

namespace rootstead::io {
namespace {

using test::difference;
using test::invented_assessment;
using test::random_import;
using test::TempFolder;

constexpr const char* kWhen = "2026-11-25T09:30:00Z";

// In a child only: SQLite's own doors to the disk, replaced by ones that count and kill.
int g_call_of_death = 0;
int* g_calls = nullptr;  // shared with the parent
using Write = ssize_t (*)(int, const void*, size_t, off_t);
using PlainWrite = ssize_t (*)(int, const void*, size_t);
using Unlink = int (*)(const char*);

void tick() {
  if (++*g_calls == g_call_of_death) ::kill(::getpid(), SIGKILL);
}
ssize_t killing_pwrite(int file, const void* bytes, size_t size, off_t at) {
  tick();
  return ::pwrite(file, bytes, size, at);
}
ssize_t killing_write(int file, const void* bytes, size_t size) {
  tick();
  return ::write(file, bytes, size);
}
int killing_unlink(const char* name) {
  tick();
  const int result = ::unlink(name);
  tick();
  return result;
}

template <class Function>
void replace(sqlite3_vfs* vfs, const char* name, Function function) {
  if (vfs->xGetSystemCall(vfs, name) == nullptr) return;
  vfs->xSetSystemCall(vfs, name, reinterpret_cast<sqlite3_syscall_ptr>(function));
}

// A tiny page cache makes SQLite write to the file itself long before it commits.
int shrink_cache(sqlite3* handle, char**, const void*) {
  return sqlite3_exec(handle, "PRAGMA cache_size = 4", nullptr, nullptr, nullptr);
}

void arm(int call_of_death) {
  g_call_of_death = call_of_death;
  sqlite3_vfs* vfs = sqlite3_vfs_find(nullptr);
  replace(vfs, "pwrite", Write{killing_pwrite});
  replace(vfs, "pwrite64", Write{killing_pwrite});
  replace(vfs, "write", PlainWrite{killing_write});
  replace(vfs, "unlink", Unlink{killing_unlink});
  sqlite3_auto_extension(reinterpret_cast<void (*)()>(&shrink_cache));
}

// Runs `work` in a child that dies at its n-th call to the disk, or lives where there are fewer.
// Was it killed?
bool killed_at(int call, const std::function<void()>& work) {
  if (g_calls == nullptr) {
    void* shared =
        ::mmap(nullptr, sizeof(int), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    g_calls = static_cast<int*>(shared);
  }
  *g_calls = 0;
  const pid_t child = ::fork();
  if (child == 0) {
    arm(call);
    work();
    ::_exit(0);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL;
}

std::string integrity(const std::filesystem::path& file) {
  sqlite3* handle = nullptr;
  sqlite3_open(file.c_str(), &handle);
  sqlite3_stmt* statement = nullptr;
  sqlite3_prepare_v2(handle, "PRAGMA integrity_check", -1, &statement, nullptr);
  std::string answer;
  if (sqlite3_step(statement) == SQLITE_ROW) {
    answer = reinterpret_cast<const char*>(sqlite3_column_text(statement, 0));
  }
  sqlite3_finalize(statement);
  sqlite3_close(handle);
  return answer;
}

// Everything a person can see of a project.
struct Seen {
  Site site;
  std::size_t journal = 0;
  std::size_t problems = 0;
  std::string results;  // when the results were computed
};

std::string time_of_results(const std::filesystem::path& file) {
  sqlite3* handle = nullptr;
  sqlite3_open(file.c_str(), &handle);
  sqlite3_stmt* statement = nullptr;
  sqlite3_prepare_v2(handle,
                     "SELECT a.assessed_at || ' ' || (SELECT count(*) FROM zones) || ' ' || "
                     "(SELECT count(*) FROM verdicts) FROM assessment a",
                     -1, &statement, nullptr);
  std::string answer;
  if (sqlite3_step(statement) == SQLITE_ROW) {
    answer = reinterpret_cast<const char*>(sqlite3_column_text(statement, 0));
  }
  sqlite3_finalize(statement);
  sqlite3_close(handle);
  return answer;
}

Seen look(const std::filesystem::path& file, bool* recovered = nullptr) {
  const auto project = Project::open(file);
  EXPECT_TRUE(project) << project.error().sentence();
  if (recovered != nullptr) *recovered = project->recovered();
  return {*project->read(), project->journal()->size(), project->import_problems().size(),
          time_of_results(file)};
}

std::string levels_of(const Site& site) {
  return (site.existing_levels ? site.existing_levels->name : "none") + " and " +
         (site.proposed_levels ? site.proposed_levels->name : "none");
}

bool same(const Seen& a, const Seen& b) {
  return difference(a.site, b.site).empty() && a.journal == b.journal && a.problems == b.problems &&
         levels_of(a.site) == levels_of(b.site) && a.results == b.results;
}

struct Kills {
  int before = 0, after = 0, recovered = 0;
};

// The first and the last calls, where a change begins and is sealed, and some between.
std::vector<int> calls_to_try(int all) {
  const bool every = std::getenv("ROOTSTEAD_EVERY_KILL") != nullptr;
  std::random_device chance;
  std::vector<int> calls;
  for (int call = 1; call <= all;) {
    calls.push_back(call);
    const bool edge = call < 3 || call > all - 6;
    call = every || edge ? call + 1 : std::min(call + 1 + static_cast<int>(chance() % 20), all - 5);
  }
  return calls;
}

// Kills `work` at calls to the disk, and looks at what is left.
Kills kill_everywhere(const std::filesystem::path& start, const std::filesystem::path& file,
                      const std::function<void()>& work) {
  const auto start_afresh = [&] {
    std::filesystem::remove(file);
    std::filesystem::copy_file(start, file);
  };
  start_afresh();
  EXPECT_FALSE(killed_at(0, work));  // counts the calls
  const Seen before = look(start);
  const Seen after = look(file);
  EXPECT_FALSE(same(before, after));
  Kills kills;
  for (const int call : calls_to_try(*g_calls)) {
    SCOPED_TRACE("killed at call " + std::to_string(call));
    start_afresh();
    EXPECT_TRUE(killed_at(call, work));
    bool recovered = false;
    const Seen left = look(file, &recovered);
    EXPECT_EQ(integrity(file), "ok");
    const bool is_before = same(left, before);
    const bool is_after = same(left, after);
    EXPECT_TRUE(is_before || is_after);
    kills.before += is_before;
    kills.after += is_after;
    kills.recovered += recovered;
  }
  std::printf("killed %d times: %d left the project as before, %d as after; %d were recovered\n",
              kills.before + kills.after, kills.before, kills.after, kills.recovered);
  return kills;
}

TEST(Killed, add_leaves_the_project_as_it_was) {
  const TempFolder folder;
  {
    auto project = Project::create(folder / "start.gpkg", *reference_system("EPSG:27700"), {});
    ASSERT_TRUE(project->add(random_import(1, 10, 4), kWhen));
  }
  const auto file = folder / "site.gpkg";
  const Kills kills = kill_everywhere(folder / "start.gpkg", file, [&] {
    if (auto project = Project::open(file)) {
      [[maybe_unused]] const auto outcome = project->add(random_import(2, 12, 4), kWhen);
    }
  });
  EXPECT_GT(kills.before, 10);
  EXPECT_GT(kills.recovered, 5);
  EXPECT_GE(kills.after, 1);
}

// A surface and what its source had wrong are one change: never one without the other.
TEST(Killed, levels_are_saved_with_their_problems_or_not_at_all) {
  const TempFolder folder;
  { ASSERT_TRUE(Project::create(folder / "start.gpkg", *reference_system("EPSG:27700"), {})); }
  HeightGrid grid;
  grid.north_west = {400000, 100100};
  grid.cell = 1;
  grid.columns = grid.rows = 100;
  grid.heights.assign(10000, 12.5F);
  LevelSurface surface;
  surface.name = "Ground";
  surface.levels = grid;
  const std::vector<Problem> problems(
      40, {false, NoteCode::not_taken, "a.asc", "two rows are not taken", "look at the source"});
  const auto file = folder / "site.gpkg";
  const Kills kills = kill_everywhere(folder / "start.gpkg", file, [&] {
    if (auto project = Project::open(file)) {
      [[maybe_unused]] const auto outcome =
          project->save_levels(surface, LevelState::existing, "a.asc", problems, kWhen);
    }
  });
  EXPECT_GT(kills.before, 5);
  EXPECT_GE(kills.after, 1);
}

TEST(Killed, assess_leaves_the_earlier_results) {
  const TempFolder folder;
  {
    auto project = Project::create(folder / "start.gpkg", *reference_system("EPSG:27700"), {});
    ASSERT_TRUE(project->add(random_import(3, 8, 3), kWhen));
    const Site site = *project->read();
    ASSERT_TRUE(project->save_assessment(site, invented_assessment(site, 1), kWhen));
  }
  const auto file = folder / "site.gpkg";
  const Kills kills = kill_everywhere(folder / "start.gpkg", file, [&] {
    if (auto project = Project::open(file)) {
      const Site site = *project->read();
      [[maybe_unused]] const auto outcome =
          project->save_assessment(site, invented_assessment(site, 2), "2026-11-26T10:00:00Z");
    }
  });
  EXPECT_GT(kills.before, 10);
  EXPECT_GT(kills.recovered, 5);
  EXPECT_GE(kills.after, 1);
}

// A file may not grow beyond `bytes` in the child: the write that would is its death.
bool dies_at_size(rlim_t bytes, const std::function<void()>& work) {
  const pid_t child = ::fork();
  if (child == 0) {
    const rlimit no_core{0, 0};
    ::setrlimit(RLIMIT_CORE, &no_core);
    const rlimit limit{bytes, bytes};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    work();
    ::_exit(0);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFSIGNALED(status) && WTERMSIG(status) == SIGXFSZ;
}

TEST(Killed, create_leaves_no_half_file) {
  const TempFolder folder;
  const auto file = folder / "site.gpkg";
  const auto create = [&] {
    [[maybe_unused]] const auto made = Project::create(file, *reference_system("EPSG:27700"), {});
  };
  for (const rlim_t bytes : {0U, 100U, 4096U, 50000U, 120000U}) {
    ASSERT_TRUE(dies_at_size(bytes, create)) << bytes;
    EXPECT_FALSE(std::filesystem::exists(file)) << bytes;
  }
  create();
  EXPECT_TRUE(Project::open(file));
}

TEST(FullDisk, is_named_and_leaves_the_project_as_it_was) {
  const TempFolder folder;
  const auto file = folder / "site.gpkg";
  { ASSERT_TRUE(Project::create(file, *reference_system("EPSG:27700"), {})); }
  const auto size = static_cast<rlim_t>(std::filesystem::file_size(file));
  const pid_t child = ::fork();
  if (child == 0) {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{size + 4096, size + 4096};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    auto project = Project::open(file);
    const auto outcome = project->add(random_import(4, 500, 50), kWhen);
    const bool said =
        !outcome && outcome.error().code == Code::file_unwritable && project->read()->trees.empty();
    const auto other = Project::create(folder / "new.gpkg", *reference_system("EPSG:27700"), {});
    ::_exit(said && (other.ok() || other.error().code == Code::file_unwritable) ? 0 : 1);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0);
  EXPECT_TRUE(look(file).site.trees.empty());
  EXPECT_EQ(integrity(file), "ok");
}

}  // namespace
}  // namespace rootstead::io
