#include "serve/routes_edit.hpp"

#include "serve/answer.hpp"
#include "serve/edit.hpp"

namespace rootstead::serve {
namespace {

using httplib::Request;
using httplib::Response;
using io::Json;

Result<Json> edit(Desk& desk, const Request& request) {
  ROOTSTEAD_TRY(const Json body, body_of(request, {"version", "changes"}));
  if (!body["version"].is_string()) return no_request("its version is no text");
  return desk.edit(body["version"].get<std::string>(), body["changes"], io::utc_now());
}

}  // namespace

void route_edit(httplib::Server& http, Desk& desk) {
  http.Get("/api/vocabulary",
           [](const Request&, Response& response) { tell(response, vocabulary_json()); });
  http.Get("/api/works/([^/]+)", [&desk](const Request& request, Response& response) {
    tell(response, desk.work(request.matches[1].str()));
  });
  http.Get("/api/survey/([^/]+)", [&desk](const Request& request, Response& response) {
    tell(response, desk.survey(request.matches[1].str()));
  });
  http.Post("/api/edits", [&desk](const Request& request, Response& response) {
    tell(response, edit(desk, request));
  });
}

}  // namespace rootstead::serve
