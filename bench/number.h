#pragma once

#include <charconv>
#include <optional>
#include <string_view>

/// Numbers on the command line of a benchmark.
namespace ahead::bench {

/// Nothing unless the whole text is one.
template <typename Whole>
[[nodiscard]] std::optional<Whole> number(std::string_view text) {
  Whole value{};
  const char* const end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, value);
  if (error != std::errc{} || stop != end) return std::nullopt;
  return value;
}

}  // namespace ahead::bench
