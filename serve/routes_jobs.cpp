#include "serve/routes_jobs.hpp"

#include "serve/answer.hpp"
#include "serve/refusal.hpp"

namespace rootstead::serve {
namespace {

using httplib::Request;
using httplib::Response;
using io::Json;

Result<Json> start(Desk& desk, Jobs& jobs, const Request& request) {
  ROOTSTEAD_TRY(const Json body, body_of(request, {"what"}, {"sheet", "scale", "format"}));
  ROOTSTEAD_TRY(const JobAsked asked, job_asked(body));
  return jobs.start(desk.snapshot(), asked);
}

// Never shown in place: always kept as a file. The names are ours, of letters, digits, - and dots.
void send_file(const Jobs& jobs, const Request& request, Response& response) {
  const std::string name = request.matches[2];
  const Result<std::string> bytes = jobs.file(request.matches[1], name);
  if (!bytes) return refuse(response, status_of(bytes.error()), bytes.error().sentence());
  response.set_header("Content-Disposition", "attachment; filename=\"" + name + "\"");
  response.set_content(*bytes, "application/octet-stream");
}

}  // namespace

void route_jobs(httplib::Server& http, Desk& desk, Jobs& jobs) {
  http.Post("/api/jobs", [&desk, &jobs](const Request& request, Response& response) {
    tell(response, start(desk, jobs, request));
  });
  http.Get("/api/jobs/([^/]+)", [&jobs](const Request& request, Response& response) {
    tell(response, jobs.job(request.matches[1]));
  });
  http.Delete("/api/jobs/([^/]+)", [&jobs](const Request& request, Response& response) {
    tell(response, jobs.cancel(request.matches[1]));
  });
  http.Get("/api/jobs/([^/]+)/files/([^/]+)", [&jobs](const Request& request, Response& response) {
    send_file(jobs, request, response);
  });
}

}  // namespace rootstead::serve
