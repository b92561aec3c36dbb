#include <atomic>
#include <cstdlib>
#include <fstream>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include <fcntl.h>
#include <gtest/gtest.h>
#include <httplib.h>
#include <nlohmann/json.hpp>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include "store/library.h"
#include "tests/server/running_server.h"

// Killed at any moment, the program loses nothing that it has acknowledged.
namespace ahead::test {
namespace {

/// The program itself, on a folder, until it is killed.
class ServingProgram {
 public:
  explicit ServingProgram(const std::filesystem::path& data) {
    std::array<int, 2> out{};
    EXPECT_EQ(::pipe(out.data()), 0);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, out[1], STDOUT_FILENO);
    posix_spawn_file_actions_addclose(&actions, out[0]);
    std::vector<std::string> words{AHEAD_PROGRAM, "serve", "--port", "0", "--data", data.string()};
    std::vector<char*> arguments;
    for (std::string& word : words) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    EXPECT_EQ(
        ::posix_spawn(&process_, AHEAD_PROGRAM, &actions, nullptr, arguments.data(), ::environ), 0);
    posix_spawn_file_actions_destroy(&actions);
    ::close(out[1]);
    std::string text;
    char next = 0;
    while (text.find("/\n") == std::string::npos && ::read(out[0], &next, 1) == 1) text += next;
    ::close(out[0]);
    const auto colon = text.rfind(':');
    port_ = colon == std::string::npos ? 0 : std::atoi(text.c_str() + colon + 1);
    EXPECT_GT(port_, 0) << text;
  }

  void kill() const {
    ::kill(process_, SIGKILL);
    ::waitpid(process_, nullptr, 0);
  }

  [[nodiscard]] int port() const { return port_; }

 private:
  pid_t process_ = 0;
  int port_ = 0;
};

/// One page that changes its own layout as fast as it is answered. `acknowledged` is the last
/// revision that it was told of.
void change_until_killed(int port, const std::string& id, std::atomic<int>& acknowledged) {
  httplib::Client client("127.0.0.1", port);
  client.set_keep_alive(true);
  client.set_tcp_nodelay(true);
  nlohmann::json layout = example("evening-class.json");
  for (;;) {
    const int seen = acknowledged;
    layout["balls"][0]["at"] = {300 + seen % 300, 620};
    const httplib::Headers headers =
        seen == 0 ? httplib::Headers{{"If-None-Match", "*"}}
                  : httplib::Headers{{"If-Match", '"' + std::to_string(seen) + '"'}};
    const auto answer =
        client.Put("/api/layouts/" + id, headers,
                   nlohmann::json{{"name", id}, {"document", layout}}.dump(), "application/json");
    if (!answer) return;
    ASSERT_LT(answer->status, 300) << answer->body;
    acknowledged = nlohmann::json::parse(answer->body)["revision"].get<int>();
  }
}

/// ./dev kills N asks for more.
int kills() {
  const char* wanted = std::getenv("AHEAD_KILLS");  // NOLINT(concurrency-mt-unsafe)
  return wanted == nullptr ? 3 : std::atoi(wanted);
}

TEST(TheServingProgram, LosesNothingAcknowledgedHoweverOftenItIsKilled) {
  constexpr int pages = 3;
  const TemporaryFolder folder;
  int changes = 0;
  for (int round = 0; round < kills(); ++round) {
    const ServingProgram program(folder.path());
    std::vector<std::atomic<int>> acknowledged(pages);
    std::vector<std::thread> clients;
    const auto id = [&](int page) {
      return "round-" + std::to_string(round) + "-page-" + std::to_string(page);
    };
    for (int page = 0; page < pages; ++page) {
      clients.emplace_back(change_until_killed, program.port(), id(page),
                           std::ref(acknowledged[static_cast<std::size_t>(page)]));
    }
    // A moment that differs from round to round, but never before the first change.
    const int wanted = 3 + 7 * round % 23;
    while (acknowledged[0] < wanted) std::this_thread::yield();
    program.kill();
    for (std::thread& client : clients) client.join();

    auto library = store::Library::open(folder / "library.sqlite");
    ASSERT_TRUE(library.has_value());
    EXPECT_EQ((*library)->checked(), "ok");
    for (int page = 0; page < pages; ++page) {
      const int told = acknowledged[static_cast<std::size_t>(page)];
      const auto kept = *(*library)->get(store::Kind::layout, id(page));
      changes += told;
      if (told == 0) continue;
      ASSERT_TRUE(kept.has_value());
      // The change under way when it was killed may be there or not.
      EXPECT_GE(kept->revision, told);
      EXPECT_LE(kept->revision, told + 1);
    }
  }
  RecordProperty("changes", changes);
  std::printf("killed %d times, %d acknowledged changes, none lost\n", kills(), changes);
}

}  // namespace
}  // namespace ahead::test
