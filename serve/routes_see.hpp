// The routes that only look: one tree, its roots, sections, offsets, what protects. Slow answers
// are worked out from a Standing, so that works can be moved meanwhile.
#pragma once

#include <httplib.h>

#include "serve/desk.hpp"

namespace rootstead::serve {

// The desk must outlive the last request.
void route_see(httplib::Server& http, Desk& desk);

}  // namespace rootstead::serve
