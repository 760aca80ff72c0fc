// Digits of any text, whatever the locale.
#pragma once

namespace rootstead::io {

inline bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

}  // namespace rootstead::io
