#include "server/serve.h"

#include <array>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <system_error>

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/file.h>
#include <unistd.h>

#include "cli/given.h"
#include "cli/verbs.h"
#include "formats/text_file.h"

namespace ahead::cli {
namespace {

namespace fs = std::filesystem;

struct Options {
  int port = 8317;
  std::string data;
  std::string page;
  bool open = false;
  bool network = false;
  std::string token;
};

constexpr std::size_t least_token = 16;

// A signal handler reaches its server only through something global.
server::Server* running = nullptr;

void stop_running(int /*signal*/) {
  if (running != nullptr) running->stop();
}

/// $XDG_DATA_HOME/three-ahead, or ~/.local/share/three-ahead.
fs::path default_data() {
  // Nothing else runs yet that could change the environment.
  const char* data = std::getenv("XDG_DATA_HOME");  // NOLINT(concurrency-mt-unsafe)
  if (data != nullptr && *data == '/') return fs::path(data) / "three-ahead";
  const char* home = std::getenv("HOME");  // NOLINT(concurrency-mt-unsafe)
  return fs::path(home != nullptr ? home : ".") / ".local/share/three-ahead";
}

/// Where the page was installed beside the program, or built in the source tree.
fs::path default_page() {
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error).parent_path();
  for (const char* place : {"../share/three-ahead/page", "../../../web/dist"}) {
    if (fs::exists(program / place / "index.html", error)) return program / place;
  }
  return {};
}

/// One server a library: the lock goes with the process, however it ends.
std::optional<formats::InputError> lock(const fs::path& file) {
  const int descriptor = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
  if (descriptor < 0 || ::flock(descriptor, LOCK_EX | LOCK_NB) != 0) {
    return formats::unwritable_file(file.string(), "another \"ahead serve\" uses this folder");
  }
  return std::nullopt;
}

Given<std::unique_ptr<store::Library>> opened_library(const fs::path& folder) {
  if (auto error = formats::make_folder(folder)) return std::unexpected(*error);
  if (auto error = lock(folder / "lock")) return std::unexpected(*error);
  const fs::path file = folder / "library.sqlite";
  auto library = store::Library::open(file);
  if (!library) {
    return std::unexpected(formats::unreadable_file(file.string(), library.error().words));
  }
  if ((*library)->was_made()) {
    if (const auto added = server::add_example(**library); !added) {
      return std::unexpected(formats::unwritable_file(file.string(), added.error().words));
    }
  }
  return *std::move(library);
}

void open_in_browser(const std::string& address) {
  std::string program = "xdg-open";
  std::string argument = address;
  const std::array<char*, 3> arguments{program.data(), argument.data(), nullptr};
  pid_t child = 0;
  // Without a browser the address on the terminal has to do.
  static_cast<void>(
      ::posix_spawnp(&child, program.c_str(), nullptr, nullptr, arguments.data(), ::environ));
}

Outcome run(const Options& options) {
  if (options.network && options.token.size() < least_token) {
    return std::unexpected(formats::bad_usage(
        fmt::format("--allow-network wants a --token of {} characters or more", least_token),
        "serve"));
  }
  if (!options.network && !options.token.empty()) {
    return std::unexpected(formats::bad_usage("--token goes with --allow-network", "serve"));
  }
  auto library = opened_library(options.data.empty() ? default_data() : fs::path(options.data));
  if (!library) return std::unexpected(library.error());

  server::Workbench workbench(*std::move(library), {}, AHEAD_VERSION);
  server::Server server(
      workbench, server::Page(options.page.empty() ? default_page() : fs::path(options.page)),
      {.network = options.network, .token = options.token});
  const int port = server.bind(options.port);
  if (port == 0) {
    return std::unexpected(formats::bad_usage(
        fmt::format("port {} is in use; choose another with --port, or 0 for any that is free",
                    options.port),
        "serve"));
  }
  const std::string address = fmt::format("http://127.0.0.1:{}/", port);
  fmt::print("The workbench is at {}\nCtrl-C ends it; everything is saved as it is made.\n",
             options.network ? address + "?token=" + options.token : address);
  std::fflush(stdout);

  running = &server;
  std::signal(SIGINT, stop_running);
  std::signal(SIGTERM, stop_running);
  std::signal(SIGPIPE, SIG_IGN);
  if (options.open) open_in_browser(address);
  server.run();
  running = nullptr;
  return Answer{};
}

}  // namespace

Run serve_verb(CLI::App& app) {
  auto options = std::make_shared<Options>();
  app.add_option("--port", options->port, "Port; 0 takes any that is free")
      ->capture_default_str()
      ->check(CLI::Range(0, 65535))
      ->type_name("P");
  app.add_option("--data", options->data,
                 "Folder of the library (default: three-ahead in the user's data folder)")
      ->type_name("DIR");
  app.add_option("--page", options->page,
                 "Folder of the built page (default: beside the program, or web/dist)")
      ->type_name("DIR");
  app.add_flag("--open", options->open, "Open the page in the browser");
  app.add_flag("--allow-network", options->network,
               "Answer other machines too; whoever has the token can read and change everything");
  app.add_option("--token", options->token, "Secret for --allow-network, 16 characters or more")
      ->type_name("T");
  app.footer(R"(Example:
  ahead serve --open
    starts the workbench and opens it in the browser.

It answers this machine only. Tables, players, layouts, plans and results are kept in one file,
library.sqlite, in the data folder, saved as they are made. The interface is described by
/api/openapi.json. With --allow-network the address ends in ?token=T and is not encrypted: use it
only in a network that you trust.)");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
