// What every route does: an answer or a refusal as JSON, and the request's body read with care.
#pragma once

#include <httplib.h>

#include <string>
#include <vector>

#include "engine/base/result.hpp"
#include "io/json.hpp"

namespace rootstead::serve {

void tell(httplib::Response& response, const io::Json& json);
void tell(httplib::Response& response, const Result<io::Json>& result);
void refuse(httplib::Response& response, int status, const std::string& sentence);

// A request that the page would not have made.
Error no_request(const std::string& message);

// The body as an object with these keys, and none but these and those of `may_have`.
Result<io::Json> body_of(const httplib::Request& request, const std::vector<std::string>& keys,
                         const std::vector<std::string>& may_have = {});

}  // namespace rootstead::serve
