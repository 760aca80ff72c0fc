// Several programs edit one project at once, and programs and server are killed at random. Each
// edit counts one further in the notes of a tree that all share, so that at the end every edit that
// was answered must be counted, none twice, and the history must tell every number.
//
// ROOTSTEAD_HAMMER_EDITS says how many edits in all (10000 is the full size); else there are few.
#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <fstream>
#include <map>
#include <random>
#include <set>
#include <thread>

#include "engine/base/text.hpp"
#include "tests/io/each_store.hpp"

namespace rootstead::io {
namespace {

using test::OwnServer;
using test::TempFolder;
using Clock = std::chrono::steady_clock;

constexpr const char* kWhen = "2026-11-28T09:30:00Z";
constexpr int kWriters = 8;
constexpr int kTrees = 12;
constexpr int kFailed = 3;

int edits_in_all(int usual) {
  const char* asked = std::getenv("ROOTSTEAD_HAMMER_EDITS");
  return asked == nullptr ? usual : std::atoi(asked);
}

int kills_of_writers(int edits) {
  return std::max(8, edits / 50);
}

void pause_ms(int milliseconds) {
  std::this_thread::sleep_for(std::chrono::milliseconds(milliseconds));
}

// ---- a writer, in a process of its own

// What a writer means to do and what was answered, a letter each; it outlives its writer.
class Diary {
 public:
  explicit Diary(std::string file) : file_(std::move(file)) {}
  void write(char letter) const {
    const int out = ::open(file_.c_str(), O_WRONLY | O_CREAT | O_APPEND, 0644);
    if (::write(out, &letter, 1) != 1) ::_exit(kFailed);
    ::close(out);
  }
  int count(char letter) const {
    std::ifstream in(file_);
    const std::string text(std::istreambuf_iterator<char>(in), {});
    return static_cast<int>(std::count(text.begin(), text.end(), letter));
  }

 private:
  std::string file_;
};

bool may_come_later(const Error& error) {
  return error.code == Code::project_busy || error.code == Code::file_unreadable ||
         error.code == Code::file_unwritable;
}

void give_up(const Error& error) {
  std::fprintf(stderr, "writer: %s\n", error.sentence().c_str());
  ::_exit(kFailed);
}

// One edit, until it is answered. A lost answer is asked for again by the same key.
void edit_surely(std::optional<Project>& project, const std::string& address,
                 const std::string& key, std::size_t which, const Diary& diary) {
  while (true) {
    Outcome done = Nothing{};
    bool asked = false;
    if (!project) {
      auto opened = Project::open(address);
      if (opened)
        project = std::move(opened).value();
      else
        done = opened.error();
    }
    if (project) {
      Result<Site> site = project->read();
      if (site) {
        Edits edits;
        Tree tree = site->trees.at(which);
        tree.notes = std::to_string(std::stoi(tree.notes) + 1);
        edits.trees = {tree};
        asked = true;
        diary.write('m');  // means to
        done = project->edit(edits, kWhen, {key, true});
        if (done) return diary.write('a');  // answered
      } else {
        done = site.error();
      }
    }
    if (!may_come_later(done.error())) give_up(done.error());
    if (asked) diary.write(done.error().code == Code::project_busy ? 'c' : 'l');  // clash, lost
    if (done.error().code != Code::project_busy) project.reset();
    pause_ms(1);
  }
}

[[noreturn]] void write_all(const std::string& address, const std::string& name, int edits,
                            const Diary& diary) {
  std::optional<Project> project;
  std::minstd_rand dice(std::random_device{}());
  for (int number = diary.count('a'); number < edits; ++number)
    edit_surely(project, address, name + "-" + std::to_string(number), dice() % kTrees, diary);
  ::_exit(0);
}

// ---- the hammer

struct Kills {
  int writers = 0, server = 0, backends = 0;
};

class Hammer {
 public:
  Hammer(std::string address, const TempFolder& folder, int edits)
      : address_(std::move(address)), each_(edits / kWriters) {
    for (int i = 0; i < kWriters; ++i)
      diaries_.emplace_back((folder / ("diary" + std::to_string(i))).string());
    writers_.resize(kWriters, -1);
  }

  // Kills a writer after every so many edits, `kills` in all, and asks `strike` to kill what else
  // there is.
  Kills run(int kills, const std::function<void(Kills&)>& strike) {
    Kills done;
    std::mt19937 dice(std::random_device{}());
    for (int i = 0; i < kWriters; ++i) start(i);
    while (reap()) {
      pause_ms(static_cast<int>(1 + dice() % 10));
      const bool due = count('a') > all() * (done.writers + 1) / (kills + 2);
      const auto unlucky = dice() % kWriters;
      if (due && done.writers < kills && writers_[unlucky] > 0 &&
          ::kill(writers_[unlucky], SIGKILL) == 0)
        ++done.writers;
      if (strike) strike(done);
    }
    return done;
  }

  int each() const { return each_; }
  int all() const { return each_ * kWriters; }
  int count(char letter) const {
    int sum = 0;
    for (const Diary& diary : diaries_) sum += diary.count(letter);
    return sum;
  }
  bool failed() const { return failed_; }

 private:
  void start(int i) {
    const auto at = static_cast<std::size_t>(i);
    writers_[at] = ::fork();
    if (writers_[at] == 0) write_all(address_, "w" + std::to_string(i), each_, diaries_[at]);
  }
  // Starts those that were killed anew. Does anyone still write?
  bool reap() {
    bool any = false;
    for (int i = 0; i < kWriters; ++i) {
      pid_t& writer = writers_[static_cast<std::size_t>(i)];
      int status = 0;
      if (writer > 0 && ::waitpid(writer, &status, WNOHANG) == writer) {
        writer = -1;
        failed_ = failed_ || (WIFEXITED(status) && WEXITSTATUS(status) != 0);
        if (WIFSIGNALED(status)) start(i);
      }
      any = any || writer > 0;
    }
    return any;
  }

  std::string address_;
  int each_;
  std::vector<Diary> diaries_;
  std::vector<pid_t> writers_;
  bool failed_ = false;
};

void make_trees(const std::string& address) {
  auto project = Project::create(address, *reference_system("EPSG:27700"), {}, kWhen);
  ASSERT_TRUE(project) << project.error().sentence();
  Import import;
  import.source = "survey.csv";
  for (int i = 0; i < kTrees; ++i) {
    Tree tree;
    tree.id = "T" + std::to_string(i);
    tree.notes = "0";
    tree.stems = {{Stem::Read::diameter, {300, LengthUnit::millimetre}, std::nullopt}};
    import.trees.push_back(tree);
  }
  ASSERT_TRUE(project->add(import, kWhen));
}

// The number before each change of each tree, from the history.
std::map<std::string, std::multiset<int>> numbers_told(const Project& project) {
  std::map<std::string, std::multiset<int>> told;
  const auto history = project.history();
  EXPECT_TRUE(history);
  for (const HistoryEntry& entry : *history) {
    if (!entry.existed) continue;
    const std::string mark = "\"notes\":\"";
    const auto at = entry.before.find(mark);
    told[entry.id].insert(std::atoi(entry.before.c_str() + at + mark.size()));
  }
  return told;
}

void expect_everything_once(const std::string& address, const Hammer& hammer) {
  EXPECT_FALSE(hammer.failed());
  EXPECT_EQ(hammer.count('a'), hammer.all());
  const auto project = Project::open(address);
  ASSERT_TRUE(project) << project.error().sentence();
  const Site site = *project->read();
  const auto told = numbers_told(*project);
  int sum = 0;
  for (const Tree& tree : site.trees) {
    const int count = std::stoi(tree.notes);
    sum += count;
    std::multiset<int> expected;
    for (int i = 0; i < count; ++i) expected.insert(i);
    const auto found = told.find(tree.id);
    EXPECT_EQ(found == told.end() ? std::multiset<int>{} : found->second, expected) << tree.id;
    EXPECT_EQ(tree.stems.size(), 1U);
  }
  EXPECT_EQ(sum, hammer.all()) << "answered edits are missing, or some are there twice";
  const auto journal = project->journal();  // sealed from end to end
  ASSERT_TRUE(journal) << journal.error().sentence();
  EXPECT_EQ(journal->size(), 2U + static_cast<std::size_t>(hammer.all()));
}

void tell(const char* store, const Hammer& hammer, const Kills& kills, Clock::time_point begun) {
  const double seconds = std::chrono::duration<double>(Clock::now() - begun).count();
  std::printf(
      "%s: %d edits by %d writers in %.1f s; killed: writers %d times, the server %d times, "
      "single processes of it %d times; %d clashes, %d lost connections, %d edits asked again\n",
      store, hammer.all(), kWriters, seconds, kills.writers, kills.server, kills.backends,
      hammer.count('c'), hammer.count('l'),
      hammer.count('m') - hammer.count('a') - hammer.count('c') - hammer.count('l'));
}

TEST(Hammer, no_edit_of_a_team_is_lost_or_done_twice_on_a_server) {
  const int edits = edits_in_all(96);
  OwnServer server;
  if (!server.why_not().empty()) GTEST_SKIP() << server.why_not();
  const TempFolder folder;
  const std::string address = server.address("hammered");
  make_trees(address);
  Hammer hammer(address, folder, edits);
  const auto begun = Clock::now();
  const int strikes = std::max(2, edits / 400);  // as many of each
  std::mt19937 dice(std::random_device{}());
  const auto strike = [&](Kills& kills) {
    const int done = hammer.count('a');
    const auto due = [&](int so_far) {
      return so_far < strikes && done > hammer.all() * (so_far + 1) / (strikes + 2);
    };
    if (due(kills.server)) {
      server.kill_all();
      ++kills.server;
      pause_ms(static_cast<int>(dice() % 100));
      ASSERT_TRUE(server.start());
    } else if (due(kills.backends)) {
      kills.backends += server.kill_backend() ? 1 : 0;
    }
  };
  const Kills kills = hammer.run(kills_of_writers(edits), strike);
  tell("server", hammer, kills, begun);
  EXPECT_EQ(kills.server, strikes);
  EXPECT_GE(kills.writers, 4);
  expect_everything_once(address, hammer);
}

TEST(Hammer, no_edit_of_several_is_lost_or_done_twice_in_a_file) {
  const TempFolder folder;
  const std::string address = (folder / "site.gpkg").string();
  make_trees(address);
  Hammer hammer(address, folder, edits_in_all(96));
  const auto begun = Clock::now();
  const Kills kills = hammer.run(kills_of_writers(hammer.all()), {});
  tell("file", hammer, kills, begun);
  EXPECT_GE(kills.writers, 4);
  expect_everything_once(address, hammer);
}

}  // namespace
}  // namespace rootstead::io
