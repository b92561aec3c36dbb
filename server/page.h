#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <string>

#include "server/request.h"

/// The page's files, read once. What is not among them does not exist: no path of a request ever
/// reaches the file system.
namespace ahead::server {

class Page {
 public:
  /// The regular files below `folder`; links are left out. Without an index.html, a page that says
  /// how to build it.
  explicit Page(const std::filesystem::path& folder);

  /// For GET. Honours If-None-Match.
  [[nodiscard]] Reply answer(const Request& request) const;

 private:
  struct File {
    std::string type;
    std::string tag;
    std::shared_ptr<const std::string> bytes;
  };
  std::map<std::string, File> files_;  ///< by path, "/assets/main.js"
};

}  // namespace ahead::server
