#include "serve/guard.hpp"

namespace rootstead::serve {

bool is_own_host(std::string_view host, int port) {
  const std::string at = ":" + std::to_string(port);
  return host == "127.0.0.1" + at || host == "localhost" + at;
}

bool is_own_origin(std::string_view origin, int port) {
  constexpr std::string_view kScheme = "http://";
  if (origin.empty()) return true;
  return origin.starts_with(kScheme) && is_own_host(origin.substr(kScheme.size()), port);
}

}  // namespace rootstead::serve
