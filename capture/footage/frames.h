#pragma once

#include <expected>
#include <filesystem>
#include <optional>
#include <string>
#include <utility>

#include "capture/picture/picture.h"
#include "capture/refusal.h"
#include "formats/ffmpeg.h"

/// The frames of a clip, by ffmpeg as a program of its own: one at a time, none kept.
namespace ahead::capture {

/// Frames a second that are looked at, whatever the clip has.
inline constexpr double frames_per_second = 25;
/// Larger frames are made smaller on the way.
inline constexpr int most_frame_width = 1280;
/// Longer clips are read so far.
inline constexpr double longest_clip_s = 1800;

class Frames {
 public:
  /// Starts the program, which is stopped with the frames. It may read this file and nothing else.
  [[nodiscard]] static std::expected<Frames, Refusal> open(const std::filesystem::path& clip);

  /// The next frame; nothing after the last, or when the program fails: see failure().
  [[nodiscard]] std::optional<Picture> next();

  /// What the program complained of. Ends it.
  [[nodiscard]] std::optional<Refusal> failure();

 private:
  explicit Frames(formats::Ffmpeg ffmpeg) : ffmpeg_(std::move(ffmpeg)) {}

  [[nodiscard]] bool read_exactly(char* to, std::size_t size);
  [[nodiscard]] std::optional<int> read_number();

  formats::Ffmpeg ffmpeg_;
};

}  // namespace ahead::capture
