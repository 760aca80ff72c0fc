// Guard: who may ask. The server listens on this machine only; a page from elsewhere, opened in the
// same browser, must not reach it either.
#pragma once

#include <string>
#include <string_view>

namespace rootstead::serve {

// Is this the Host (or the authority of an Origin) of our own page on this port?
bool is_own_host(std::string_view host, int port);
// Empty where nothing was said: a browser names the origin whenever another one's page asks.
bool is_own_origin(std::string_view origin, int port);

// Nothing from elsewhere, nothing inline, no frame round it.
inline constexpr const char* kContentSecurityPolicy =
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
    "connect-src 'self'; font-src 'self'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'";

}  // namespace rootstead::serve
