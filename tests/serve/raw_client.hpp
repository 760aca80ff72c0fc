// A connection on which any bytes are sent, well-formed or not.
#pragma once

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

#include <string>
#include <utility>

namespace rootstead::test {

class RawClient {
 public:
  explicit RawClient(int port) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(port));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    const timeval most{30, 0};
    setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &most, sizeof most);
    EXPECT_EQ(connect(socket_, reinterpret_cast<const sockaddr*>(&address), sizeof address), 0);
  }
  RawClient(RawClient&& other) noexcept : socket_(std::exchange(other.socket_, -1)) {}
  RawClient& operator=(RawClient&&) = delete;
  ~RawClient() {
    if (socket_ >= 0) close(socket_);
  }
  // Whether the other side still listens.
  bool send(const std::string& bytes) const {
    std::size_t at = 0;
    while (at < bytes.size()) {
      const ssize_t sent = ::send(socket_, bytes.data() + at, bytes.size() - at, MSG_NOSIGNAL);
      if (sent <= 0) return false;
      at += static_cast<std::size_t>(sent);
    }
    return true;
  }
  void send_no_more() const { shutdown(socket_, SHUT_WR); }
  // All that comes until the other side closes.
  std::string read_all() const {
    std::string all;
    char some[16'384];
    for (ssize_t got = 0; (got = recv(socket_, some, sizeof some, 0)) > 0;)
      all.append(some, static_cast<std::size_t>(got));
    return all;
  }

 private:
  int socket_;
};

}  // namespace rootstead::test
