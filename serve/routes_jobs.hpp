// The routes of reports and exports: begun, looked at, given up, fetched.
#pragma once

#include <httplib.h>

#include "serve/desk.hpp"
#include "serve/jobs.hpp"

namespace rootstead::serve {

// Both must outlive the last request.
void route_jobs(httplib::Server& http, Desk& desk, Jobs& jobs);

}  // namespace rootstead::serve
