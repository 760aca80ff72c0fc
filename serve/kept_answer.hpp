// KeptAnswer: a slow answer about the whole project, worked out when first asked for and kept while
// the version stands.
#pragma once

#include <functional>
#include <mutex>
#include <optional>

#include "io/json.hpp"
#include "serve/standing.hpp"

namespace rootstead::serve {

class KeptAnswer {
 public:
  explicit KeptAnswer(std::function<Result<io::Json>(const Standing&)> work_out)
      : work_out_(std::move(work_out)) {}

  // From several threads: one works it out, the others wait for it.
  Result<io::Json> of(const Standing& standing) {
    const std::lock_guard lock(asking_);
    if (!kept_ || version_ != standing.version) {
      kept_ = work_out_(standing);
      version_ = standing.version;
    }
    return *kept_;
  }

 private:
  std::function<Result<io::Json>(const Standing&)> work_out_;
  std::mutex asking_;
  std::string version_;
  std::optional<Result<io::Json>> kept_;
};

}  // namespace rootstead::serve
