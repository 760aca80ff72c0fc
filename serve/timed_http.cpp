#include "serve/timed_http.hpp"

#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstring>
#include <optional>

namespace rootstead::serve {
namespace {

using Clock = std::chrono::steady_clock;
using std::chrono::milliseconds;

// Whether the socket is ready for `what` before `until`.
bool ready(socket_t its_socket, short what, Clock::time_point until) {
  for (;;) {
    const auto left = std::chrono::ceil<milliseconds>(until - Clock::now());
    if (left <= milliseconds(0)) return false;
    pollfd one{its_socket, what, 0};
    const int found = poll(&one, 1, static_cast<int>(left.count()));
    if (found > 0) return true;
    if (found == 0 || errno != EINTR) return false;
  }
}

// One connection. What was read beyond a request is kept for the next one.
class TimedStream : public httplib::Stream {
 public:
  explicit TimedStream(socket_t its_socket) : socket_(its_socket) {}

  // A request begins: its time runs from now, that of its answer from the answer's first byte.
  void begin() {
    bring_until_ = Clock::now() + kMostToBring;
    take_until_.reset();
  }
  bool is_late() const { return is_late_; }
  bool has_more() const { return at_ < end_; }

  bool is_readable() const override { return has_more() || ready(socket_, POLLIN, bring_until_); }
  bool is_writable() const override {
    if (!take_until_) take_until_ = Clock::now() + kMostToTake;
    return ready(socket_, POLLOUT, *take_until_);
  }
  ssize_t read(char* bytes, size_t size) override {
    if (!has_more()) {
      if (!is_readable()) return late();
      const ssize_t got = recv(socket_, buffer_.data(), buffer_.size(), MSG_DONTWAIT);
      if (got <= 0) return got;
      at_ = 0;
      end_ = static_cast<std::size_t>(got);
    }
    const std::size_t some = std::min(size, end_ - at_);
    std::memcpy(bytes, buffer_.data() + at_, some);
    at_ += some;
    return static_cast<ssize_t>(some);
  }
  ssize_t write(const char* bytes, size_t size) override {
    if (!is_writable()) return late();
    return send(socket_, bytes, size, MSG_DONTWAIT | MSG_NOSIGNAL);
  }
  // Nobody asks who it is: only this machine is listened to.
  void get_remote_ip_and_port(std::string& ip, int& port) const override {
    ip = "127.0.0.1";
    port = 0;
  }
  void get_local_ip_and_port(std::string& ip, int& port) const override {
    get_remote_ip_and_port(ip, port);
  }
  socket_t socket() const override { return socket_; }

 private:
  ssize_t late() {
    is_late_ = true;
    return -1;
  }

  socket_t socket_;
  bool is_late_ = false;
  Clock::time_point bring_until_;
  mutable std::optional<Clock::time_point> take_until_;
  std::array<char, 16'384> buffer_;
  std::size_t at_ = 0, end_ = 0;
};

// Waits in short spells, so that a server that is stopped does not wait for idle clients.
template <class Stopped>
bool wait_for_request(const TimedStream& stream, std::chrono::seconds most, Stopped stopped) {
  constexpr milliseconds kSpell{50};
  const auto until = Clock::now() + most;
  while (!stopped() && Clock::now() < until)
    if (stream.has_more() || ready(stream.socket(), POLLIN, Clock::now() + kSpell)) return true;
  return false;
}

// Between two programs of one machine packing saves nothing: the library's takes most of a minute
// for the plan of a large site.
void unpacked(httplib::Request& request) {
  request.headers.erase("Accept-Encoding");
}

}  // namespace

bool TimedHttp::process_and_close_socket(socket_t its_socket) {
  const auto stopped = [this] { return svr_sock_ == INVALID_SOCKET; };
  TimedStream stream(its_socket);
  bool good = true, closed = false;
  for (auto left = keep_alive_max_count_; left > 0 && good && !closed && !stream.is_late();
       --left) {
    if (!wait_for_request(stream, std::chrono::seconds(keep_alive_timeout_sec_), stopped)) break;
    stream.begin();
    good = process_request(stream, left == 1, closed, unpacked);
  }
  shutdown(its_socket, SHUT_RDWR);
  close(its_socket);
  return good;
}

}  // namespace rootstead::serve
