#include "cli/console.hpp"

#include <chrono>
#include <ostream>

namespace rootstead::cli {
namespace {

constexpr double kQuietSeconds = 0.5;
constexpr int kFirstUseCode = 200, kFirstGeometryCode = 300;  // blocks of Code in result.hpp

double seconds_since_start() {
  using Clock = std::chrono::steady_clock;
  return std::chrono::duration<double>(Clock::now().time_since_epoch()).count();
}

}  // namespace

Exit exit_for(const Error& error) {
  const auto code = static_cast<int>(error.code);
  return code >= kFirstUseCode && code < kFirstGeometryCode ? Exit::wrong_use : Exit::failed;
}

Progress::Progress(const Console& console, std::string what)
    : console_(console), what_(std::move(what)), started_(seconds_since_start()) {}

Progress::~Progress() {
  if (percent_ >= 0) console_.err << "\r\033[K" << std::flush;
}

void Progress::show(std::size_t done, std::size_t all) {
  if (!console_.terminal || all == 0) return;
  const int percent = static_cast<int>(100 * done / all);
  if (percent == percent_ || seconds_since_start() - started_ < kQuietSeconds) return;
  percent_ = percent;
  console_.err << '\r' << what_ << ' ' << percent << " %" << std::flush;
}

}  // namespace rootstead::cli
