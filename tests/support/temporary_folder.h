#pragma once

#include <atomic>
#include <filesystem>
#include <string>

#include <unistd.h>

namespace ahead::test {

/// A folder of one test, gone when the test is over.
class TemporaryFolder {
 public:
  TemporaryFolder() {
    static std::atomic<int> count = 0;
    path_ = std::filesystem::temp_directory_path() /
            ("ahead-test-" + std::to_string(::getpid()) + "-" + std::to_string(count++));
    std::filesystem::create_directories(path_);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  ~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  [[nodiscard]] std::filesystem::path operator/(const std::string& name) const {
    return path_ / name;
  }

 private:
  std::filesystem::path path_;
};

}  // namespace ahead::test
