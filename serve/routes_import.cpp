#include "serve/routes_import.hpp"

#include "serve/answer.hpp"
#include "serve/import_preview.hpp"
#include "serve/underlay.hpp"

namespace rootstead::serve {
namespace {

using httplib::Request;
using httplib::Response;
using io::Json;

constexpr const char* kPreview = "/api/imports/preview";
constexpr const char* kImports = "/api/imports";
constexpr const char* kUnderlays = "/api/underlays";

// Whatever is wrong with a file is for the one who sent it to mend.
int status_for(const Error& error) {
  if (error.code == Code::project_busy) return 409;
  return error.code == Code::file_unwritable ? 500 : 400;
}

Result<Json> preview(Desk& desk, const Json& body) {
  const auto snapshot = desk.snapshot();
  ROOTSTEAD_TRY(const ImportAsked asked, import_asked(body, *snapshot));
  return import_preview(asked, *snapshot);
}

Result<Json> add(Desk& desk, const Json& body) {
  if (!body["version"].is_string()) return no_request("its version is no text");
  const std::string version = body["version"];
  const auto snapshot = desk.snapshot();
  if (version != snapshot->version)
    return Error{Code::project_busy, "the file", "another page changed the project meanwhile",
                 "look at what is there now and do it again"};
  ROOTSTEAD_TRY(const ImportAsked asked, import_asked(body, *snapshot));
  ROOTSTEAD_TRY(const io::Import import, read_import(asked, *snapshot));
  ROOTSTEAD_TRY(const std::string now, desk.add(version, import, io::utc_now()));
  return Json{{"version", now}, {"told", told_of(import)}};
}

Result<Json> underlay(Desk& desk, const Json& body) {
  ROOTSTEAD_TRY(const auto unit, unit_of(body, "length_unit"));
  ROOTSTEAD_TRY(const SentFile file,
                SentFile::from({{"name", body["name"]}, {"base64", body["base64"]}}));
  return underlay_json(file, desk.snapshot()->site.system, unit);
}

// A body with a file in it, refused first where that is too large.
template <class Answer>
void post(httplib::Server& http, Desk& desk, const char* path, const std::vector<std::string>& keys,
          const std::vector<std::string>& may_have, Answer answer) {
  http.Post(path, [&desk, keys, may_have, answer](const Request& request, Response& response) {
    const Result<Json> body = body_of(request, keys, may_have);
    if (!body) return refuse(response, status_for(body.error()), body.error().sentence());
    if (is_too_large(body->contains("file") ? (*body)["file"] : *body))
      return refuse(response, 413,
                    "The file is larger than 25 MB; save the part of it that concerns the site.");
    const Result<Json> result = answer(desk, *body);
    if (result) return tell(response, *result);
    refuse(response, status_for(result.error()), result.error().sentence());
  });
}

}  // namespace

bool carries_file(const std::string& path) {
  return path == kPreview || path == kImports || path == kUnderlays;
}

void route_import(httplib::Server& http, Desk& desk) {
  const std::vector<std::string> answers{"as", "columns", "crs", "length_unit"};
  post(http, desk, kPreview, {"file"}, answers, preview);
  post(http, desk, kImports, {"version", "file"}, answers, add);
  post(http, desk, kUnderlays, {"name", "base64"}, {"length_unit"}, underlay);
}

}  // namespace rootstead::serve
