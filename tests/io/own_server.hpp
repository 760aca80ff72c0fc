// A database server of a test's own: a temporary folder, a port of its own, gone with the test.
// PostgreSQL refuses the superuser of the machine, so it runs as the user `postgres` where the test
// is root.
#pragma once

#include <sys/types.h>

#include <string>

namespace rootstead::test {

class OwnServer {
 public:
  // `durable`: what is sealed is forced to the disk, as on a real server; else it only outlives the
  // server's processes.
  explicit OwnServer(bool durable = true);
  ~OwnServer();
  OwnServer(const OwnServer&) = delete;
  OwnServer& operator=(const OwnServer&) = delete;

  // Why there is none, for GTEST_SKIP; empty where it runs.
  const std::string& why_not() const { return why_not_; }

  std::string address(const std::string& project, const std::string& database = "trees") const;
  int port() const { return port_; }  // also of 127.0.0.1, where it wants a password:
  static constexpr const char* kUser = "rootstead";
  static constexpr const char* kPassword = "only of this test";

  // The answer of psql, or what it complained of.
  std::string sql(const std::string& commands, const std::string& database = "trees") const;

  void kill_all();      // SIGKILL to every process of the server at once
  bool kill_backend();  // SIGKILL to one that serves a client; false where there is none
  bool start();         // until it answers

 private:
  bool make();
  pid_t run(const std::string& program, const std::string& arguments) const;

  std::string folder_, programs_, why_not_;
  bool durable_;
  int port_ = 0;
  pid_t server_ = -1;
};

// One for all tests of a program that only want a store; not durable.
OwnServer& shared_server();

}  // namespace rootstead::test
