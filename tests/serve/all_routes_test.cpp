// Every route, as somebody who means harm meets it: bodies that are no bodies, ids that lead
// elsewhere, too much, and ten thousand requests changed at random. The server answers in a
// sentence or closes the connection; the project stays as it was.
#include <httplib.h>

#include <random>
#include <thread>

#include "io/json.hpp"
#include "serve/routes_import.hpp"
#include "serve/server.hpp"
#include "serve/shape_json.hpp"
#include "tests/serve/open_desk.hpp"
#include "tests/serve/raw_client.hpp"
#include "tests/serve/running_server.hpp"

namespace rootstead::test {
namespace {

using io::Json;

constexpr const char* kJson = "application/json";

struct Route {
  const char* method;
  std::string path;  // {} where an id goes
  Json body = nullptr;
  std::size_t most = serve::kMostBytes;  // that a body may have
};

// Bodies are right but for the version, so that nothing is changed whatever becomes of them.
std::vector<Route> all_routes() {
  constexpr std::size_t kOfFiles = serve::kMostImportBytes;
  const Json shape = serve::to_json(trench_at(3));
  const Json file = {{"name", "a.csv"}, {"base64", "?"}};
  return {{"GET", "/api/site"},
          {"GET", "/api/assessment"},
          {"GET", "/api/protection"},
          {"GET", "/api/vocabulary"},
          {"GET", "/api/trees/{}"},
          {"GET", "/api/trees/{}/roots"},
          {"GET", "/api/trees/{}/tint"},
          {"GET", "/api/trees/{}/profiles"},
          {"GET", "/api/works/{}"},
          {"GET", "/api/works/{}/offsets?tree=T1"},
          {"GET", "/api/survey/{}"},
          {"GET", "/api/jobs/{}"},
          {"GET", "/api/jobs/{}/files/{}"},
          {"DELETE", "/api/jobs/{}"},
          {"POST", "/api/works/{}/trial", {{"shape", shape}}},
          {"PUT", "/api/works/{}/shape", {{"version", "none"}, {"shape", shape}}},
          {"POST", "/api/section", {{"work", "W1"}, {"half_width_m", 1.5}}},
          {"POST",
           "/api/edits",
           {{"version", "none"}, {"changes", Json::array({{{"op", "move"}, {"id", "T1"}}})}}},
          {"POST", "/api/jobs", {{"what", "export"}, {"format", "none"}}},
          {"POST", "/api/imports/preview", {{"file", file}}, kOfFiles},
          {"POST", "/api/imports", {{"version", "none"}, {"file", file}}, kOfFiles},
          {"POST", "/api/underlays", file, kOfFiles},
          {"GET", "/{}"}};
}

std::string with_id(std::string path, const std::string& id) {
  for (std::size_t at; (at = path.find("{}")) != std::string::npos;) path.replace(at, 2, id);
  return path;
}

class AllRoutes : public RunningServer {
 protected:
  AllRoutes() { version_ = home_.project().version().value(); }
  httplib::Result ask(const Route& route, const std::string& path, const std::string& body) const {
    httplib::Request request;
    request.method = route.method;
    request.path = path;
    request.body = body;
    if (!body.empty()) request.set_header("Content-Type", kJson);
    return client().send(request);
  }
  // As bytes, with a body of its right length.
  std::string bytes_of(const Route& route, const std::string& id) const {
    const std::string body = route.body.is_null() ? "" : route.body.dump();
    return std::string(route.method) + " " + with_id(route.path, id) +
           " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port_) +
           "\r\nConnection: close\r\nContent-Type: application/json\r\n" +
           "Content-Length: " + std::to_string(body.size()) + "\r\n\r\n" + body;
  }
  void expect_untouched() const {
    const auto site = client().Get("/api/site");
    ASSERT_TRUE(site);
    EXPECT_EQ(site->status, 200);
    EXPECT_EQ(home_.project().version().value(), version_);
  }

  std::string version_;
};

void expect_refused(const httplib::Result& answer, const std::string& what) {
  ASSERT_TRUE(answer) << what;
  EXPECT_GE(answer->status, 400) << what << answer->body;
  EXPECT_LT(answer->status, 500) << what << answer->body;
  EXPECT_TRUE(Json::parse(answer->body).contains("error")) << what;
}

TEST_F(AllRoutes, KnowNoIdThatLeadsElsewhere) {
  for (const Route& route : all_routes()) {
    if (route.path.find("{}") == std::string::npos) continue;
    for (const char* id : {"..%2f..%2fetc%2fpasswd", "%2e%2e", "%2fetc%2fpasswd", "..%5c..%5cx",
                           "T1%00", "%c0%ae%c0%ae", "%", "%zz", "%ff%fe", "' OR 1=1 --"}) {
      const std::string path = with_id(route.path, id);
      expect_refused(ask(route, path, route.body.is_null() ? "" : route.body.dump()),
                     route.method + (" " + path));
    }
  }
  expect_untouched();
}

TEST_F(AllRoutes, RefuseBodiesThatAreNone) {
  for (const Route& route : all_routes()) {
    if (route.body.is_null()) continue;
    const std::string path = with_id(route.path, "W1");
    Json more = route.body, less = route.body;
    more["unknown"] = 1;
    less.erase(less.begin());
    std::vector<std::string> bodies{
        "", "{", "[]", "{}", "null", "1e999", "\"\xff\"", std::string(200'000, '['), more.dump()};
    for (const auto& [key, value] : route.body.items())
      for (const Json& wrong : {Json(nullptr), Json(1), Json("x"), Json::array({Json::array()}),
                                Json::object({{"x", -1e300}})}) {
        if (wrong.type() == value.type() || (key == "half_width_m" && wrong.is_number())) continue;
        Json other = route.body;
        other[key] = wrong;
        bodies.push_back(other.dump());
      }
    for (const std::string& body : bodies)
      expect_refused(ask(route, path, body),
                     route.method + (" " + path + " ") + body.substr(0, 300));
  }
  expect_untouched();
}

TEST_F(AllRoutes, RefuseTooMuch) {
  for (const Route& route : all_routes()) {
    if (!route.body.is_null()) {
      const auto refused = ask(route, with_id(route.path, "W1"), std::string(route.most + 1, ' '));
      EXPECT_TRUE(!refused || refused->status == 413) << route.path << refused->status;
    }
    if (route.path.find("{}") == std::string::npos) continue;
    const auto refused = ask(route, with_id(route.path, std::string(20'000, 'x')), "");
    EXPECT_TRUE(!refused || (refused->status >= 400 && refused->status < 500)) << route.path;
  }
  expect_untouched();
}

// Bytes of whole requests, changed, taken out and doubled.
TEST_F(AllRoutes, OutliveMutatedRequests) {
  constexpr int kRequests = 10'000;
  std::mt19937 random(11);
  const std::vector<Route> routes = all_routes();
  int answered = 0;
  for (int i = 0; i < kRequests; ++i) {
    const Route& route = routes[static_cast<std::size_t>(i) % routes.size()];
    std::string bytes = bytes_of(route, random() % 8 == 0 ? "W1" : "none");
    for (auto k = 1 + random() % 4; k > 0; --k) {
      const std::size_t at = random() % bytes.size();
      if (random() % 3 != 0)
        bytes[at] = static_cast<char>(random() % 256);
      else if (random() % 2 == 0)
        bytes.erase(at, 1 + random() % 8);
      else
        bytes.insert(at, bytes.substr(random() % bytes.size(), 1 + random() % 40));
    }
    const RawClient client(port_);
    client.send(bytes);
    client.send_no_more();
    const std::string answer = client.read_all();
    if (answer.empty()) continue;  // closed on it
    ++answered;
    ASSERT_TRUE(answer.starts_with("HTTP/1.")) << answer;
    const std::string status = answer.substr(9, 3);
    ASSERT_TRUE(status[0] == '2' || status[0] == '4' || status == "505" || status == "503")
        << status << bytes << answer;
  }
  EXPECT_GT(answered, kRequests / 2);
  expect_untouched();
}

}  // namespace
}  // namespace rootstead::test
