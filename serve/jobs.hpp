// Jobs: reports and exports made beside the page, from the project as it stood when they were
// begun. One at a time. Their files lie in a private folder of the system's temporary files, which
// goes when this goes.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>

#include "io/json.hpp"
#include "report/plan.hpp"
#include "serve/snapshot.hpp"

namespace rootstead::serve {

inline constexpr std::size_t kMostJobsKept = 8;  // with their files, the last ones; our assumption

struct JobAsked {
  enum class What { report, export_data } what = What::report;
  ReportOptions how;   // of a report
  std::string format;  // of an export, the ending of its file: "dxf"
};

// Fails with wrong_use as the contract's JobAsked says.
Result<JobAsked> job_asked(const io::Json& body);

class Jobs {
 public:
  Jobs();
  Jobs(const Jobs&) = delete;
  Jobs& operator=(const Jobs&) = delete;
  ~Jobs();  // gives up what runs, and waits until it has ended

  // The state of the job that is begun. Fails with wrong_use while another one runs.
  Result<io::Json> start(std::shared_ptr<const Snapshot> snapshot, const JobAsked& asked);
  // These fail with unknown_name where there is no such job.
  Result<io::Json> job(const std::string& id) const;
  // Asks the job to end after the step at hand: it runs until then, and leaves no file. One that
  // has ended stays as it is.
  Result<io::Json> cancel(const std::string& id);
  // The bytes of a file that job() names; no other name finds one.
  Result<std::string> file(const std::string& id, const std::string& name) const;

  // For tests: where files lie, empty before the first job.
  std::filesystem::path folder() const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace rootstead::serve
