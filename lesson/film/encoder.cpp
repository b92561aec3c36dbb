#include "lesson/film/encoder.h"

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <string_view>
#include <utility>
#include <vector>

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

namespace ahead::lesson {
namespace {

/// The encoders' settings. Two threads, always: their number is part of what is written. The bit
/// exact flags keep version and date out of the file, so that a lesson can be made again byte for
/// byte.
std::vector<std::string> arguments(const std::filesystem::path& file, FilmKind kind,
                                   const FilmShape& shape) {
  std::vector<std::string> all{"ffmpeg",
                               "-nostdin",
                               "-hide_banner",
                               "-loglevel",
                               "error",
                               "-f",
                               "rawvideo",
                               "-pix_fmt",
                               pixels_of(kind) == Pixels::planes ? "yuv420p" : "bgr0",
                               "-s",
                               fmt::format("{}x{}", shape.width, shape.height),
                               "-r",
                               fmt::format("{}", shape.rate),
                               "-i",
                               "pipe:0",
                               "-an",
                               "-map_metadata",
                               "-1",
                               "-fflags",
                               "+bitexact",
                               "-flags:v",
                               "+bitexact",
                               "-threads",
                               "2"};
  const auto add = [&all](std::initializer_list<std::string_view> more) {
    all.insert(all.end(), more.begin(), more.end());
  };
  // Colours of high-definition video, said so that players do not guess.
  const auto colours = [&] {
    add({"-colorspace", "bt709", "-color_primaries", "bt709", "-color_trc", "bt709", "-color_range",
         "tv", "-chroma_sample_location", "center"});
  };
  switch (kind) {
    case FilmKind::mp4:
      colours();
      add({"-c:v", "libx264", "-preset", "veryfast", "-crf", "20", "-movflags", "+faststart", "-f",
           "mp4"});
      break;
    case FilmKind::webm:
      colours();
      add({"-c:v", "libvpx-vp9", "-deadline", "realtime", "-cpu-used", "8", "-row-mt", "1",
           "-tile-columns", "1", "-crf", "31", "-b:v", "0", "-f", "webm"});
      break;
    case FilmKind::gif:
      add({"-vf", "split[a][b];[a]palettegen=stats_mode=diff[p];[b][p]paletteuse=dither=none",
           "-loop", "0", "-f", "gif"});
      break;
  }
  // A file of this name, whatever it begins with.
  add({"-y", "file:" + file.string()});
  return all;
}

FilmFailure failure(int error) {
  return {.no_program = error == ENOENT, .reason = std::strerror(error)};
}

}  // namespace

std::string ffmpeg_version() {
  std::FILE* said = popen("ffmpeg -version 2>/dev/null", "r");
  if (said == nullptr) return {};
  std::array<char, 256> line{};
  const bool any = std::fgets(line.data(), line.size(), said) != nullptr;
  while (std::fgetc(said) != EOF) {
  }
  pclose(said);
  constexpr std::string_view before = "ffmpeg version ";
  const std::string_view first(line.data());
  if (!any || !first.starts_with(before)) return {};
  return std::string(first.substr(before.size(), first.find(' ', before.size()) - before.size()));
}

std::expected<Encoder, FilmFailure> Encoder::start(const std::filesystem::path& file, FilmKind kind,
                                                   const FilmShape& shape) {
  // A socket and not a pipe: writing to a program that has ended then fails instead of killing us.
  std::array<int, 2> frames{};
  std::array<int, 2> complaints{};
  if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, frames.data()) != 0) {
    return std::unexpected(failure(errno));
  }
  if (pipe2(complaints.data(), O_CLOEXEC) != 0) {
    const int error = errno;
    for (const int end : frames) close(end);
    return std::unexpected(failure(error));
  }
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, frames[1], STDIN_FILENO);
  posix_spawn_file_actions_adddup2(&actions, complaints[1], STDERR_FILENO);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  // Nothing else of ours: a connection that a server closes must not stay open in the program.
  posix_spawn_file_actions_addclosefrom_np(&actions, STDERR_FILENO + 1);

  // A group of its own: Ctrl-C at the terminal is for us, and we stop the program.
  posix_spawnattr_t attributes;
  posix_spawnattr_init(&attributes);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETPGROUP);

  std::vector<std::string> words = arguments(file, kind, shape);
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
    return std::unexpected(failure(error));
  }
  return Encoder(program, frames[0], complaints[0]);
}

Encoder::Encoder(Encoder&& other) noexcept
    : program_(std::exchange(other.program_, -1)),
      frames_(std::exchange(other.frames_, -1)),
      complaints_(std::exchange(other.complaints_, -1)) {}

Encoder::~Encoder() {
  close_frames();
  if (program_ >= 0) {
    kill(program_, SIGKILL);
    waitpid(program_, nullptr, 0);
  }
  if (complaints_ >= 0) close(complaints_);
}

void Encoder::close_frames() {
  if (frames_ >= 0) close(std::exchange(frames_, -1));
}

bool Encoder::write(std::span<const unsigned char> frame) {
  while (!frame.empty()) {
    const ssize_t sent = send(frames_, frame.data(), frame.size(), MSG_NOSIGNAL);
    if (sent < 0 && errno == EINTR) continue;
    if (sent <= 0) return false;
    frame = frame.subspan(static_cast<std::size_t>(sent));
  }
  return true;
}

std::expected<void, FilmFailure> Encoder::finish() {
  close_frames();
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
  if (WIFEXITED(status) && WEXITSTATUS(status) == 0) return {};
  const std::string first = said.substr(0, said.find('\n'));
  return std::unexpected(FilmFailure{.reason = first.empty() ? "it ended early" : first});
}

}  // namespace ahead::lesson
