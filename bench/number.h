#pragma once

#include <charconv>
#include <optional>
#include <string>

/// Numbers on the command line of a benchmark.
namespace ahead::bench {

/// Nothing unless the whole text is one.
template <typename Whole>
[[nodiscard]] std::optional<Whole> number(const std::string& text) {
  Whole value{};
  const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || stop != text.data() + text.size()) return std::nullopt;
  return value;
}

}  // namespace ahead::bench
