// The server as a browser, and as somebody who means harm, meets it.
#include "serve/server.hpp"

#include <httplib.h>

#include <future>
#include <random>
#include <thread>

#include "serve/shape_json.hpp"
#include "tests/serve/a_snapshot.hpp"
#include "tests/serve/open_desk.hpp"
#include "tests/serve/running_server.hpp"

namespace rootstead::test {
namespace {

using io::Json;

constexpr const char* kJson = "application/json";
constexpr const char* kTrial = "/api/works/W1/trial";
constexpr const char* kShape = "/api/works/W1/shape";

std::string trial_of(double x) {
  return Json{{"shape", serve::to_json(trench_at(x))}}.dump();
}

class ServerTest : public RunningServer {
 protected:
  std::string own() const { return "http://127.0.0.1:" + std::to_string(port_); }
  static std::string trial_at(double x) { return trial_of(x); }
  // The server still answers, and nothing has moved.
  void expect_untouched() const {
    const auto site = client().Get("/api/site");
    ASSERT_TRUE(site);
    EXPECT_EQ(site->status, 200);
    EXPECT_EQ(home_.project().read()->works[0].shape.lines, trench_at(5).lines);
  }
};

TEST_F(ServerTest, SendsSiteAndAnswersUnderAStrictPolicy) {
  const auto site = client().Get("/api/site");
  ASSERT_TRUE(site);
  EXPECT_EQ(site->status, 200);
  EXPECT_EQ(site->get_header_value("Content-Type"), kJson);
  EXPECT_NE(site->get_header_value("Content-Security-Policy").find("default-src 'none'"),
            std::string::npos);
  EXPECT_EQ(site->get_header_value("X-Content-Type-Options"), "nosniff");
  EXPECT_EQ(Json::parse(client().Get("/api/assessment")->body)["trees"].size(), 3u);
}

// The page is there before the trees are assessed, and is told how far that is.
TEST(Opening, IsToldUntilTheSiteCanBeAskedFor) {
  const OpenDesk home;
  std::promise<void> go;
  serve::Server server([&](const serve::Desk::Progress& progress) {
    progress(1, 3);
    go.get_future().wait();
    return Result<serve::Desk>(home.open());
  });
  const int port = *server.take_port(0);
  std::thread running([&] { EXPECT_TRUE(server.run().ok()); });
  httplib::Client client("127.0.0.1", port);
  while (!client.Get("/api/opening") || server.opened().all == 0) std::this_thread::yield();
  const Json early = Json::parse(client.Get("/api/opening")->body);
  EXPECT_EQ(early, Json::parse(R"({"done": 1, "all": 3, "ready": false})"));
  EXPECT_EQ(faults("/api/opening", early), "");
  EXPECT_EQ(client.Get("/api/site")->status, 503);
  EXPECT_EQ(client.Post(kTrial, trial_of(3), kJson)->status, 503);
  EXPECT_NE(client.Get("/")->status, 404);
  go.set_value();
  while (!server.opened().ready) std::this_thread::yield();
  EXPECT_EQ(client.Get("/api/site")->status, 200);
  EXPECT_EQ(client.Post(kTrial, trial_of(3), kJson)->status, 200);
  server.stop();
  running.join();
}

TEST(Opening, ThatFailsEndsTheServerWithItsReason) {
  serve::Server server([](const serve::Desk::Progress&) {
    return Result<serve::Desk>(Error{Code::unknown_name, "rule x", "it is not known", "name one"});
  });
  ASSERT_TRUE(server.take_port(0).ok());
  const Outcome ended = server.run();
  ASSERT_FALSE(ended.ok());
  EXPECT_EQ(ended.error().subject, "rule x");
}

TEST_F(ServerTest, PacksNothing) {
  const auto site = client().Get("/api/site", {{"Accept-Encoding", "gzip, deflate, br"}});
  ASSERT_TRUE(site);
  EXPECT_FALSE(site->has_header("Content-Encoding"));
}

TEST_F(ServerTest, TriesAndSaves) {
  const auto tried = client().Post(kTrial, {{"Origin", own()}}, trial_at(3), kJson);
  ASSERT_TRUE(tried);
  EXPECT_EQ(tried->status, 200);
  const std::string version = Json::parse(client().Get("/api/site")->body)["version"];
  const Json move = {{"version", version}, {"shape", serve::to_json(trench_at(3))}};
  EXPECT_EQ(client().Put(kShape, {{"Origin", own()}}, move.dump(), kJson)->status, 200);
  EXPECT_EQ(home_.project().read()->works[0].shape.lines, trench_at(3).lines);
  const auto again = client().Put(kShape, {{"Origin", own()}}, move.dump(), kJson);
  EXPECT_EQ(again->status, 409);
  EXPECT_NE(Json::parse(again->body)["error"].get<std::string>().find("meanwhile"),
            std::string::npos);
}

TEST_F(ServerTest, TurnsForeignHostsAndOriginsAway) {
  const std::string body = trial_at(3);
  EXPECT_EQ(client().Get("/api/site", {{"Host", "elsewhere.example"}})->status, 403);
  EXPECT_EQ(client().Get("/api/site", {{"Host", "127.0.0.1:1"}})->status, 403);
  for (const std::string origin : {"http://elsewhere.example", "https://127.0.0.1", "null"})
    EXPECT_EQ(client().Post(kTrial, {{"Origin", origin}}, body, kJson)->status, 403) << origin;
  EXPECT_EQ(client().Post(kTrial, {}, body, "text/plain")->status, 400)
      << "a form of another page can send plain text, not JSON";
  expect_untouched();
}

TEST_F(ServerTest, HasNothingOutsideThePage) {
  for (const char* path :
       {"/../../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "/..%2f..%2fetc/passwd", "//etc/passwd",
        "/api/none", "/api/works/none"}) {
    const auto got = client().Get(path);
    ASSERT_TRUE(got) << path;
    EXPECT_GE(got->status, 400) << path;
    EXPECT_TRUE(Json::parse(got->body).contains("error")) << path;
  }
}

TEST_F(ServerTest, RefusesBadBodiesInOneSentence) {
  for (const std::string body : {"", "{", "[]", "{}", R"({"shape":{}})", R"({"shape":[1e999]})",
                                 R"({"shape":{"lines":[],"areas":[],"points":[]},"more":1})"}) {
    const auto refused = client().Post(kTrial, {}, body, kJson);
    ASSERT_TRUE(refused) << body;
    EXPECT_EQ(refused->status, 400) << body;
    EXPECT_TRUE(Json::parse(refused->body).contains("error")) << body;
  }
  EXPECT_EQ(client().Post("/api/works/none/trial", {}, trial_at(3), kJson)->status, 404);
  const std::string deep(200'000, '[');
  EXPECT_EQ(client().Post(kTrial, {}, deep, kJson)->status, 400);
  expect_untouched();
}

TEST_F(ServerTest, RefusesWhatIsTooLarge) {
  const std::string large(serve::kMostBytes + 1, ' ');
  const auto refused = client().Post(kTrial, {}, large, kJson);
  EXPECT_TRUE(!refused || refused->status == 413) << "or the connection was closed on it";
  expect_untouched();
}

// Bodies mutated at random: a right status or a closed connection, never a crash.
TEST_F(ServerTest, OutlivesMutatedRequests) {
  constexpr int kRequests = 10'000;
  std::mt19937 random(7);
  const std::string version = Json::parse(client().Get("/api/site")->body)["version"];
  const std::string move =
      Json{{"version", version + "x"}, {"shape", serve::to_json(trench_at(3))}}.dump();
  httplib::Client http = client();
  http.set_keep_alive(true);
  http.set_tcp_nodelay(true);
  for (int i = 0; i < kRequests; ++i) {
    std::string body = move;
    for (int k = 0; k < 3; ++k) body[random() % body.size()] = static_cast<char>(random() % 256);
    if (random() % 4 == 0) body.resize(random() % body.size());
    const auto answer = http.Put(kShape, {}, body, kJson);
    ASSERT_TRUE(answer) << i;
    ASSERT_TRUE(answer->status == 400 || answer->status == 409) << answer->status << " " << body;
  }
  expect_untouched();
}

}  // namespace
}  // namespace rootstead::test
