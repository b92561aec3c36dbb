#pragma once

#include <expected>
#include <filesystem>
#include <optional>
#include <string>

#include "capture/picture/picture.h"
#include "capture/refusal.h"

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
  /// Starts the program. It may read this file and nothing else.
  [[nodiscard]] static std::expected<Frames, Refusal> open(const std::filesystem::path& clip);

  Frames(Frames&& other) noexcept;
  Frames& operator=(Frames&&) = delete;
  Frames(const Frames&) = delete;
  Frames& operator=(const Frames&) = delete;
  /// Stops the program, if it still runs.
  ~Frames();

  /// The next frame; nothing after the last, or when the program fails: see failure().
  [[nodiscard]] std::optional<Picture> next();

  /// What the program complained of. Ends it.
  [[nodiscard]] std::optional<Refusal> failure();

 private:
  Frames(int program, int frames, int complaints)
      : program_(program), frames_(frames), complaints_(complaints) {}

  [[nodiscard]] bool read_exactly(char* to, std::size_t size);
  [[nodiscard]] std::optional<int> read_number();

  int program_ = -1;     // process
  int frames_ = -1;      // pipe from its standard output
  int complaints_ = -1;  // pipe from its standard error
};

}  // namespace ahead::capture
