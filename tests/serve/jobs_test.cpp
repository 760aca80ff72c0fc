// Reports and exports made beside the page: whole files or none, one job at a time, nothing left
// behind, and no name that leads elsewhere.
#include "serve/jobs.hpp"

#include <httplib.h>

#include <chrono>
#include <thread>

#include "issue/issue.hpp"
#include "serve/server.hpp"
#include "tests/serve/a_snapshot.hpp"
#include "tests/serve/open_desk.hpp"

namespace rootstead::test {
namespace {

namespace fs = std::filesystem;
using io::Json;
using serve::JobAsked;
using serve::Jobs;
using std::chrono::steady_clock;

constexpr const char* kJob = "/api/jobs/{id}";

JobAsked report() {
  return {};
}
JobAsked export_as(std::string format) {
  return {JobAsked::What::export_data, {}, std::move(format)};
}

std::shared_ptr<const serve::Snapshot> titled(const std::string& title) {
  Site site = moved(street(), [](Point at) { return Point{at.x + kEast, at.y + kNorth}; });
  site.settings.title = title;
  site.settings.date = "2026-03-02";
  site.system = *io::reference_system("EPSG:32632");
  return snapshot_of(site);
}

Json ended(const Jobs& jobs, const std::string& id) {
  const auto begun = steady_clock::now();
  for (;;) {
    const Json job = *jobs.job(id);
    EXPECT_EQ(faults(kJob, job), "");
    if (job["state"] != "running") return job;
    if (steady_clock::now() - begun > std::chrono::minutes(3)) {
      ADD_FAILURE() << "the job does not end: " << job;
      return job;
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
}

std::vector<std::string> names_of(const Json& job) {
  std::vector<std::string> names;
  for (const Json& file : job["files"]) names.push_back(file["name"]);
  return names;
}

std::size_t entries_in(const fs::path& folder) {
  return static_cast<std::size_t>(
      std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

TEST(Jobs, MakeTheReportWithAllThatGoesOutWithIt) {
  Jobs jobs;
  const Json begun = *jobs.start(titled("Mill Lane: Drain"), report());
  EXPECT_EQ(faults("/api/jobs", begun, "post"), "");
  const Json job = ended(jobs, begun["id"]);
  ASSERT_EQ(job["state"], "done") << job;
  EXPECT_EQ(job["done"], job["of"]);
  EXPECT_EQ(names_of(job),
            (std::vector<std::string>{"mill-lane-drain-crew.pdf", "mill-lane-drain-owner.pdf",
                                      "mill-lane-drain-visits.ics", "mill-lane-drain.pdf"}));
  for (const Json& file : job["files"]) {
    const std::string name = file["name"], bytes = *jobs.file(begun["id"], name);
    EXPECT_EQ(bytes.size(), file["bytes"].get<std::size_t>()) << name;
    EXPECT_TRUE(bytes.starts_with(name.ends_with(".pdf") ? "%PDF-1.5" : "BEGIN:VCALENDAR")) << name;
  }
}

TEST(Jobs, MakeTheReportWithoutVisitsWhereTheProjectHasNoDate) {
  Jobs jobs;
  const Json job = ended(jobs, (*jobs.start(street_snapshot(), report()))["id"]);
  EXPECT_EQ(job["state"], "done") << job;
  EXPECT_EQ(job["files"].size(), 3U);
}

TEST(Jobs, ExportInEveryFormat) {
  Jobs jobs;
  const auto snapshot = titled("Export");
  for (const std::string format : {"dxf", "geojson", "csv", "gpkg", "fgb", "shp"}) {
    const std::string id = (*jobs.start(snapshot, export_as(format)))["id"];
    const Json job = ended(jobs, id);
    ASSERT_EQ(job["state"], "done") << format << job;
    EXPECT_TRUE(jobs.file(id, "export." + format).ok()) << job;
  }
}

TEST(Jobs, AreRefusedWhileOneRunsAndAfterItIsGivenUpAgainTaken) {
  Jobs jobs;
  const auto snapshot = titled("Two");
  const std::string first = (*jobs.start(snapshot, report()))["id"];
  const auto second = jobs.start(snapshot, export_as("csv"));
  ASSERT_FALSE(second.ok());
  EXPECT_NE(second.error().sentence().find("another one is still running"), std::string::npos);
  EXPECT_EQ(faults(kJob, *jobs.cancel(first), "delete"), "");
  const Json job = ended(jobs, first);
  EXPECT_EQ(job["state"], "cancelled");
  EXPECT_TRUE(job["files"].empty());
  EXPECT_EQ(entries_in(jobs.folder()), 0U) << "half made files are taken away";
  const std::string third = (*jobs.start(snapshot, export_as("csv")))["id"];
  EXPECT_EQ(ended(jobs, third)["state"], "done");
  EXPECT_EQ((*jobs.cancel(third))["state"], "done") << "what has ended stays as it is";
}

// Stopped at each of many places, the making leaves nothing half written.
TEST(Jobs, LeaveNoHalfFileWhereverTheyAreStopped) {
  const auto snapshot = titled("Half");
  const Advice advice =
      *issue::advise_for_report(snapshot->site, snapshot->tables, snapshot->assessment);
  const Plan plan{&snapshot->site, &snapshot->tables, &snapshot->assessment, &advice};
  for (const int stop_at : {0, 1, 5, 12, 14, 20, 10'000}) {
    const TempFolder folder;
    const fs::path at = folder / "";
    int told = 0;
    const Outcome made =
        issue::write_files(plan, {}, {at / "a.pdf", at / "b.pdf", at / "c.pdf", at / "d.ics"},
                           [&](std::string_view step, int done, int of) {
                             EXPECT_FALSE(step.empty());
                             EXPECT_LT(done, of);
                             return told++ < stop_at;
                           });
    EXPECT_EQ(made.ok(), told <= stop_at);
    EXPECT_GT(told, 0);
    EXPECT_EQ(entries_in(at), made.ok() ? 4U : 0U) << "stopped at step " << told;
  }
}

TEST(Jobs, LieInAPrivateFolderThatGoesWithThem) {
  fs::path folder;
  {
    Jobs jobs;
    EXPECT_TRUE(jobs.folder().empty());
    const std::string id = (*jobs.start(titled("Private"), export_as("csv")))["id"];
    folder = jobs.folder();
    EXPECT_EQ(fs::status(folder).permissions(), fs::perms::owner_all);
    ended(jobs, id);
    EXPECT_TRUE(jobs.start(titled("Still running"), report()).ok());
  }
  EXPECT_FALSE(fs::exists(folder));
}

TEST(Jobs, KeepOnlyTheLastOnes) {
  Jobs jobs;
  const auto snapshot = titled("Many");
  std::string last;
  for (std::size_t i = 0; i < serve::kMostJobsKept + 2; ++i) {
    last = (*jobs.start(snapshot, export_as("csv")))["id"];
    ended(jobs, last);
  }
  EXPECT_FALSE(jobs.job("1").ok());
  EXPECT_FALSE(jobs.job("2").ok());
  EXPECT_TRUE(jobs.job("3").ok());
  EXPECT_EQ(entries_in(jobs.folder()), serve::kMostJobsKept);
}

TEST(Jobs, HaveNamesThatLeadNowhereElse) {
  Jobs jobs;
  const std::string id = (*jobs.start(titled("../../etc/\"x\"\r\nä"), export_as("csv")))["id"];
  const Json job = ended(jobs, id);
  EXPECT_EQ(names_of(job), (std::vector<std::string>{"etc-x.about.txt", "etc-x.csv"}));
  for (const std::string name :
       {"", ".", "..", "../1/etc-x.csv", "./etc-x.csv", "/etc/passwd", "etc-x.csv/", "ETC-X.CSV"})
    EXPECT_FALSE(jobs.file(id, name).ok()) << name;
  for (const std::string& other :
       std::vector<std::string>{"", "0", "..", "../" + id, id + "/", "01"})
    EXPECT_FALSE(jobs.file(other, "etc-x.csv").ok()) << other;
  const std::string unnamed = (*jobs.start(titled("…"), export_as("csv")))["id"];
  EXPECT_EQ(names_of(ended(jobs, unnamed)),
            (std::vector<std::string>{"project.about.txt", "project.csv"}));
}

TEST(JobAsked, IsReadAsTheContractHasIt) {
  EXPECT_EQ(serve::job_asked({{"what", "report"}})->how.sheet, SheetSize::a3);
  const auto asked = serve::job_asked({{"what", "report"}, {"sheet", "arch_d"}, {"scale", 250}});
  EXPECT_EQ(asked->how.sheet, SheetSize::arch_d);
  EXPECT_EQ(asked->how.scale, 250);
  EXPECT_EQ(serve::job_asked({{"what", "export"}, {"format", ".dxf"}})->format, "dxf");
  for (const char* wrong :
       {R"({"what":"other"})", R"({"what":1})", R"({"what":"report","sheet":"a9"})",
        R"({"what":"report","sheet":3})", R"({"what":"report","scale":-5})",
        R"({"what":"report","scale":0})", R"({"what":"report","scale":1.5})",
        R"({"what":"report","scale":99999999999999999999})", R"({"what":"export"})",
        R"({"what":"export","format":"../x"})", R"({"what":"export","format":"exe"})"})
    EXPECT_FALSE(serve::job_asked(Json::parse(wrong)).ok()) << wrong;
}

// A scale that does not fit is a failed job with its sentence, not a broken server.
TEST(Jobs, SayWhyTheyFailed) {
  Jobs jobs;
  JobAsked asked = report();
  asked.how = {SheetSize::a4, 1};
  const Json job = ended(jobs, (*jobs.start(titled("Fail"), asked))["id"]);
  EXPECT_EQ(job["state"], "failed");
  EXPECT_TRUE(job["error"].is_string());
  EXPECT_EQ(entries_in(jobs.folder()), 0U);
}

TEST(JobRoutes, BeginLookFetchAndGiveUp) {
  const OpenDesk home;
  serve::Server server(home.open());
  const int port = *server.take_port(0);
  std::thread running([&] { EXPECT_TRUE(server.run().ok()); });
  httplib::Client page("127.0.0.1", port);
  while (!page.Get("/api/site")) std::this_thread::yield();
  const auto begun =
      page.Post("/api/jobs", {}, R"({"what":"export","format":"csv"})", "application/json");
  ASSERT_TRUE(begun);
  EXPECT_EQ(begun->status, 200) << begun->body;
  const std::string its = "/api/jobs/" + Json::parse(begun->body)["id"].get<std::string>();
  Json job;
  do {
    job = Json::parse(page.Get(its)->body);
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  } while (job["state"] == "running");
  ASSERT_EQ(job["state"], "done") << job;
  const auto file = page.Get(its + "/files/small.csv");
  ASSERT_TRUE(file);
  EXPECT_EQ(file->status, 200) << job;
  EXPECT_EQ(file->get_header_value("Content-Disposition"), "attachment; filename=\"small.csv\"");
  EXPECT_EQ(file->get_header_value("Content-Type"), "application/octet-stream");
  EXPECT_EQ(file->body.size(), job["files"][1]["bytes"].get<std::size_t>());
  EXPECT_EQ(page.Delete(its.c_str())->status, 200);
  for (const std::string& path : std::vector<std::string>{
           its + "/files/..%2fsmall.csv", its + "/files/%2e%2e", its + "/files/none",
           "/api/jobs/none", "/api/jobs/none/files/small.csv", "/api/jobs/..%2f1/files/small.csv"})
    EXPECT_EQ(page.Get(path)->status, 404) << path;
  EXPECT_EQ(page.Delete("/api/jobs/none")->status, 404);
  server.stop();
  running.join();
}

}  // namespace
}  // namespace rootstead::test
