// TimedHttp: a server of the library that lets a client go that does not bring its request, or
// take its answer, in time. The library's own limits count from byte to byte, so that a client
// with a byte now and then would hold a thread for hours.
#pragma once

#include <httplib.h>

#include <chrono>

namespace rootstead::serve {

inline constexpr std::chrono::seconds kMostToBring{5};  // from a request's first byte to its last
inline constexpr std::chrono::seconds kMostToTake{30};  // of an answer; both our assumption

class TimedHttp : public httplib::Server {
 private:
  bool process_and_close_socket(socket_t its_socket) override;
};

}  // namespace rootstead::serve
