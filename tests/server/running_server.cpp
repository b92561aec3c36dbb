#include "tests/server/running_server.h"

#include <array>
#include <utility>

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <httplib.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include "tests/server/openapi.h"
#include "tests/support/text_of.h"

namespace ahead::test {

namespace {

/// Made once: reading the example's plan plays every shot of it.
std::filesystem::path library_with_example() {
  static const TemporaryFolder folder;
  static const std::filesystem::path made = [] {
    auto library = store::Library::open(folder / "library.sqlite");
    EXPECT_TRUE(library.has_value());
    EXPECT_TRUE(server::add_example(**library).has_value());
    return folder / "library.sqlite";
  }();
  return made;
}

}  // namespace

std::string Answer::problem() const {
  const std::string type = json().value("type", "");
  return type.substr(type.rfind(':') + 1);
}

RunningServer::RunningServer(const server::Limits& limits, const std::string& token) {
  std::filesystem::copy_file(library_with_example(), folder_.path() / "library.sqlite");
  auto library = store::Library::open(folder_.path() / "library.sqlite");
  EXPECT_TRUE(library.has_value());
  workbench_ = std::make_unique<server::Workbench>(*std::move(library), limits, "test");
  server_ =
      std::make_unique<server::Server>(*workbench_, server::Page(folder_.path() / "page"),
                                       server::Doors{.network = !token.empty(), .token = token});
  port_ = server_->bind(0);
  EXPECT_NE(port_, 0);
  thread_ = std::thread([this] { server_->run(); });
}

RunningServer::~RunningServer() {
  server_->stop();
  thread_.join();
}

Answer RunningServer::ask(const std::string& method, const std::string& path,
                          const std::string& body, const Headers& headers) const {
  httplib::Client client("127.0.0.1", port_);
  client.set_read_timeout(60);
  httplib::Request request;
  request.method = method;
  request.path = path;
  request.body = body;
  for (const auto& [name, value] : headers) request.headers.emplace(name, value);
  if (!body.empty() && !request.has_header("Content-Type")) {
    request.set_header("Content-Type", "application/json");
  }
  const auto result = client.send(request);
  Answer answer;
  if (!result) {
    ADD_FAILURE() << method << ' ' << path << ": no answer, " << to_string(result.error());
    return answer;
  }
  answer.status = result->status;
  answer.body = result->body;
  for (const auto& [name, value] : result->headers) {
    std::string lower = name;
    for (char& c : lower) c = static_cast<char>(std::tolower(c));
    answer.headers[lower] = value;
  }
  const bool known_method =
      method == "GET" || method == "POST" || method == "PUT" || method == "DELETE";
  if (path.starts_with("/api") && known_method && answer.status != 404 && answer.status != 405) {
    EXPECT_EQ(
        openapi_faults(method, path, answer.status, answer.headers["content-type"], answer.body),
        "")
        << method << ' ' << path << '\n'
        << answer.body.substr(0, 2000);
  }
  if (answer.status >= 400) {
    EXPECT_EQ(component_faults("Problem", answer.json()), "") << answer.body;
    EXPECT_GT(answer.json().value("detail", "").size(), 20U);
  }
  return answer;
}

RawConnection::RawConnection(int port) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(static_cast<std::uint16_t>(port));
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  EXPECT_EQ(::connect(socket_, reinterpret_cast<sockaddr*>(&address), sizeof(address)), 0);
}

RawConnection::~RawConnection() { ::close(socket_); }

bool RawConnection::send(const std::string& bytes) const {
  return ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL) ==
         static_cast<ssize_t>(bytes.size());
}

std::string RawConnection::rest() const { return until({}); }

std::string RawConnection::until(const std::string& end) const {
  std::string text;
  std::array<char, 4096> buffer{};
  while (end.empty() || text.find(end) == std::string::npos) {
    const ssize_t got = ::recv(socket_, buffer.data(), buffer.size(), 0);
    if (got <= 0) break;
    text.append(buffer.data(), static_cast<std::size_t>(got));
  }
  return text;
}

nlohmann::json example(const std::string& name) {
  return nlohmann::json::parse(
      text_of(std::filesystem::path(AHEAD_SOURCE_DIR) / "examples" / name));
}

}  // namespace ahead::test
