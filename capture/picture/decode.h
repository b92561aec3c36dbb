#pragma once

#include <cstddef>
#include <cstdint>
#include <expected>
#include <span>

#include "capture/picture/picture.h"
#include "capture/refusal.h"

/// Pictures from bytes that nobody vouches for.
namespace ahead::capture {

/// The largest file and the largest picture that are taken: a telephone's photograph has 12 to 50
/// million pixels.
inline constexpr std::size_t most_picture_bytes = 64'000'000;
inline constexpr int most_picture_side = 16'384;
inline constexpr long most_picture_pixels = 60'000'000;
/// Smaller ones show no balls.
inline constexpr int least_picture_side = 64;

/// A JPEG, PNG or WebP, told apart by their first bytes and not by a name. Its size is read and
/// judged before any memory is asked for; a photograph that says by EXIF how it was held is turned
/// upright.
[[nodiscard]] std::expected<Picture, Refusal> decode_picture(std::span<const std::uint8_t> bytes);

/// Whether the first bytes are those of a video (MP4 and MOV, Matroska and WebM, AVI).
[[nodiscard]] bool is_footage(std::span<const std::uint8_t> bytes);

}  // namespace ahead::capture
