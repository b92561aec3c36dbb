#include "capture/footage/frames.h"

#include <array>
#include <cerrno>
#include <cstring>
#include <utility>
#include <vector>

#include <unistd.h>

#include "capture/picture/decode.h"

namespace ahead::capture {
namespace {

/// The frames come as portable pixmaps, one after another: each says its own size, so that a clip
/// that was filmed upright is turned by ffmpeg and nobody has to know.
std::vector<std::string> arguments(const std::filesystem::path& clip) {
  return {"-nostdin",
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
  auto ffmpeg = formats::Ffmpeg::start(arguments(clip), formats::FrameStream::standard_output);
  if (!ffmpeg) return std::unexpected(no_program(ffmpeg.error()));
  return Frames(*std::move(ffmpeg));
}

bool Frames::read_exactly(char* to, std::size_t size) {
  while (size > 0) {
    const ssize_t count = read(ffmpeg_.frames(), to, size);
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
  const auto complaint = ffmpeg_.complaint_at_end();
  if (!complaint) return std::nullopt;
  return Refusal{.wrong = "is no footage that ffmpeg reads (" + *complaint + ")",
                 .mend = "save or send the clip again, as MP4 for instance"};
}

}  // namespace ahead::capture
