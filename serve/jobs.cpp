#include "serve/jobs.hpp"

#include <unistd.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <deque>
#include <fstream>
#include <iterator>
#include <mutex>
#include <system_error>
#include <thread>

#include "engine/advice/advice.hpp"
#include "engine/revisions/record.hpp"
#include "io/export.hpp"
#include "issue/issue.hpp"
#include "issue/sheets.hpp"

namespace rootstead::serve {
namespace {

namespace fs = std::filesystem;
using io::Json;

constexpr std::array kFormats{"dxf", "geojson", "csv", "gpkg", "fgb", "shp"};
constexpr std::size_t kLongestName = 60;

enum class JobState { running, done, cancelled, failed };

const char* word(JobState state) {
  switch (state) {
    case JobState::running:
      return "running";
    case JobState::done:
      return "done";
    case JobState::cancelled:
      return "cancelled";
    case JobState::failed:
      break;
  }
  return "failed";
}

struct MadeFile {
  std::string name;
  std::uintmax_t bytes = 0;
};

struct Job {
  std::string id;
  fs::path folder;
  JobState state = JobState::running;
  std::string step = "begin";
  int done = 0, of = 1;
  std::vector<MadeFile> files;
  std::string error;
};

Json job_json(const Job& job) {
  Json files = Json::array();
  for (const MadeFile& file : job.files)
    files.push_back({{"name", file.name}, {"bytes", file.bytes}});
  return {{"id", job.id},
          {"state", word(job.state)},
          {"step", job.step},
          {"done", job.done},
          {"of", job.of},
          {"files", std::move(files)},
          {"error", job.error.empty() ? Json(nullptr) : Json(job.error)}};
}

Error wrong(const std::string& subject, const std::string& message, const std::string& remedy) {
  return {Code::wrong_use, subject, message, remedy};
}

// "Mill Lane, drain" as "mill-lane-drain": letters and digits of ASCII alone, so that no title
// names another folder.
std::string name_from(const std::string& title) {
  std::string name;
  for (const char letter : title) {
    const auto c = static_cast<unsigned char>(letter);
    if (name.size() == kLongestName) break;
    if (c < 128 && std::isalnum(c) != 0)
      name += static_cast<char>(std::tolower(c));
    else if (!name.empty() && name.back() != '-')
      name += '-';
  }
  while (!name.empty() && name.back() == '-') name.pop_back();
  return name.empty() ? "project" : name;
}

// Open to this user alone.
Result<fs::path> private_folder() {
  std::error_code error;
  const fs::path among = fs::temp_directory_path(error);
  std::string name = (among / "rootstead-XXXXXX").string();
  if (!error && mkdtemp(name.data()) != nullptr) return fs::path(name);
  return Error{Code::file_unwritable, "the folder for temporary files",
               "no folder can be made in it", "make room there, or name another one with TMPDIR"};
}

std::vector<MadeFile> files_in(const fs::path& folder) {
  std::vector<MadeFile> files;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(folder, error))
    if (entry.is_regular_file(error))
      files.push_back({entry.path().filename().string(), entry.file_size(error)});
  std::sort(files.begin(), files.end(),
            [](const MadeFile& a, const MadeFile& b) { return a.name < b.name; });
  return files;
}

// The desk leaves levels out that do not compare; the report says so.
Assessment with_cautions(const Snapshot& snapshot) {
  Assessment assessment = snapshot.assessment;
  const Site& site = snapshot.site;
  const bool no_level_works = snapshot.own.size() == site.works.size();
  if (!no_level_works || !site.existing_levels || !site.proposed_levels) return assessment;
  if (const auto levels = with_level_works(site, snapshot.tables); !levels)
    assessment.cautions.push_back(issue::without_levels(levels.error()));
  return assessment;
}

// What is final goes by the register of plans and the issues made, which lie beside the desk.
Outcome check_draft(const ProjectSettings& settings) {
  if (!claims_final(settings.status)) return Nothing{};
  return Error{Code::wrong_use, "the report",
               "the page makes drafts, and the project's status is " + settings.status,
               "issue it with `rootstead issue FILE --revision B --final` and `rootstead report "
               "FILE`, or set another status"};
}

Outcome make_report_files(const Snapshot& snapshot, const ReportOptions& how,
                          const fs::path& folder, const Steps& steps) {
  ROOTSTEAD_CHECK(check_draft(snapshot.site.settings));
  ROOTSTEAD_CHECK(tell(steps, "advice", 0, 1));
  const Assessment assessment = with_cautions(snapshot);
  ROOTSTEAD_TRY(const Advice advice,
                issue::advise_for_report(snapshot.site, snapshot.tables, assessment));
  const Plan plan{&snapshot.site, &snapshot.tables, &assessment, &advice};
  const std::string name = name_from(snapshot.site.settings.title);
  issue::Files files{folder / (name + ".pdf"), folder / (name + "-crew.pdf"),
                     folder / (name + "-owner.pdf"), folder / (name + "-visits.ics")};
  // A project without a date has a report, but its visits have no days.
  if (!issue::check_calendar(snapshot.site, files.calendar)) files.calendar.clear();
  return issue::write_files(plan, how, files, steps);
}

Outcome make_export(const Snapshot& snapshot, const std::string& format, const fs::path& folder,
                    const Steps& steps) {
  ROOTSTEAD_CHECK(tell(steps, "export", 0, 1));
  const fs::path file = folder / (name_from(snapshot.site.settings.title) + "." + format);
  ROOTSTEAD_TRY([[maybe_unused]] const io::ExportReport made,
                io::write_export(snapshot.site, with_cautions(snapshot), snapshot.tables, file));
  return Nothing{};
}

}  // namespace

Result<JobAsked> job_asked(const Json& body) {
  const auto text = [&](const char* key) {
    const auto found = body.find(key);
    return found != body.end() && found->is_string() ? found->get<std::string>() : std::string();
  };
  for (const char* key : {"what", "sheet", "format"})
    if (body.contains(key) && !body[key].is_string())
      return wrong("the request", std::string("its ") + key + " is no text", "load the page again");
  JobAsked asked;
  if (text("what") == "export") {
    asked.what = JobAsked::What::export_data;
    asked.format = text("format");
    if (asked.format.starts_with('.')) asked.format.erase(0, 1);
    if (std::find(kFormats.begin(), kFormats.end(), asked.format) == kFormats.end())
      return wrong("the export", "there is no such format",
                   "give one of dxf, geojson, csv, gpkg, fgb, shp");
    return asked;
  }
  if (text("what") != "report")
    return wrong("the request", "it asks for neither a report nor an export",
                 "load the page again");
  std::string sheet = body.contains("sheet") ? text("sheet") : "a3";
  std::replace(sheet.begin(), sheet.end(), '_', '-');
  std::string scale;
  if (body.contains("scale")) {
    if (!body["scale"].is_number_integer())
      return wrong("the request", "its scale is no whole number", "write 200 for 1:200");
    scale = body["scale"].dump();
  }
  ROOTSTEAD_TRY(asked.how, issue::report_options(sheet, scale));
  return asked;
}

struct Jobs::State {
  Job* find(const std::string& id) {
    const auto found =
        std::find_if(jobs.begin(), jobs.end(), [&](const Job& job) { return job.id == id; });
    return found == jobs.end() ? nullptr : &*found;
  }
  Result<Job*> named(const std::string& id) {
    if (Job* job = find(id)) return job;
    return Error{Code::unknown_name, "the job", "there is no such job", "begin it again"};
  }
  bool is_running() const { return !jobs.empty() && jobs.back().state == JobState::running; }
  void forget_the_oldest();
  Result<fs::path> new_folder(const std::string& id);
  void run(const std::stop_token& stop, const Snapshot& snapshot, const JobAsked& asked);
  void finish(const Outcome& outcome, bool stopped);

  std::mutex mutex;
  fs::path folder;
  std::deque<Job> jobs;  // only the last one may be running
  int begun = 0;
  std::jthread worker;  // of the last one
};

void Jobs::State::forget_the_oldest() {
  std::error_code ignored;
  while (jobs.size() >= kMostJobsKept) {
    fs::remove_all(jobs.front().folder, ignored);
    jobs.pop_front();
  }
}

Result<fs::path> Jobs::State::new_folder(const std::string& id) {
  if (folder.empty()) {
    ROOTSTEAD_TRY(folder, private_folder());
  }
  const fs::path its = folder / id;
  std::error_code error;
  fs::create_directory(its, error);
  if (!error) return its;
  return Error{Code::file_unwritable, its.string(), error.message(), "make room there"};
}

// Nothing of a job that did not end well is left.
void Jobs::State::finish(const Outcome& outcome, bool stopped) {
  const std::lock_guard lock(mutex);
  Job& job = jobs.back();
  if (outcome && !stopped) {
    job.files = files_in(job.folder);
    job.state = JobState::done;
    job.done = job.of;
    return;
  }
  std::error_code ignored;
  fs::remove_all(job.folder, ignored);
  job.state = stopped ? JobState::cancelled : JobState::failed;
  if (!stopped) job.error = outcome.error().sentence();
}

void Jobs::State::run(const std::stop_token& stop, const Snapshot& snapshot,
                      const JobAsked& asked) {
  const Steps steps = [&](std::string_view step, int done, int of) {
    const std::lock_guard lock(mutex);
    Job& job = jobs.back();
    job.step = step;
    job.done = done;
    job.of = of;
    return !stop.stop_requested();
  };
  const fs::path its = [&] {
    const std::lock_guard lock(mutex);
    return jobs.back().folder;
  }();
  Outcome outcome = Nothing{};
  try {
    outcome = asked.what == JobAsked::What::report
                  ? make_report_files(snapshot, asked.how, its, steps)
                  : make_export(snapshot, asked.format, its, steps);
  } catch (const std::exception&) {  // of a library, or no memory: the page goes on
    outcome = Error{Code::file_unwritable, "the job", "it broke off", "begin it again"};
  }
  finish(outcome, stop.stop_requested());
}

Jobs::Jobs() : state_(std::make_unique<State>()) {}

Jobs::~Jobs() {
  state_->worker = {};  // asks it to stop, and waits
  std::error_code ignored;
  if (!state_->folder.empty()) fs::remove_all(state_->folder, ignored);
}

Result<Json> Jobs::start(std::shared_ptr<const Snapshot> snapshot, const JobAsked& asked) {
  const std::lock_guard lock(state_->mutex);
  if (state_->is_running())
    return wrong("the job", "another one is still running", "wait for it, or give it up");
  state_->worker = {};  // has ended: nothing to wait for
  state_->forget_the_oldest();
  Job job;
  job.id = std::to_string(state_->begun + 1);
  ROOTSTEAD_TRY(job.folder, state_->new_folder(job.id));
  ++state_->begun;
  state_->jobs.push_back(std::move(job));
  state_->worker =
      std::jthread([state = state_.get(), snapshot = std::move(snapshot),
                    asked](const std::stop_token& stop) { state->run(stop, *snapshot, asked); });
  return job_json(state_->jobs.back());
}

Result<Json> Jobs::job(const std::string& id) const {
  const std::lock_guard lock(state_->mutex);
  ROOTSTEAD_TRY(const Job* job, state_->named(id));
  return job_json(*job);
}

Result<Json> Jobs::cancel(const std::string& id) {
  const std::lock_guard lock(state_->mutex);
  ROOTSTEAD_TRY(const Job* job, state_->named(id));
  if (job->state == JobState::running) state_->worker.request_stop();
  return job_json(*job);
}

Result<std::string> Jobs::file(const std::string& id, const std::string& name) const {
  const std::lock_guard lock(state_->mutex);
  ROOTSTEAD_TRY(const Job* job, state_->named(id));
  const bool known = std::any_of(job->files.begin(), job->files.end(),
                                 [&](const MadeFile& file) { return file.name == name; });
  if (!known)
    return Error{Code::unknown_name, "the file", "the job has made none of this name",
                 "begin it again"};
  std::ifstream in(job->folder / name, std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(in), {}};
  if (in) return bytes;
  return Error{Code::file_unreadable, "the file " + name, "it is no longer there",
               "begin the job again"};
}

fs::path Jobs::folder() const {
  const std::lock_guard lock(state_->mutex);
  return state_->folder;
}

}  // namespace rootstead::serve
