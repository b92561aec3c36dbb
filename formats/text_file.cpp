#include "formats/text_file.h"

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <memory>

namespace ahead::formats {
namespace {

using File = std::unique_ptr<std::FILE, int (*)(std::FILE*)>;

File open_file(const std::filesystem::path& path, const char* mode) {
  return {std::fopen(path.c_str(), mode), &std::fclose};
}

/// Writes, closes and says whether the bytes reached the file: a full disk shows only at the end.
bool write_all(const std::filesystem::path& path, std::string_view text) {
  File file = open_file(path, "wbx");
  if (!file) return false;
  const bool written = std::fwrite(text.data(), 1, text.size(), file.get()) == text.size();
  return std::fclose(file.release()) == 0 && written;
}

/// A name beside `path` that no file has. Two writers at once take different ones, because opening
/// with "x" fails for the second.
std::filesystem::path free_name_beside(const std::filesystem::path& path) {
  for (int number = 0;; ++number) {
    std::filesystem::path name = path;
    name += ".part" + std::to_string(number);
    std::error_code ignored;
    if (!std::filesystem::exists(name, ignored)) return name;
  }
}

}  // namespace

std::expected<std::string, InputError> read_file(const std::filesystem::path& path,
                                                 std::size_t most_bytes) {
  std::error_code ignored;
  if (std::filesystem::is_directory(path, ignored)) {
    return std::unexpected(unreadable_file(path.string(), "it is a folder"));
  }
  const File file = open_file(path, "rb");
  if (!file) return std::unexpected(unreadable_file(path.string(), std::strerror(errno)));

  std::string text;
  std::array<char, 65536> block{};
  while (std::feof(file.get()) == 0 && text.size() <= most_bytes) {
    const std::size_t count = std::fread(block.data(), 1, block.size(), file.get());
    if (std::ferror(file.get()) != 0) {
      return std::unexpected(unreadable_file(path.string(), std::strerror(errno)));
    }
    text.append(block.data(), count);
  }
  if (text.size() > most_bytes) {
    return std::unexpected(too_large_file(path.string(), most_bytes));
  }
  return text;
}

std::optional<InputError> write_file(const std::filesystem::path& path, std::string_view text) {
  const std::filesystem::path part = free_name_beside(path);
  std::error_code failure;
  if (!write_all(part, text)) {
    failure = std::error_code(errno, std::generic_category());
  } else {
    std::filesystem::rename(part, path, failure);
  }
  if (!failure) return std::nullopt;
  std::error_code ignored;
  std::filesystem::remove(part, ignored);
  return unwritable_file(path.string(), failure.message());
}

std::optional<InputError> make_folder(const std::filesystem::path& path) {
  std::error_code failure;
  std::filesystem::create_directories(path, failure);
  if (failure) return unwritable_file(path.string(), failure.message());
  // Permission is known for certain only by trying.
  const std::filesystem::path probe = free_name_beside(path / "probe");
  if (!write_all(probe, "")) return unwritable_file(path.string(), std::strerror(errno));
  std::filesystem::remove(probe, failure);
  return std::nullopt;
}

}  // namespace ahead::formats
