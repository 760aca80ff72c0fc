#include "validation/shipped.hpp"

#include <cstdlib>
#include <iostream>

#include "io/tables.hpp"

namespace rootstead::validation {

const Tables& shipped() {
  static const Tables tables = [] {
    auto read = io::load_tables();
    if (!read) {
      std::cerr << "validate: " << read.error().sentence() << '\n';
      std::exit(3);
    }
    return std::move(read).value();
  }();
  return tables;
}

}  // namespace rootstead::validation
