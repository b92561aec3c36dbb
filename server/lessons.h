#pragma once

#include <cstddef>
#include <deque>
#include <expected>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "formats/input_error.h"

/// Lessons that were made, to be fetched file by file. The last few are kept, in a folder that goes
/// with the server; what a teacher wants to keep is downloaded.
namespace ahead::server {

/// A folder that goes with its owner.
class LessonFolder {
 public:
  explicit LessonFolder(std::filesystem::path path) : path_(std::move(path)) {}
  ~LessonFolder();
  LessonFolder(const LessonFolder&) = delete;
  LessonFolder& operator=(const LessonFolder&) = delete;

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

struct LessonFile {
  std::string name;
  std::string bytes;
};

class Lessons {
 public:
  /// An empty folder to make a lesson in.
  [[nodiscard]] std::expected<std::unique_ptr<LessonFolder>, formats::InputError> new_folder();

  /// Keeps what was made in place of the oldest lesson.
  void keep(std::string id, std::unique_ptr<LessonFolder> folder, std::vector<std::string> names);

  /// File `number` of the names, from 1; nothing when it is not kept.
  [[nodiscard]] std::optional<LessonFile> file(const std::string& id, std::size_t number);

 private:
  struct Lesson {
    std::string id;
    std::unique_ptr<LessonFolder> folder;
    std::vector<std::string> names;
  };

  std::mutex mutex_;
  std::deque<Lesson> kept_;  ///< the oldest first
};

}  // namespace ahead::server
