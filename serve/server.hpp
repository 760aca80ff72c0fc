// Server: HTTP between a desk and the page, on 127.0.0.1 only. Every refusal is one sentence.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>

#include "serve/desk.hpp"

namespace rootstead::serve {

inline constexpr std::size_t kMostBytes = 1'000'000;  // of one request; our assumption
// A page never opens more than six connections at once; the rest is room beside slow clients, that
// are let go as serve/timed_http.hpp says.
inline constexpr int kMostThreads = 64;

class Server {
 public:
  explicit Server(Desk desk);
  // The page is there at once and says how far `opening` is; until that is done every other
  // question is refused with 503.
  using Opening = std::function<Result<Desk>(Desk::Progress progress)>;
  explicit Server(Opening opening);
  Server(Server&&) noexcept;
  Server& operator=(Server&&) noexcept;
  ~Server();

  // Takes the port, or any free one for 0, and returns it. Fails with wrong_use where it is taken.
  Result<int> take_port(int port);
  // Answers until stop(), which may be called from another thread or a signal handler's thread.
  // Fails where the desk could not be opened. Waits for an opening under way.
  Outcome run();
  void stop();

  struct Opened {
    std::size_t done = 0, all = 0;  // trees
    bool ready = false;
  };
  Opened opened() const;  // from any thread

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace rootstead::serve
