#include "serve/answer.hpp"

#include <algorithm>

#include "serve/refusal.hpp"

namespace rootstead::serve {

using io::Json;

namespace {

constexpr const char* kJson = "application/json";

}  // namespace

void tell(httplib::Response& response, const Json& json) {
  response.set_content(json.dump(-1, ' ', false, Json::error_handler_t::replace), kJson);
}

void refuse(httplib::Response& response, int status, const std::string& sentence) {
  response.status = status;
  tell(response, Json{{"error", sentence}});
}

void tell(httplib::Response& response, const Result<Json>& result) {
  if (result) return tell(response, *result);
  refuse(response, status_of(result.error()), result.error().sentence());
}

Error no_request(const std::string& message) {
  return {Code::wrong_use, "the request", message, "load the page again"};
}

Result<Json> body_of(const httplib::Request& request, const std::vector<std::string>& keys,
                     const std::vector<std::string>& may_have) {
  if (!request.get_header_value("Content-Type").starts_with(kJson))
    return no_request("it is not JSON");
  Json body = Json::parse(request.body, nullptr, false);
  if (!body.is_object()) return no_request("it is not a JSON object");
  for (const std::string& key : keys)
    if (!body.contains(key)) return no_request("it has no " + key);
  const auto in = [](const std::vector<std::string>& list, const std::string& key) {
    return std::find(list.begin(), list.end(), key) != list.end();
  };
  for (const auto& [key, value] : body.items())
    if (!in(keys, key) && !in(may_have, key)) return no_request("it has a key that is not known");
  return body;
}

}  // namespace rootstead::serve
