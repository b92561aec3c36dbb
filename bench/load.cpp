#include <algorithm>
#include <array>
#include <atomic>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <numbers>
#include <string>
#include <thread>
#include <vector>

#include <fmt/format.h>
#include <httplib.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

// Pages that drag the cue ball, all at once: what `ahead serve` answers, how soon, and whether it
// grows. As the page does, a client asks again only when it was answered, and leaves out what it
// could not ask in time. Prints one row; ./dev load.
namespace {

using Clock = std::chrono::steady_clock;

struct Options {
  int clients = 50;
  double per_s = 30;
  double seconds = 60;
};

struct Counted {
  std::vector<double> waits_ms;
  long errors = 0;
};

/// `ahead serve` on a folder of its own.
class Served {
 public:
  Served() {
    std::array<int, 2> out{};
    if (::pipe(out.data()) != 0) std::exit(2);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, out[1], STDOUT_FILENO);
    std::vector<std::string> words{AHEAD_PROGRAM, "serve",  "--port",
                                   "0",           "--data", folder_.string()};
    std::vector<char*> arguments;
    for (std::string& word : words) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    if (::posix_spawn(&process_, AHEAD_PROGRAM, &actions, nullptr, arguments.data(), ::environ) !=
        0) {
      std::exit(2);
    }
    posix_spawn_file_actions_destroy(&actions);
    ::close(out[1]);
    std::string text;
    char next = 0;
    while (text.find("/\n") == std::string::npos && ::read(out[0], &next, 1) == 1) text += next;
    ::close(out[0]);
    port_ = std::atoi(text.c_str() + text.rfind(':') + 1);
  }
  ~Served() {
    ::kill(process_, SIGTERM);
    ::waitpid(process_, nullptr, 0);
    std::filesystem::remove_all(folder_);
  }
  Served(const Served&) = delete;
  Served& operator=(const Served&) = delete;

  [[nodiscard]] int port() const { return port_; }

  /// Resident memory, MB.
  [[nodiscard]] double memory_mb() const {
    std::ifstream status(fmt::format("/proc/{}/status", process_));
    for (std::string line; std::getline(status, line);) {
      if (line.starts_with("VmRSS:")) return std::atof(line.c_str() + 6) / 1000;
    }
    return 0;
  }

 private:
  std::filesystem::path folder_ =
      std::filesystem::temp_directory_path() / fmt::format("ahead-load-{}", ::getpid());
  pid_t process_ = 0;
  int port_ = 0;
};

/// The evening class with the cue ball at the next place of a drag.
std::string question(const std::string& layout, int client, int step) {
  const double turn = 2 * std::numbers::pi * (0.01 * step + 0.02 * client);
  const std::string at = fmt::format("{{\"id\": \"cue\", \"at\": [{:.1f}, {:.1f}]}}",
                                     440 + 60 * std::cos(turn), 800 + 60 * std::sin(turn));
  std::string moved = layout;
  const std::size_t begin = moved.find("{\"id\": \"cue\"");
  moved.replace(begin, moved.find('}', begin) + 1 - begin, at);
  return R"({"player":"club","call":{"ball":"red-6","pocket":"bottom-left"},)"
         R"("touch":{"side":0,"height":-0.1,"cue_speed":1.35},"layout":)" +
         moved + "}";
}

void drag(int port, const std::string& layout, int client, const Options& options,
          Clock::time_point start, Counted& counted) {
  httplib::Client http("127.0.0.1", port);
  http.set_keep_alive(true);
  http.set_tcp_nodelay(true);
  const auto period =
      std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(1 / options.per_s));
  // Clients are spread over the period, as people are.
  const auto first = start + client * period / options.clients;
  const int steps = static_cast<int>(options.per_s * options.seconds);
  for (int step = 0; step < steps; ++step) {
    const auto due = first + step * period;
    if (Clock::now() > due + period) continue;  // too late: the hand has gone on
    std::this_thread::sleep_until(due);
    const std::string body = question(layout, client, step);
    const auto asked = Clock::now();
    const auto answer = http.Post("/api/shot", body, "application/json");
    const std::chrono::duration<double, std::milli> wait = Clock::now() - asked;
    counted.waits_ms.push_back(wait.count());
    if (!answer || answer->status != 200) ++counted.errors;
  }
}

double percentile(const std::vector<double>& sorted, double share) {
  if (sorted.empty()) return 0;
  const auto index = static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1));
  return sorted[index];
}

Counted all_drag(int port, const std::string& layout, const Options& options) {
  std::vector<Counted> counted(static_cast<std::size_t>(options.clients));
  std::vector<std::thread> threads;
  const auto start = Clock::now();
  for (int client = 0; client < options.clients; ++client) {
    threads.emplace_back(drag, port, std::cref(layout), client, std::cref(options), start,
                         std::ref(counted[static_cast<std::size_t>(client)]));
  }
  for (std::thread& thread : threads) thread.join();
  Counted sum;
  for (const Counted& one : counted) {
    sum.waits_ms.insert(sum.waits_ms.end(), one.waits_ms.begin(), one.waits_ms.end());
    sum.errors += one.errors;
  }
  return sum;
}

}  // namespace

int main(int argc, char** argv) {
  Options options;
  if (argc > 1) options.clients = std::max(1, std::atoi(argv[1]));
  if (argc > 2) options.seconds = std::max(1.0, std::atof(argv[2]));
  std::ifstream file(AHEAD_SOURCE_DIR "/examples/evening-class.json");
  const std::string layout{std::istreambuf_iterator<char>(file), {}};

  const Served server;
  // A tenth of the time first: threads, caches and the allocator's arenas come up.
  Options warm = options;
  warm.seconds = options.seconds / 10;
  all_drag(server.port(), layout, warm);
  std::string memory = fmt::format("{:.1f}", server.memory_mb());
  // In parts: what grows for ever grows in the last one too. Each part connects anew, so that after
  // three of them every thread of the server has served.
  constexpr int parts = 6;
  Options one_part = options;
  one_part.seconds = options.seconds / parts;
  Counted counted;
  for (int part = 0; part < parts; ++part) {
    const Counted some = all_drag(server.port(), layout, one_part);
    counted.waits_ms.insert(counted.waits_ms.end(), some.waits_ms.begin(), some.waits_ms.end());
    counted.errors += some.errors;
    memory += fmt::format(" {:.1f}", server.memory_mb());
  }
  std::ranges::sort(counted.waits_ms);

  fmt::print("{:>7} {:>9} {:>9} {:>7} {:>7} {:>7} {:>7} {:>7}  {}\n", "clients", "asked/s",
             "answered", "errors", "p50 ms", "p95 ms", "p99 ms", "max ms", "memory MB");
  fmt::print("{:>7} {:>9.0f} {:>9.0f} {:>7} {:>7.1f} {:>7.1f} {:>7.1f} {:>7.1f}  {}\n",
             options.clients, options.clients * options.per_s,
             static_cast<double>(counted.waits_ms.size()) / options.seconds, counted.errors,
             percentile(counted.waits_ms, 0.5), percentile(counted.waits_ms, 0.95),
             percentile(counted.waits_ms, 0.99), percentile(counted.waits_ms, 1), memory);
  return counted.errors == 0 ? 0 : 1;
}
