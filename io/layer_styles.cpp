#include "io/layer_styles.hpp"

namespace rootstead::io {

Outcome add_layer_styles(Database&) {
  return Nothing{};
}

}  // namespace rootstead::io
