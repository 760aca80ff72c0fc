// The routes that a file comes in by: surveys and drawings, and what lies under the plan. They
// alone take more than other requests.
#pragma once

#include <httplib.h>

#include "serve/desk.hpp"
#include "serve/sent_file.hpp"

namespace rootstead::serve {

// Of a request with a file in it: enough that a file somewhat too large is refused with a sentence
// rather than a broken connection. Base64 makes four letters of three bytes.
inline constexpr std::size_t kMostImportBytes = kMostFileBytes * 2;

bool carries_file(const std::string& path);

// The desk must outlive the last request.
void route_import(httplib::Server& http, Desk& desk);

}  // namespace rootstead::serve
