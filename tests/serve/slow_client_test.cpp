// Clients that bring their request, or take their answer, a byte at a time must not hold up the
// page.
#include <arpa/inet.h>
#include <httplib.h>
#include <sys/socket.h>
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <string>
#include <thread>
#include <vector>

#include "serve/server.hpp"
#include "serve/timed_http.hpp"
#include "tests/serve/open_desk.hpp"
#include "tests/serve/raw_client.hpp"

namespace rootstead::test {
namespace {

using std::chrono::steady_clock;

class SlowClient : public ::testing::Test {
 protected:
  SlowClient() : server_(home_.open()), port_(*server_.take_port(0)) {
    running_ = std::thread([this] { EXPECT_TRUE(server_.run().ok()); });
    while (!page().Get("/api/site")) std::this_thread::yield();
  }
  ~SlowClient() override {
    server_.stop();
    running_.join();
  }
  httplib::Client page() const { return httplib::Client("127.0.0.1", port_); }

  OpenDesk home_;
  serve::Server server_;
  int port_;
  std::thread running_;
};

TEST_F(SlowClient, HoldsUpNobodyElse) {
  std::vector<RawClient> slow;
  for (int i = 0; i < serve::kMostThreads / 2; ++i) {
    slow.emplace_back(port_);
    slow.back().send("GET /api/site HTTP/1.1\r\n");
  }
  const auto begun = steady_clock::now();
  const auto site = page().Get("/api/site");
  EXPECT_TRUE(site && site->status == 200);
  EXPECT_LT(steady_clock::now() - begun, serve::kMostToBring - std::chrono::seconds(1))
      << "the slow ones are let go only after it";
}

// More than there are threads, each with a byte now and then: no silence that a limit from byte to
// byte would find.
TEST_F(SlowClient, IsLetGoThoughItNeverFallsSilent) {
  std::vector<RawClient> slow;
  for (int i = 0; i < serve::kMostThreads; ++i) {
    slow.emplace_back(port_);
    slow.back().send("GET /api/site HTTP/1.1\r\nX: ");
  }
  std::atomic<bool> enough = false;
  std::thread dripping([&] {
    while (!enough) {
      for (const RawClient& one : slow) one.send("x");
      std::this_thread::sleep_for(std::chrono::milliseconds(300));
    }
  });
  httplib::Client asker = page();
  asker.set_read_timeout(60);
  const auto begun = steady_clock::now();
  const auto site = asker.Get("/api/site");
  const auto took = steady_clock::now() - begun;
  enough = true;
  dripping.join();
  EXPECT_TRUE(site && site->status == 200);
  EXPECT_LT(took, 2 * serve::kMostToBring - std::chrono::seconds(1));
}

// Requests that come on one connection without waiting are answered one by one.
TEST_F(SlowClient, MayBringTwoRequestsAtOnce) {
  const RawClient client(port_);
  const std::string host = "Host: 127.0.0.1:" + std::to_string(port_) + "\r\n";
  client.send("GET /api/vocabulary HTTP/1.1\r\n" + host + "\r\nGET /api/none HTTP/1.1\r\n" + host +
              "Connection: close\r\n\r\n");
  const std::string answers = client.read_all();
  EXPECT_NE(answers.find("HTTP/1.1 200"), std::string::npos);
  EXPECT_NE(answers.find("HTTP/1.1 404"), std::string::npos);
}

}  // namespace
}  // namespace rootstead::test
