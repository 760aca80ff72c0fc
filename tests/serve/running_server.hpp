// A server that runs beside the test, with a small project open.
#pragma once

#include <gtest/gtest.h>
#include <httplib.h>

#include <thread>

#include "serve/server.hpp"
#include "tests/serve/open_desk.hpp"

namespace rootstead::test {

class RunningServer : public ::testing::Test {
 protected:
  RunningServer() : server_(home_.open()), port_(*server_.take_port(0)) {
    running_ = std::thread([this] { EXPECT_TRUE(server_.run().ok()); });
    while (!client().Get("/api/site")) std::this_thread::yield();
  }
  ~RunningServer() override {
    server_.stop();
    running_.join();
  }
  httplib::Client client() const {
    httplib::Client http("127.0.0.1", port_);
    http.set_read_timeout(60);
    return http;
  }

  OpenDesk home_;
  serve::Server server_;
  int port_;
  std::thread running_;
};

}  // namespace rootstead::test
