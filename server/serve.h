#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "server/guard.h"
#include "server/limits.h"
#include "server/page.h"
#include "server/workbench.h"

/// The workbench over HTTP.
namespace ahead::server {

class Server {
 public:
  Server(Workbench& workbench, Page page, Doors doors);
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  /// Listens on the loopback address, or on every address with Doors::network; port 0 takes any
  /// that is free. The port, or 0 when it is in use.
  [[nodiscard]] int bind(int port);

  /// Serves until stop() is called, from any thread or from a signal handler.
  void run();
  void stop() noexcept;

 private:
  class Http;
  std::unique_ptr<Http> http_;
};

}  // namespace ahead::server
