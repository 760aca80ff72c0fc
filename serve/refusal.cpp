#include "serve/refusal.hpp"

namespace rootstead::serve {

int status_of(const Error& error) {
  switch (error.code) {
    case Code::unknown_name:
      return 404;
    case Code::project_busy:
      return 409;
    case Code::wrong_use:
    case Code::value_invalid:
    case Code::invalid_geometry:
    case Code::empty_geometry:
    case Code::missing_measurement:
    case Code::outside_rule_domain:
      return 400;
    default:
      return 500;
  }
}

}  // namespace rootstead::serve
