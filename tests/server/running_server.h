#pragma once

#include <map>
#include <memory>
#include <string>
#include <thread>
#include <vector>

#include <nlohmann/json.hpp>

#include "server/serve.h"
#include "tests/support/temporary_folder.h"

namespace ahead::test {

struct Answer {
  int status = 0;
  std::map<std::string, std::string> headers;  ///< names in lower case
  std::string body;

  [[nodiscard]] nlohmann::json json() const { return nlohmann::json::parse(body); }
  /// The last part of a problem's type: "stale".
  [[nodiscard]] std::string problem() const;
};

using Headers = std::vector<std::pair<std::string, std::string>>;

// Asking is often done for what it does, and bytes are often read only to wait for them.
// NOLINTBEGIN(modernize-use-nodiscard)

/// A server on a free port of this machine, with a library of its own.
class RunningServer {
 public:
  explicit RunningServer(const server::Limits& limits = {}, const std::string& token = "");
  ~RunningServer();

  /// Asks, and holds the answer to the OpenAPI document when `path` begins with /api.
  Answer ask(const std::string& method, const std::string& path, const std::string& body = "",
             const Headers& headers = {}) const;

  [[nodiscard]] int port() const { return port_; }
  [[nodiscard]] server::Workbench& workbench() { return *workbench_; }
  [[nodiscard]] const std::filesystem::path& folder() const { return folder_.path(); }

 private:
  TemporaryFolder folder_;
  std::unique_ptr<server::Workbench> workbench_;
  std::unique_ptr<server::Server> server_;
  int port_ = 0;
  std::thread thread_;
};

/// A connection that sends what it is told, byte by byte.
class RawConnection {
 public:
  explicit RawConnection(int port);
  ~RawConnection();
  RawConnection(const RawConnection&) = delete;
  RawConnection& operator=(const RawConnection&) = delete;

  /// False when the other side has closed.
  bool send(const std::string& bytes) const;
  /// All that comes until the other side closes.
  [[nodiscard]] std::string rest() const;
  /// What comes until `end` is in it, or the other side closes.
  std::string until(const std::string& end) const;

 private:
  int socket_;
};

// NOLINTEND(modernize-use-nodiscard)

/// A file of examples/, as JSON.
[[nodiscard]] nlohmann::json example(const std::string& name);

}  // namespace ahead::test
