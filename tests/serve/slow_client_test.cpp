// Clients that begin a request and do not end it must not hold up the page.
#include <arpa/inet.h>
#include <httplib.h>
#include <sys/socket.h>
#include <unistd.h>

#include <string>
#include <thread>
#include <vector>

#include "serve/server.hpp"
#include "tests/serve/open_desk.hpp"

namespace rootstead::test {
namespace {

// A connection with the first line of a request on it, and no more.
int begin_request(int port) {
  const int its_socket = socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(static_cast<std::uint16_t>(port));
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  EXPECT_EQ(connect(its_socket, reinterpret_cast<const sockaddr*>(&address), sizeof address), 0);
  const std::string begun = "GET /api/site HTTP/1.1\r\n";
  EXPECT_EQ(send(its_socket, begun.data(), begun.size(), MSG_NOSIGNAL), ssize_t(begun.size()));
  return its_socket;
}

TEST(SlowClient, HoldsUpNobodyElse) {
  OpenDesk home;
  serve::Server server(home.open());
  const int port = *server.take_port(0);
  std::thread running([&] { server.run(); });
  httplib::Client page("127.0.0.1", port);
  while (!page.Get("/api/site")) std::this_thread::yield();
  std::vector<int> slow;
  for (int i = 0; i < serve::kMostThreads / 2; ++i) slow.push_back(begin_request(port));
  page.set_read_timeout(serve::kSlowestSeconds - 1);  // the slow ones are let go only after it
  const auto site = page.Get("/api/site");
  EXPECT_TRUE(site && site->status == 200);
  for (const int one : slow) close(one);
  server.stop();
  running.join();
}

}  // namespace
}  // namespace rootstead::test
