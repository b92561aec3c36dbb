#include "server/serve.h"

#include <algorithm>
#include <atomic>
#include <cctype>
#include <memory>
#include <utility>

#include <fmt/format.h>
#include <httplib.h>
#include <sys/socket.h>

#include "server/connection.h"
#include "server/problems.h"

namespace ahead::server {
namespace {

/// Of the connection that this thread serves: the library's handlers are not told which it is.
thread_local bool close_after_reply = false;

Request request_of(const httplib::Request& asked) {
  Request request{.method = asked.method == "HEAD" ? "GET" : asked.method,
                  .path = asked.path,
                  .body = asked.body};
  for (const auto& [name, value] : asked.params) request.query.emplace(name, value);
  for (const auto& [name, value] : asked.headers) {
    std::string lower = name;
    std::ranges::transform(lower, lower.begin(),
                           [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    request.headers.emplace(std::move(lower), value);
  }
  return request;
}

class SinkOfLibrary : public EventSink {
 public:
  explicit SinkOfLibrary(httplib::DataSink& sink) : sink_(sink) {}

  bool send(std::string_view event, std::string_view data) override {
    return write(fmt::format("event: {}\ndata: {}\n\n", event, data));
  }
  bool send_nothing() override { return write(":\n\n"); }
  [[nodiscard]] bool gone() const override { return !sink_.is_writable(); }

 private:
  bool write(const std::string& text) {
    return sink_.is_writable() && sink_.write(text.data(), text.size());
  }
  httplib::DataSink& sink_;
};

/// Everything goes out with a provider: the library then neither compresses nor copies.
void put(Reply reply, httplib::Response& response) {
  add_security_headers(reply);
  response.status = reply.status;
  for (const auto& [name, value] : reply.headers) response.set_header(name, value);
  if (reply.close) close_after_reply = true;
  if (reply.events) {
    close_after_reply = true;  // the stream ends with the connection
    response.set_chunked_content_provider(
        reply.type,
        [events = std::move(reply.events)](std::size_t /*offset*/, httplib::DataSink& sink) {
          SinkOfLibrary to_client(sink);
          events(to_client);
          // The library would ask a provider that says "go on" again and again.
          if (!sink.is_writable()) return false;
          sink.done();
          return true;
        });
  } else if (reply.body && !reply.body->empty()) {
    response.set_content_provider(
        reply.body->size(), reply.type,
        [body = reply.body](std::size_t offset, std::size_t length, httplib::DataSink& sink) {
          return sink.write(body->data() + offset, length);
        });
  } else if (reply.status != 204 && reply.status != 304) {
    response.set_content("", reply.type);
  }
  if (close_after_reply) response.set_header("Connection", "close");
}

}  // namespace

class Server::Http : public httplib::Server {
 public:
  Http(Workbench& workbench, Page page, Doors doors)
      : workbench_(workbench),
        page_(std::move(page)),
        doors_(std::move(doors)),
        pace_(workbench.limits.requests_per_s, workbench.limits.burst) {
    new_task_queue = [this] {
      // A few more than are served: they tell the others that it is full.
      constexpr int spare = 4;
      return new httplib::ThreadPool(
          static_cast<std::size_t>(workbench_.limits.connections + spare));
    };
    set_tcp_nodelay(true);
    set_keep_alive_timeout(workbench_.limits.idle.count() / 1000);
    constexpr std::size_t no_end = 1'000'000;
    set_keep_alive_max_count(no_end);
    // The default lets two programs listen on one port.
    set_socket_options([](socket_t socket) {
      const int yes = 1;
      ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof(yes));
    });
    set_payload_max_length(workbench_.limits.most_body_bytes);
    set_pre_routing_handler([this](const httplib::Request& asked, httplib::Response& response) {
      return before_the_body(asked, response);
    });
    const auto with_body = [this](const httplib::Request& asked, httplib::Response& response) {
      put(answered(workbench_, request_of(asked)), response);
    };
    Post(".*", with_body);
    Put(".*", with_body);
    set_error_handler([](const httplib::Request& /*asked*/, httplib::Response& response) {
      // What the library refuses by itself: a broken or oversized request.
      if (response.has_header("Content-Security-Policy")) return;
      close_after_reply = true;
      const formats::InputError error{.file = "request",
                                      .place = "",
                                      .wrong = "the request is broken or too long",
                                      .mend = "send it as HTTP/1.1 has it"};
      Reply reply = bad_input(error);
      reply.status = response.status;
      put(std::move(reply), response);
    });
    set_exception_handler([](const httplib::Request& /*asked*/, httplib::Response& response,
                             const std::exception_ptr& /*fault*/) { put(internal(), response); });
  }

  int bind(int port) {
    const std::string address = doors_.network ? "0.0.0.0" : "127.0.0.1";
    if (port == 0) {
      doors_.port = bind_to_any_port(address);
      if (doors_.port < 0) doors_.port = 0;
    } else {
      doors_.port = bind_to_port(address, port) ? port : 0;
    }
    // The library asks for a queue of five: more clients than that may come at once.
    constexpr int queue = 128;
    if (doors_.port != 0) ::listen(svr_sock_, queue);
    return doors_.port;
  }

  void end() noexcept {
    stopping_ = true;
    stop();
  }

 private:
  HandlerResponse before_the_body(const httplib::Request& asked, httplib::Response& response) {
    // Parts are not served: many overlapping ones would make a small file a huge answer. The
    // object is the library's own and not const.
    const_cast<httplib::Request&>(asked).ranges.clear();  // NOLINT(*-const-cast)
    const Request request = request_of(asked);
    if (auto refused = refused_before_answering(request, asked.remote_addr)) {
      put(*std::move(refused), response);
      return HandlerResponse::Handled;
    }
    if (request.method == "POST" || request.method == "PUT") return HandlerResponse::Unhandled;
    // Without a body the library has nothing to read, and would wait for one after DELETE.
    const bool of_page = request.method == "GET" && !request.path.starts_with("/api/");
    Reply reply = of_page ? page_.answer(request) : answered(workbench_, request);
    if (asked.method == "HEAD" && reply.events) reply = wrong_method("GET");
    put(std::move(reply), response);
    return HandlerResponse::Handled;
  }

  std::optional<Reply> refused_before_answering(const Request& request,
                                                const std::string& address) {
    if (close_after_reply || !pace_.allows(address, Pace::Clock::now())) return too_many_requests();
    if (auto handed = handed_token(request, doors_)) return handed;
    return refused_at_the_door(request, doors_, workbench_.limits);
  }

  bool process_and_close_socket(socket_t socket) override {
    const Limits& limits = workbench_.limits;
    constexpr std::size_t most_header_bytes = 64'000;
    Connection connection(socket, limits.whole_request, stopping_);
    const bool full = ++connections_ > limits.connections;
    close_after_reply = full;
    bool open = true;
    while (open && connection.wait_for_request(limits.idle)) {
      connection.begin_request(limits.most_body_bytes + most_header_bytes);
      bool closed = false;
      open = process_request(connection, close_after_reply, closed, [](httplib::Request&) {}) &&
             !closed && !close_after_reply;
    }
    --connections_;
    close_after_reply = false;
    return true;
  }

  Workbench& workbench_;
  Page page_;
  Doors doors_;
  Pace pace_;
  std::atomic<int> connections_{0};
  std::atomic<bool> stopping_{false};
};

Server::Server(Workbench& workbench, Page page, Doors doors)
    : http_(std::make_unique<Http>(workbench, std::move(page), std::move(doors))) {}

Server::~Server() = default;

int Server::bind(int port) { return http_->bind(port); }

void Server::run() { http_->listen_after_bind(); }

void Server::stop() noexcept { http_->end(); }

}  // namespace ahead::server
