#include "tests/io/own_server.hpp"

#include <arpa/inet.h>
#include <grp.h>
#include <pwd.h>
#include <signal.h>
#include <sys/prctl.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <thread>
#include <vector>

namespace rootstead::test {
namespace {

namespace fs = std::filesystem;

// Debian keeps the programs of each version in a folder of its own; the newest.
std::string programs_of_the_server() {
  std::vector<std::string> found;
  std::error_code ignored;
  for (const auto& version : fs::directory_iterator("/usr/lib/postgresql", ignored))
    if (fs::exists(version.path() / "bin/initdb")) found.push_back(version.path() / "bin");
  std::sort(found.begin(), found.end());
  return found.empty() ? "" : found.back();
}

const passwd* user_of_the_server() {
  return ::geteuid() == 0 ? ::getpwnam("postgres") : ::getpwuid(::geteuid());
}

int free_port() {
  const int socket = ::socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  socklen_t size = sizeof address;
  ::bind(socket, reinterpret_cast<sockaddr*>(&address), size);
  ::getsockname(socket, reinterpret_cast<sockaddr*>(&address), &size);
  ::close(socket);
  return ntohs(address.sin_port);
}

int wait_for(pid_t child) {
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace

OwnServer::OwnServer(bool durable) : programs_(programs_of_the_server()), durable_(durable) {
  if (programs_.empty()) {
    why_not_ = "PostgreSQL is not installed";
  } else if (!fs::exists("/usr/share/postgresql/" +
                         fs::path(programs_).parent_path().filename().string() +
                         "/extension/postgis.control")) {
    why_not_ = "PostGIS is not installed";
  } else if (user_of_the_server() == nullptr) {
    why_not_ = "there is no user postgres to run the server";
  } else if (!make()) {
    why_not_ = "the server could not be started in " + folder_;
  }
}

OwnServer::~OwnServer() {
  if (server_ > 0) kill_all();
  std::error_code ignored;
  if (!folder_.empty()) fs::remove_all(folder_, ignored);
}

// A program of the server, as its user, in a group of its own that dies with the test.
pid_t OwnServer::run(const std::string& program, const std::string& arguments) const {
  const std::string command =
      "exec " + programs_ + "/" + program + " " + arguments + " >>" + folder_ + "/log 2>&1";
  const passwd user = *user_of_the_server();
  const pid_t child = ::fork();
  if (child != 0) {
    ::setpgid(child, child);
    return child;
  }
  ::setpgid(0, 0);
  if (::geteuid() == 0) {
    if (::setgroups(0, nullptr) != 0 || ::setgid(user.pw_gid) != 0 || ::setuid(user.pw_uid) != 0)
      ::_exit(126);
  }
  ::prctl(PR_SET_PDEATHSIG, SIGQUIT);
  if (::chdir(folder_.c_str()) != 0) ::_exit(126);
  ::execl("/bin/sh", "sh", "-c", command.c_str(), nullptr);
  ::_exit(127);
}

bool OwnServer::make() {
  std::string name = (fs::temp_directory_path() / "rootstead-server-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) return false;
  folder_ = name;
  const passwd user = *user_of_the_server();
  if (::geteuid() == 0 && ::chown(folder_.c_str(), user.pw_uid, user.pw_gid) != 0) return false;
  fs::permissions(folder_, fs::perms::owner_all | fs::perms::group_exec | fs::perms::others_exec);
  { std::ofstream(folder_ + "/password") << kPassword << '\n'; }
  fs::permissions(folder_ + "/password", fs::perms::owner_read | fs::perms::others_read);
  port_ = free_port();
  const std::string how =
      "-D data -U rootstead --auth-local=trust --auth-host=scram-sha-256 "
      "--pwfile=password -E UTF8 --locale=C.UTF-8 --no-sync";
  if (wait_for(run("initdb", how)) != 0 || !start()) return false;
  sql("CREATE DATABASE trees; CREATE DATABASE bare", "postgres");
  sql("CREATE EXTENSION postgis");
  return sql("SELECT 1") == "1\n";
}

bool OwnServer::start() {
  server_ = run("postgres", "-D data -p " + std::to_string(port_) + " -k " + folder_ +
                                " -c listen_addresses=127.0.0.1 -c max_connections=40 "
                                "-c shared_buffers=32MB -c fsync=" +
                                (durable_ ? "on" : "off"));
  for (int tries = 0; tries < 600; ++tries) {
    if (sql("SELECT 1", "postgres") == "1\n") return true;
    if (::waitpid(server_, nullptr, WNOHANG) == server_) {
      // A moment after a kill its memory may still be held by processes that are dying.
      std::this_thread::sleep_for(std::chrono::milliseconds(100));
      return tries < 300 && start();
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
  }
  return false;
}

void OwnServer::kill_all() {
  ::kill(-server_, SIGKILL);
  // Processes for single clients are in groups of their own.
  for (const auto& entry : fs::directory_iterator("/proc")) {
    const std::string number = entry.path().filename();
    std::error_code ignored;
    if (number.find_first_not_of("0123456789") != std::string::npos) continue;
    if (fs::read_symlink(entry.path() / "cwd", ignored) == folder_ + "/data")
      ::kill(std::stoi(number), SIGKILL);
  }
  ::waitpid(server_, nullptr, 0);
  server_ = -1;
}

bool OwnServer::kill_backend() {
  const std::string found =
      sql("SELECT pid FROM pg_stat_activity WHERE application_name = 'rootstead' ORDER BY random() "
          "LIMIT 1");
  const int process = std::atoi(found.c_str());
  return process > 1 && ::kill(process, SIGKILL) == 0;
}

std::string OwnServer::address(const std::string& project, const std::string& database) const {
  return "pg:host=" + folder_ + " port=" + std::to_string(port_) + " user=" + kUser +
         " dbname=" + database + " project=" + project;
}

std::string OwnServer::sql(const std::string& commands, const std::string& database) const {
  const std::string file = folder_ + "/asked-" + std::to_string(::getpid()) + ".sql";
  { std::ofstream(file) << commands << ";\n"; }
  const std::string command = programs_ + "/psql -X -q -A -t -w -h " + folder_ + " -p " +
                              std::to_string(port_) + " -U " + kUser + " -d " + database +
                              " -v ON_ERROR_STOP=1 -f " + file + " 2>&1";
  std::string answer;
  FILE* pipe = ::popen(command.c_str(), "r");
  if (pipe == nullptr) return "no psql";
  char part[4096];
  for (std::size_t size; (size = std::fread(part, 1, sizeof part, pipe)) > 0;)
    answer.append(part, size);
  ::pclose(pipe);
  return answer;
}

OwnServer& shared_server() {
  static OwnServer server(false);
  return server;
}

}  // namespace rootstead::test
