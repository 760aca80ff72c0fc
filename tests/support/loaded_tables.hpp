// The tables shipped with the program, rules included, read once for a test program that links io.
#pragma once

#include <cstdlib>
#include <iostream>

#include "io/tables.hpp"

namespace rootstead::test {

inline const Tables& loaded_tables() {
  static const Tables tables = [] {
    auto read = io::load_tables();
    if (!read.ok()) {
      std::cerr << read.error().sentence() << '\n';
      std::abort();
    }
    return std::move(read).value();
  }();
  return tables;
}

}  // namespace rootstead::test
