#pragma once

#include <cstddef>
#include <expected>
#include <filesystem>
#include <optional>

#include "capture/draw/draw_back.h"
#include "capture/footage/capture_footage.h"
#include "capture/refusal.h"
#include "coach/layout.h"

/// Drawings on the bed, laid over every frame of a still stretch of footage.
namespace ahead::capture {

/// The still stretch that shows these balls: the one in which they lie nearest to where the layout
/// has them. Refuses when none shows them within a hand's breadth on average.
[[nodiscard]] std::expected<std::size_t, Refusal> stretch_showing(const Footage& footage,
                                                                  const coach::Layout& layout);

/// Writes the frames of `clip` from `from_s` to `to_s` with the overlay on each, as an MP4 film.
/// The camera of the overlay is that of a layout captured from this clip. Nothing when it is
/// written.
[[nodiscard]] std::optional<Refusal> draw_on_clip(const std::filesystem::path& clip, double from_s,
                                                  double to_s, const Overlay& overlay,
                                                  const std::filesystem::path& film);

}  // namespace ahead::capture
