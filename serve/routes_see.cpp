#include "serve/routes_see.hpp"

#include "serve/answer.hpp"
#include "serve/kept_answer.hpp"
#include "serve/offsets.hpp"
#include "serve/protection_json.hpp"
#include "serve/root_share.hpp"
#include "serve/root_system_json.hpp"
#include "serve/section_view.hpp"
#include "serve/tree_sheet.hpp"

namespace rootstead::serve {
namespace {

using httplib::Request;
using httplib::Response;
using io::Json;

// An answer about the thing whose id the path names.
template <class Answer>
void get(httplib::Server& http, Desk& desk, const char* path, Answer answer) {
  http.Get(path, [&desk, answer](const Request& request, Response& response) {
    const std::shared_ptr<const Standing> standing = desk.standing();
    tell(response, answer(*standing, request.matches[1].str()));
  });
}

Result<Json> section(const Desk& desk, const Request& request) {
  ROOTSTEAD_TRY(const Json body, body_of(request, {}, {"work", "line", "half_width_m"}));
  ROOTSTEAD_TRY(const SectionAsked asked, section_asked(body));
  return section_view(*desk.standing(), asked);
}

Result<Json> offsets_asked(const Desk& desk, const Request& request) {
  if (!request.has_param("tree")) return no_request("it names no tree");
  return offsets(*desk.standing(), request.matches[1].str(), request.get_param_value("tree"));
}

}  // namespace

void route_see(httplib::Server& http, Desk& desk) {
  get(http, desk, "/api/trees/([^/]+)", tree_sheet);
  get(http, desk, "/api/trees/([^/]+)/roots", root_system_json);
  get(http, desk, "/api/trees/([^/]+)/tint", root_tint);
  get(http, desk, "/api/trees/([^/]+)/profiles", root_profiles);
  http.Post("/api/section", [&desk](const Request& request, Response& response) {
    tell(response, section(desk, request));
  });
  http.Get("/api/works/([^/]+)/offsets", [&desk](const Request& request, Response& response) {
    tell(response, offsets_asked(desk, request));
  });
  const auto protection = std::make_shared<KeptAnswer>(protection_json);
  http.Get("/api/protection", [&desk, protection](const Request&, Response& response) {
    tell(response, protection->of(*desk.standing()));
  });
}

}  // namespace rootstead::serve
