#include "formats/ffmpeg.h"

#include <array>
#include <cerrno>
#include <csignal>
#include <utility>

#include <fcntl.h>
#include <spawn.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

namespace ahead::formats {

std::expected<Ffmpeg, int> Ffmpeg::start(const std::vector<std::string>& arguments,
                                         FrameStream stream) {
  std::array<int, 2> frames{};
  std::array<int, 2> complaints{};
  if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, frames.data()) != 0) {
    return std::unexpected(errno);
  }
  if (pipe2(complaints.data(), O_CLOEXEC) != 0) {
    const int error = errno;
    for (const int end : frames) close(end);
    return std::unexpected(error);
  }
  const bool reads = stream == FrameStream::standard_input;
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, frames[1], reads ? STDIN_FILENO : STDOUT_FILENO);
  posix_spawn_file_actions_adddup2(&actions, complaints[1], STDERR_FILENO);
  posix_spawn_file_actions_addopen(&actions, reads ? STDOUT_FILENO : STDIN_FILENO, "/dev/null",
                                   reads ? O_WRONLY : O_RDONLY, 0);
  // Nothing else of ours: a connection that a server closes must not stay open in the program.
  posix_spawn_file_actions_addclosefrom_np(&actions, STDERR_FILENO + 1);

  // A group of its own: Ctrl-C at the terminal is for us, and we stop the program.
  posix_spawnattr_t attributes;
  posix_spawnattr_init(&attributes);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETPGROUP);

  std::vector<std::string> words{"ffmpeg"};
  words.insert(words.end(), arguments.begin(), arguments.end());
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
    return std::unexpected(error);
  }
  return Ffmpeg(program, frames[0], complaints[0]);
}

Ffmpeg::Ffmpeg(Ffmpeg&& other) noexcept
    : program_(std::exchange(other.program_, -1)),
      frames_(std::exchange(other.frames_, -1)),
      complaints_(std::exchange(other.complaints_, -1)) {}

Ffmpeg::~Ffmpeg() {
  close_frames();
  if (program_ >= 0) {
    kill(program_, SIGKILL);
    waitpid(program_, nullptr, 0);
  }
  if (complaints_ >= 0) close(complaints_);
}

void Ffmpeg::close_frames() {
  if (frames_ >= 0) close(std::exchange(frames_, -1));
}

bool Ffmpeg::write(std::span<const unsigned char> bytes) const {
  while (!bytes.empty()) {
    const ssize_t sent = send(frames_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent < 0 && errno == EINTR) continue;
    if (sent <= 0) return false;
    bytes = bytes.subspan(static_cast<std::size_t>(sent));
  }
  return true;
}

std::optional<std::string> Ffmpeg::complaint_at_end() {
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
  if (WIFEXITED(status) && WEXITSTATUS(status) == 0) return std::nullopt;
  const std::string first = said.substr(0, said.find('\n'));
  return first.empty() ? "it ended early" : first;
}

}  // namespace ahead::formats
