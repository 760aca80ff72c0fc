// The routes that change the project: edits by hand, and what a form needs for them.
#pragma once

#include <httplib.h>

#include "serve/desk.hpp"

namespace rootstead::serve {

// The desk must outlive the last request.
void route_edit(httplib::Server& http, Desk& desk);

}  // namespace rootstead::serve
