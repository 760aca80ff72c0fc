#include "engine/base/result.hpp"

namespace rootstead {

std::string Error::sentence() const {
  std::string text = subject.empty() ? message : subject + ": " + message;
  if (!remedy.empty()) text += "; " + remedy;
  if (!text.empty() && text.back() != '.') text += '.';
  return text;
}

}  // namespace rootstead
