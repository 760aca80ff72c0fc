#include "serve/routes_see.hpp"

#include "serve/answer.hpp"
#include "serve/root_share.hpp"
#include "serve/root_system_json.hpp"
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

}  // namespace

void route_see(httplib::Server& http, Desk& desk) {
  get(http, desk, "/api/trees/([^/]+)", tree_sheet);
  get(http, desk, "/api/trees/([^/]+)/roots", root_system_json);
  get(http, desk, "/api/trees/([^/]+)/tint", root_tint);
  get(http, desk, "/api/trees/([^/]+)/profiles", root_profiles);
}

}  // namespace rootstead::serve
