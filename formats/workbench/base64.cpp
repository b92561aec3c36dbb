#include "formats/workbench/base64.h"

#include <cstddef>
#include <cstdint>

namespace ahead::formats {
namespace {

constexpr std::string_view alphabet =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

}  // namespace

std::string base64_of(std::string_view bytes) {
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    std::uint32_t three = 0;
    for (std::size_t k = 0; k < 3; ++k) {
      three = three << 8U | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0U);
    }
    for (std::size_t k = 0; k < 4; ++k) {
      const bool padding = i + k > bytes.size();
      text += padding ? '=' : alphabet[three >> (18 - 6 * k) & 63U];
    }
  }
  return text;
}

std::optional<std::string> bytes_of_base64(std::string_view text) {
  if (text.size() % 4 != 0) return std::nullopt;
  std::string bytes;
  bytes.reserve(text.size() / 4 * 3);
  for (std::size_t i = 0; i < text.size(); i += 4) {
    std::uint32_t three = 0;
    std::size_t padding = 0;
    for (std::size_t k = 0; k < 4; ++k) {
      const char c = text[i + k];
      const std::size_t value = alphabet.find(c);
      const bool may_pad = c == '=' && i + 4 == text.size() && k >= 2;
      if (!may_pad && (value == std::string_view::npos || padding > 0)) return std::nullopt;
      padding += may_pad ? 1 : 0;
      three = three << 6U | static_cast<std::uint32_t>(may_pad ? 0 : value);
    }
    for (std::size_t k = 0; k + padding < 3; ++k) {
      bytes += static_cast<char>(three >> (16 - 8 * k) & 255U);
    }
  }
  return bytes;
}

}  // namespace ahead::formats
