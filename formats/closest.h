#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace ahead::formats {

/// The choice that a person most likely meant by `text`: at most two slips of a finger away and
/// fewer than half of its letters. Nothing when no choice is that close.
[[nodiscard]] std::optional<std::string_view> closest(std::string_view text,
                                                      std::span<const std::string_view> choices);

}  // namespace ahead::formats
