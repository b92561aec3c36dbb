#include "capture/footage/frames.h"

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <utility>
#include <vector>

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include "capture/picture/decode.h"

namespace ahead::capture {
namespace {

/// The frames come as portable pixmaps, one after another: each says its own size, so that a clip
/// that was filmed upright is turned by ffmpeg and nobody has to know.
std::vector<std::string> arguments(const std::filesystem::path& clip) {
  return {"ffmpeg",
          "-nostdin",
          "-hide_banner",
          "-loglevel",
          "error",
          "-protocol_whitelist",
          "file",
          "-t",
          std::to_string(longest_clip_s),
          "-i",
          "file:" + clip.string(),
          "-map",
          "0:v:0",
          "-vf",
          "fps=" + std::to_string(frames_per_second) + ",scale='min(" +
              std::to_string(most_frame_width) + ",iw)':-2",
          "-f",
          "image2pipe",
          "-c:v",
          "ppm",
          "-threads",
          "1",
          "pipe:1"};
}

Refusal no_program(int error) {
  if (error == ENOENT) {
    return {.wrong = "is footage, and the program ffmpeg, which reads it, is not there",
            .mend = "install it (Debian: apt-get install ffmpeg), or give a photograph"};
  }
  return {.wrong = std::string("ffmpeg could not be started (") + std::strerror(error) + ")",
          .mend = "free some memory"};
}

}  // namespace

std::expected<Frames, Refusal> Frames::open(const std::filesystem::path& clip) {
  std::array<int, 2> frames{};
  std::array<int, 2> complaints{};
  if (pipe2(frames.data(), O_CLOEXEC) != 0) return std::unexpected(no_program(errno));
  if (pipe2(complaints.data(), O_CLOEXEC) != 0) {
    const int error = errno;
    for (const int end : frames) close(end);
    return std::unexpected(no_program(error));
  }
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, frames[1], STDOUT_FILENO);
  posix_spawn_file_actions_adddup2(&actions, complaints[1], STDERR_FILENO);
  posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);

  // A group of its own: Ctrl-C at the terminal is for us, and we stop the program.
  posix_spawnattr_t attributes;
  posix_spawnattr_init(&attributes);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETPGROUP);

  std::vector<std::string> words = arguments(clip);
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  pid_t program = -1;
  const int error =
      posix_spawnp(&program, "ffmpeg", &actions, &attributes, pointers.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  posix_spawnattr_destroy(&attributes);
  close(frames[1]);
  close(complaints[1]);
  if (error != 0) {
    close(frames[0]);
    close(complaints[0]);
    return std::unexpected(no_program(error));
  }
  return Frames(program, frames[0], complaints[0]);
}

Frames::Frames(Frames&& other) noexcept
    : program_(std::exchange(other.program_, -1)),
      frames_(std::exchange(other.frames_, -1)),
      complaints_(std::exchange(other.complaints_, -1)) {}

Frames::~Frames() {
  if (frames_ >= 0) close(frames_);
  if (program_ >= 0) {
    kill(program_, SIGKILL);
    waitpid(program_, nullptr, 0);
  }
  if (complaints_ >= 0) close(complaints_);
}

bool Frames::read_exactly(char* to, std::size_t size) {
  while (size > 0) {
    const ssize_t count = read(frames_, to, size);
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) return false;
    to += count;
    size -= static_cast<std::size_t>(count);
  }
  return true;
}

/// A decimal number and the one blank after it.
std::optional<int> Frames::read_number() {
  int value = 0;
  for (int digits = 0; digits < 7; ++digits) {
    char c = 0;
    if (!read_exactly(&c, 1)) return std::nullopt;
    if (c == ' ' || c == '\n') return value;
    if (c < '0' || c > '9') return std::nullopt;
    value = 10 * value + (c - '0');
  }
  return std::nullopt;
}

std::optional<Picture> Frames::next() {
  std::array<char, 3> magic{};
  if (!read_exactly(magic.data(), magic.size()) || std::memcmp(magic.data(), "P6\n", 3) != 0) {
    return std::nullopt;
  }
  const auto width = read_number();
  const auto height = read_number();
  const auto most = read_number();
  if (!width || !height || most != 255 || *width < least_picture_side ||
      *height < least_picture_side || *width > most_picture_side || *height > most_picture_side) {
    return std::nullopt;
  }
  Picture picture = blank_picture(*width, *height);
  if (!read_exactly(reinterpret_cast<char*>(picture.bgr.data()), picture.bgr.size())) {
    return std::nullopt;
  }
  for (std::size_t i = 0; i < picture.bgr.size(); i += 3) {
    std::swap(picture.bgr[i], picture.bgr[i + 2]);
  }
  return picture;
}

std::optional<Refusal> Frames::failure() {
  if (frames_ >= 0) close(std::exchange(frames_, -1));
  std::string said;
  std::array<char, 4096> block{};
  for (;;) {
    const ssize_t count = read(complaints_, block.data(), block.size());
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) break;
    said.append(block.data(), static_cast<std::size_t>(count));
  }
  int status = 0;
  waitpid(std::exchange(program_, -1), &status, 0);
  if (WIFEXITED(status) && WEXITSTATUS(status) == 0) return std::nullopt;
  const std::string first = said.substr(0, said.find('\n'));
  return Refusal{.wrong = "is no footage that ffmpeg reads (" +
                          (first.empty() ? std::string("it ended early") : first) + ")",
                 .mend = "save or send the clip again, as MP4 for instance"};
}

}  // namespace ahead::capture
