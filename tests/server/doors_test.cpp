#include <fstream>

#include <gtest/gtest.h>

#include "tests/server/openapi.h"
#include "tests/server/running_server.h"

// Who may ask, and how much.
namespace ahead::test {
namespace {

using nlohmann::json;

TEST(AnotherHost, IsTurnedAway) {
  const RunningServer server;
  for (const std::string host : {"evil.example", "127.0.0.1", "127.0.0.1:1", ""}) {
    EXPECT_EQ(server.ask("GET", "/api/about", "", {{"Host", host}}).problem(), "forbidden-host");
  }
  const std::string port = std::to_string(server.port());
  EXPECT_EQ(server.ask("GET", "/api/about", "", {{"Host", "localhost:" + port}}).status, 200);
}

TEST(AnotherPageOfTheBrowser, IsTurnedAway) {
  const RunningServer server;
  const std::string own = "http://127.0.0.1:" + std::to_string(server.port());
  const Headers with_host{{"Host", own.substr(7)}};
  const auto asked_with = [&](const std::string& name, const std::string& value) {
    Headers headers = with_host;
    headers.emplace_back(name, value);
    return server.ask("POST", "/api/pots", R"({"layout": 1})", headers).problem();
  };
  EXPECT_EQ(asked_with("Origin", "http://evil.example"), "forbidden-origin");
  EXPECT_EQ(asked_with("Origin", "null"), "forbidden-origin");
  EXPECT_EQ(asked_with("Sec-Fetch-Site", "cross-site"), "forbidden-origin");
  EXPECT_EQ(asked_with("Sec-Fetch-Site", "same-site"), "forbidden-origin");
  EXPECT_EQ(asked_with("Origin", own), "bad-input");
  // A form or plain text would need no permission.
  EXPECT_EQ(server.ask("POST", "/api/pots", "{}", {{"Content-Type", "text/plain"}}).problem(),
            "wrong-type");
}

TEST(TheNetwork, NeedsTheToken) {
  const std::string token = "a-token-of-some-length";
  const RunningServer server({}, token);
  EXPECT_EQ(server.ask("GET", "/api/about").problem(), "token-needed");
  EXPECT_EQ(server.ask("GET", "/").problem(), "token-needed");
  EXPECT_EQ(server.ask("GET", "/?token=wrong").problem(), "token-needed");
  EXPECT_EQ(server.ask("GET", "/api/about", "", {{"Authorization", "Bearer wrong"}}).status, 401);
  EXPECT_EQ(server.ask("GET", "/api/about", "", {{"Authorization", "Bearer " + token}}).status,
            200);
  const Answer handed = server.ask("GET", "/?token=" + token);
  EXPECT_EQ(handed.status, 303);
  const std::string cookie = handed.headers.at("set-cookie");
  EXPECT_NE(cookie.find("HttpOnly; SameSite=Strict"), std::string::npos);
  EXPECT_EQ(server.ask("GET", "/api/about", "", {{"Cookie", "a=b; " + cookie}}).status, 200);
}

TEST(ThePage, IsServedWithoutAWayOutOfItsFolder) {
  const TemporaryFolder folder;
  std::filesystem::create_directories(folder.path() / "page/assets");
  std::ofstream(folder.path() / "secret.txt") << "secret";
  std::ofstream(folder.path() / "page/index.html") << "<title>page</title>";
  std::ofstream(folder.path() / "page/assets/main.js") << "1";
  std::filesystem::create_symlink(folder.path() / "secret.txt", folder.path() / "page/link.txt");
  const server::Page page(folder.path() / "page");
  const auto status = [&](const std::string& path) {
    return page.answer({.method = "GET", .path = path}).status;
  };
  EXPECT_EQ(status("/"), 200);
  EXPECT_EQ(status("/assets/main.js"), 200);
  for (const char* path : {"/../secret.txt", "/assets/../../secret.txt", "/link.txt", "/assets",
                           "//etc/passwd", "/%2e%2e/secret.txt", "/..\\secret.txt"}) {
    EXPECT_EQ(status(path), 404) << path;
  }
  const server::Reply script = page.answer({.method = "GET", .path = "/assets/main.js"});
  EXPECT_EQ(script.type, "text/javascript; charset=utf-8");
  const server::Reply again =
      page.answer({.method = "GET",
                   .path = "/assets/main.js",
                   .headers = {{"if-none-match", script.headers[0].second}}});
  EXPECT_EQ(again.status, 304);
}

TEST(ThePage, SaysSoWhenItWasNotBuilt) {
  const RunningServer server;
  const Answer page = server.ask("GET", "/");
  EXPECT_EQ(page.status, 200);
  EXPECT_NE(page.body.find("has not been built"), std::string::npos);
  EXPECT_NE(page.headers.at("content-security-policy").find("default-src 'none'"),
            std::string::npos);
  EXPECT_EQ(server.ask("GET", "/%2e%2e/library.sqlite").status, 404);
}

TEST(ABody, HasItsLimits) {
  const RunningServer server({.most_body_bytes = 2000});
  EXPECT_EQ(server.ask("POST", "/api/pots", std::string(2001, ' ')).problem(), "too-large");
  EXPECT_EQ(server.ask("POST", "/api/pots", std::string(500, '[')).problem(), "bad-input");
  EXPECT_EQ(server.ask("POST", "/api/pots", "{}", {{"Content-Encoding", "gzip"}}).status, 415);
  const Answer whole = server.ask("GET", "/api/about", "", {{"Range", "bytes=0-1,0-1,0-1"}});
  EXPECT_EQ(whole.status, 200);
  EXPECT_EQ(whole.json()["name"], "Three Ahead");
  EXPECT_EQ(server.ask("PATCH", "/api/about").status, 405);
  EXPECT_EQ(server.ask("DELETE", "/api/about").status, 405);
  EXPECT_EQ(server.ask("GET", "/api/nothing").status, 404);
}

std::string opening(const RunningServer& server, const std::string& headers) {
  return "POST /api/pots HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(server.port()) + "\r\n" +
         headers + "\r\n";
}

TEST(AChunkedBody, IsRefusedUnread) {
  const RunningServer server;
  const RawConnection client(server.port());
  client.send(opening(server, "Transfer-Encoding: chunked\r\nContent-Type: application/json\r\n"));
  EXPECT_NE(client.rest().find("415"), std::string::npos);
}

TEST(ASlowClient, IsLeftAlone) {
  using namespace std::chrono_literals;
  const RunningServer server({.whole_request = 150ms});
  const RawConnection in_its_headers(server.port());
  in_its_headers.send("GET /api/about HTTP/1.1\r\nHo");
  // No matter how many bytes it sends, it is cut off: the loop ends.
  while (in_its_headers.send("s")) std::this_thread::sleep_for(5ms);

  const RawConnection in_its_body(server.port());
  in_its_body.send(opening(server, "Content-Type: application/json\r\nContent-Length: 1000\r\n") +
                   "{");
  const std::string answer = in_its_body.rest();
  EXPECT_EQ(answer.find("200 OK"), std::string::npos) << answer;
}

TEST(EndlessHeaders, AreCutOff) {
  const RunningServer server({.most_body_bytes = 1000});
  const RawConnection client(server.port());
  client.send("GET /api/about HTTP/1.1\r\n");
  while (client.send("X-More: " + std::string(4000, 'x') + "\r\n")) {
  }
}

TEST(TooManyRequests, AreTurnedAway) {
  const RunningServer server({.requests_per_s = 0.001, .burst = 3});
  for (int i = 0; i < 3; ++i) EXPECT_EQ(server.ask("GET", "/api/about").status, 200);
  const Answer refused = server.ask("GET", "/api/about");
  EXPECT_EQ(refused.status, 429);
  EXPECT_EQ(refused.headers.at("retry-after"), "1");
}

TEST(APace, FillsAgainInTime) {
  using namespace std::chrono_literals;
  server::Pace pace(10, 2);
  const auto start = server::Pace::Clock::now();
  EXPECT_TRUE(pace.allows("a", start));
  EXPECT_TRUE(pace.allows("a", start));
  EXPECT_FALSE(pace.allows("a", start));
  EXPECT_TRUE(pace.allows("b", start));
  EXPECT_TRUE(pace.allows("a", start + 100ms));
  EXPECT_FALSE(pace.allows("a", start + 100ms));
}

TEST(TooManyConnections, AreToldAndClosed) {
  RunningServer server({.connections = 2});
  const RawConnection one(server.port());
  const RawConnection two(server.port());
  const std::string ask =
      "GET /api/about HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(server.port()) + "\r\n\r\n";
  for (const RawConnection* client : {&one, &two}) {
    client->send(ask);
    EXPECT_NE(client->until("boot").find("200 OK"), std::string::npos);
  }
  const RawConnection three(server.port());
  three.send(ask);
  EXPECT_NE(three.rest().find("429"), std::string::npos);
}

TEST(OpenPages, AreSoManyAtOnce) {
  RunningServer server({.event_streams = 1});
  const RawConnection page(server.port());
  page.send("GET /api/events HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(server.port()) +
            "\r\n\r\n");
  page.until("hello");
  EXPECT_EQ(server.ask("GET", "/api/events").problem(), "busy");
}

// The slot comes back when the connection is done with; the test hangs if that never is.
TEST(APageThatWasClosed, GivesItsPlaceBack) {
  RunningServer server({.event_streams = 1});
  {
    const RawConnection page(server.port());
    page.send("GET /api/events HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(server.port()) +
              "\r\n\r\n");
    page.until("hello");
  }
  while (!server.workbench().streams.take()) std::this_thread::yield();
}

TEST(TheDocument, HasExactlyTheAddressesOfTheServer) {
  std::vector<std::string> served;
  for (const auto routes : {server::library_routes(), server::file_routes(), server::coach_routes(),
                            server::stream_routes(), server::lesson_routes(),
                            server::capture_routes(), server::about_routes()}) {
    for (const server::Route& route : routes) {
      served.push_back(std::string(route.method) + ' ' + std::string(route.path));
    }
  }
  std::vector<std::string> described;
  for (const auto& [path, item] : openapi()["paths"].items()) {
    for (const auto& [method, operation] : item.items()) {
      if (method == "parameters") continue;
      std::string upper = method;
      for (char& c : upper) c = static_cast<char>(std::toupper(c));
      described.push_back(upper + ' ' + path);
    }
  }
  std::ranges::sort(served);
  std::ranges::sort(described);
  EXPECT_EQ(served, described);
}

TEST(TheServer, SaysWhatItIs) {
  const RunningServer server;
  EXPECT_EQ(server.ask("GET", "/api/about").json()["name"], "Three Ahead");
  EXPECT_EQ(server.ask("GET", "/api/openapi.json").json()["openapi"], "3.1.0");
  EXPECT_EQ(server.ask("GET", "/api/schema/layout.schema.json").json()["title"], "Layout");
  EXPECT_EQ(server.ask("GET", "/api/schema/nothing").status, 404);
}

}  // namespace
}  // namespace ahead::test
