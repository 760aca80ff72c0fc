// Refusal: what the page is told where something cannot be done, with the status of HTTP.
#pragma once

#include "engine/base/result.hpp"

namespace rootstead::serve {

// 404 for what is not there, 409 for what another changed meanwhile, 400 for what was asked
// wrongly, 500 for everything else.
int status_of(const Error& error);

}  // namespace rootstead::serve
