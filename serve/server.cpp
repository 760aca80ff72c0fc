#include "serve/server.hpp"

#include <httplib.h>

#include <atomic>
#include <optional>
#include <thread>

#include "engine/base/text.hpp"
#include "io/project.hpp"
#include "serve/answer.hpp"
#include "serve/guard.hpp"
#include "serve/page.hpp"
#include "serve/routes_edit.hpp"
#include "serve/routes_import.hpp"
#include "serve/routes_jobs.hpp"
#include "serve/routes_see.hpp"
#include "serve/shape_json.hpp"
#include "serve/timed_http.hpp"

namespace rootstead::serve {
namespace {

using httplib::Request;
using httplib::Response;
using io::Json;

constexpr const char* kHost = "127.0.0.1";
constexpr const char* kOpening = "/api/opening";

Result<Json> trial(Desk& desk, const Request& request) {
  ROOTSTEAD_TRY(const Json body, body_of(request, {"shape"}));
  ROOTSTEAD_TRY(const Shape shape, shape_from(body["shape"]));
  return desk.try_shape(request.matches[1], shape);
}

Result<Json> save(Desk& desk, const Request& request) {
  ROOTSTEAD_TRY(const Json body, body_of(request, {"version", "shape"}));
  if (!body["version"].is_string()) return no_request("its version is no text");
  ROOTSTEAD_TRY(const Shape shape, shape_from(body["shape"]));
  return desk.save_shape(request.matches[1], body["version"].get<std::string>(), shape,
                         io::utc_now());
}

void send_page(const Request& request, Response& response) {
  const std::string path = request.path == "/" ? "index.html" : request.path.substr(1);
  if (const auto file = page_file(path)) {
    response.set_content(file->bytes.data(), file->bytes.size(), file->type);
  } else if (path == "index.html") {
    refuse(response, 503, "The page was not built into this program; the answers under /api are.");
  } else {
    refuse(response, 404, "There is nothing of this name.");
  }
}

std::string sentence_for(int status) {
  if (status == 413) return "The request is too large; send less at a time.";
  if (status == 404) return "There is nothing of this name.";
  return "The request was not understood.";
}

// Before its body is read. What comes in pieces or packed does not say how large it is.
bool is_too_large(const Request& request) {
  if (carries_file(request.path)) return false;
  if (request.has_header("Transfer-Encoding") || request.has_header("Content-Encoding"))
    return true;
  const std::string length = request.get_header_value("Content-Length");
  const auto bytes = number_from(length.empty() ? "0" : length);
  return !bytes || *bytes > static_cast<double>(kMostBytes);
}

}  // namespace

struct Server::State {
  explicit State(Opening its_opening) : opening(std::move(its_opening)) {
    limit();
    guard();
    route();
  }

  // Trees that are assessed again later tell as well; nobody listens then.
  void open() {
    Result<Desk> opened = opening([this](std::size_t now, std::size_t of_all) {
      done = now;
      all = of_all;
    });
    if (opened) {
      desk = std::move(opened).value();
      ready = true;
      return desk.prepare_trials();
    }
    failed = opened.error();
    while (!http.is_running()) std::this_thread::yield();  // what does not run cannot be stopped
    http.stop();
  }
  Json told() const {
    return {{"done", done.load()}, {"all", all.load()}, {"ready", ready.load()}};
  }

  void limit() {
    http.set_tcp_nodelay(true);
    http.set_payload_max_length(kMostImportBytes);  // of others see guard()
    http.new_task_queue = [] { return new httplib::ThreadPool(kMostThreads); };
    http.set_default_headers({{"Content-Security-Policy", kContentSecurityPolicy},
                              {"X-Content-Type-Options", "nosniff"},
                              {"Referrer-Policy", "no-referrer"},
                              {"Cross-Origin-Resource-Policy", "same-origin"},
                              {"Cache-Control", "no-store"}});
    http.set_exception_handler([](const Request&, Response& response, const std::exception_ptr&) {
      refuse(response, 500, "The request could not be answered; nothing was changed.");
    });
    http.set_error_handler([](const Request&, Response& response) {
      if (response.body.empty()) refuse(response, response.status, sentence_for(response.status));
    });
  }

  void guard() {
    http.set_pre_routing_handler([this](const Request& request, Response& response) {
      const bool own = is_own_host(request.get_header_value("Host"), port) &&
                       is_own_origin(request.get_header_value("Origin"), port);
      const bool large = is_too_large(request);
      const bool too_early =
          !ready && request.path.starts_with("/api/") && request.path != kOpening;
      if (own && !large && !too_early) return httplib::Server::HandlerResponse::Unhandled;
      if (own && large) refuse(response, 413, sentence_for(413));
      if (own && !large) refuse(response, 503, "The trees are still being assessed; ask again.");
      if (!own) refuse(response, 403, "Only the page of this program may ask.");
      return httplib::Server::HandlerResponse::Handled;
    });
  }

  void route() {
    http.Get(kOpening, [this](const Request&, Response& response) { tell(response, told()); });
    http.Get("/api/site",
             [this](const Request&, Response& response) { tell(response, desk.site()); });
    http.Get("/api/assessment",
             [this](const Request&, Response& response) { tell(response, desk.assessment()); });
    http.Post("/api/works/([^/]+)/trial", [this](const Request& request, Response& response) {
      tell(response, trial(desk, request));
    });
    http.Put("/api/works/([^/]+)/shape", [this](const Request& request, Response& response) {
      tell(response, save(desk, request));
    });
    route_see(http, desk);
    route_edit(http, desk);
    route_jobs(http, desk, jobs);
    route_import(http, desk);
    http.Get("/.*", send_page);
  }

  Opening opening;  // empty where the desk was open already
  std::atomic<std::size_t> done = 0, all = 0;
  std::atomic<bool> ready = false;
  std::optional<Error> failed;
  Desk desk;
  Jobs jobs;
  int port = 0;
  TimedHttp http;
};

Server::Server(Desk desk) : state_(std::make_unique<State>(nullptr)) {
  state_->desk = std::move(desk);
  state_->ready = true;
}
Server::Server(Opening opening) : state_(std::make_unique<State>(std::move(opening))) {}
Server::Server(Server&&) noexcept = default;
Server& Server::operator=(Server&&) noexcept = default;
Server::~Server() = default;

Result<int> Server::take_port(int port) {
  if (port == 0) {
    state_->port = state_->http.bind_to_any_port(kHost);
  } else {
    state_->port = state_->http.bind_to_port(kHost, port) ? port : -1;
  }
  if (state_->port > 0) return state_->port;
  return Error{Code::wrong_use, "port " + std::to_string(port), "it cannot be taken",
               "name another one with --port, or 0 for any that is free"};
}

Outcome Server::run() {
  std::jthread opening;
  if (state_->opening) opening = std::jthread([this] { state_->open(); });
  state_->http.listen_after_bind();
  if (opening.joinable()) opening.join();
  return state_->failed ? Outcome(*state_->failed) : Outcome(Nothing{});
}

void Server::stop() {
  state_->http.stop();
}

Server::Opened Server::opened() const {
  return {state_->done, state_->all, state_->ready};
}

}  // namespace rootstead::serve
