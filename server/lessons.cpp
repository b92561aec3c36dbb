#include "server/lessons.h"

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <iterator>
#include <system_error>
#include <utility>

namespace ahead::server {

namespace fs = std::filesystem;

LessonFolder::~LessonFolder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

std::expected<std::unique_ptr<LessonFolder>, formats::InputError> Lessons::new_folder() {
  std::error_code ignored;
  std::string name = (fs::temp_directory_path(ignored) / "ahead-lesson-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) {
    return std::unexpected(formats::unwritable_file(name, std::strerror(errno)));
  }
  return std::make_unique<LessonFolder>(name);
}

void Lessons::keep(std::string id, std::unique_ptr<LessonFolder> folder,
                   std::vector<std::string> names) {
  constexpr std::size_t most = 4;
  const std::scoped_lock lock(mutex_);
  kept_.push_back({std::move(id), std::move(folder), std::move(names)});
  if (kept_.size() > most) kept_.pop_front();
}

std::optional<LessonFile> Lessons::file(const std::string& id, std::size_t number) {
  const std::scoped_lock lock(mutex_);
  const auto lesson = std::ranges::find(kept_, id, &Lesson::id);
  if (lesson == kept_.end() || number < 1 || number > lesson->names.size()) return std::nullopt;
  const std::string& name = lesson->names[number - 1];
  std::ifstream stream(lesson->folder->path() / name, std::ios::binary);
  return LessonFile{.name = fs::path(name).filename().string(),
                    .bytes = {std::istreambuf_iterator(stream), {}}};
}

}  // namespace ahead::server
