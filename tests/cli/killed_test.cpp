// A program killed while it writes leaves the project as it was, or as it was to become; never
// between. The real program is started and killed at moments spread over its run.
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <functional>
#include <thread>

#include "io/project.hpp"
#include "tests/cli/command_line.hpp"

namespace rootstead::test {
namespace {

namespace fs = std::filesystem;
using Seconds = std::chrono::duration<double>;

constexpr int kKills = 8;   // that came in time
constexpr int kTries = 40;  // a run may end sooner than the one that was timed

// How long the command runs when left alone; its exit code in `exit`.
Seconds time_of(const std::vector<std::string>& arguments, int& exit) {
  const auto begin = std::chrono::steady_clock::now();
  int status = 0;
  waitpid(start_program(arguments), &status, 0);
  exit = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return std::chrono::steady_clock::now() - begin;
}

// True where the kill came before the end.
bool killed_after(Seconds wait, const std::vector<std::string>& arguments) {
  const pid_t child = start_program(arguments);
  std::this_thread::sleep_for(wait);
  kill(child, SIGKILL);
  int status = 0;
  waitpid(child, &status, 0);
  return WIFSIGNALED(status);
}

// What a project holds, in short: trees by id, works by id, the journal's hashes.
struct State {
  std::vector<std::string> trees, works, journal;
  friend bool operator==(const State&, const State&) = default;
};

State state_of(const std::string& file) {
  State state;
  const auto project = io::Project::open(file);
  if (!project) {
    ADD_FAILURE() << project.error().sentence();
    return state;
  }
  const auto site = project->read();
  const auto journal = project->journal();
  if (!site || !journal) {
    ADD_FAILURE() << (site ? journal.error() : site.error()).sentence();
    return state;
  }
  for (const Tree& tree : site->trees) state.trees.push_back(tree.id);
  for (const Work& work : site->works) state.works.push_back(work.id);
  for (const auto& entry : *journal) state.journal.push_back(entry.hash);
  return state;
}

// The survey as a table of many rows, so that writing takes long enough to be caught at it.
std::string large_survey(const OwnFolder& folder, int rows) {
  std::string text = "Tag,Species,DBH (cm),Easting,Northing\n";
  for (int i = 0; i < rows; ++i) {
    text += "L" + std::to_string(i) + ",Tilia cordata,30," + std::to_string(480000 + i % 100 * 10) +
            "," + std::to_string(4881000 + i / 100 * 10) + "\n";
  }
  return folder.write("large.csv", text);
}

// Runs the command on copies of `project`, killing each at another moment.
void expect_whole_or_untouched(
    const OwnFolder& folder, const std::string& project,
    const std::function<std::vector<std::string>(std::string)>& command) {
  const State before = state_of(project);
  const std::string done = folder / "done.gpkg";
  fs::copy_file(project, done);
  int exit = -1;
  Seconds whole = time_of(command(done), exit);
  ASSERT_EQ(exit, 0);
  const State after = state_of(done);
  ASSERT_NE(before.journal.size(), after.journal.size());
  int caught = 0;
  for (int i = 0; i < kTries && caught < kKills; ++i) {
    const std::string copy = folder / ("copy" + std::to_string(i) + ".gpkg");
    fs::copy_file(project, copy);
    if (killed_after(whole * (caught + 1) / (kKills + 1), command(copy)))
      ++caught;
    else
      whole *= 0.8;
    const State now = state_of(copy);
    const bool untouched = now == before;
    const bool complete = now.trees == after.trees && now.works == after.works &&
                          now.journal.size() == after.journal.size();
    EXPECT_TRUE(untouched || complete) << "try " << i << ": " << now.trees.size() << " trees, "
                                       << now.journal.size() << " journal rows";
  }
  EXPECT_EQ(caught, kKills) << "too few kills came in time to prove anything";
}

TEST(Killed, AddLeavesTheProjectAsItWas) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const std::string survey = large_survey(folder, 3000);
  expect_whole_or_untouched(folder, project, [&](const std::string& copy) {
    return std::vector<std::string>{"add", copy, survey, "--as", "trees"};
  });
}

TEST(Killed, AssessLeavesTheProjectAsItWas) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  ASSERT_EQ(run({"add", project, large_survey(folder, 300), "--as", "trees"}).exit, 0);
  expect_whole_or_untouched(folder, project, [](const std::string& copy) {
    return std::vector<std::string>{"assess", copy, "--draws", "50"};
  });
}

}  // namespace
}  // namespace rootstead::test
