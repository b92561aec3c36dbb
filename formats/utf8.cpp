#include "formats/utf8.h"

#include <cstddef>

namespace ahead::formats {
namespace {

/// Bytes of the letter that starts with `lead`, and the range of its second byte; length 0 for a
/// byte that starts no letter. Table 3-7 of the Unicode Standard.
struct Letter {
  std::size_t length = 0;
  unsigned char least = 0x80;
  unsigned char most = 0xBF;
};

Letter letter_of(unsigned char lead) {
  if (lead < 0x80) return {.length = 1};
  if (lead >= 0xC2 && lead <= 0xDF) return {.length = 2};
  if (lead == 0xE0) return {.length = 3, .least = 0xA0};
  if (lead == 0xED) return {.length = 3, .most = 0x9F};
  if (lead >= 0xE1 && lead <= 0xEF) return {.length = 3};
  if (lead == 0xF0) return {.length = 4, .least = 0x90};
  if (lead == 0xF4) return {.length = 4, .most = 0x8F};
  if (lead >= 0xF1 && lead <= 0xF3) return {.length = 4};
  return {};
}

}  // namespace

std::optional<std::size_t> first_byte_not_utf8(std::string_view text) {
  const auto byte = [&](std::size_t index) { return static_cast<unsigned char>(text[index]); };
  std::size_t start = 0;
  while (start < text.size()) {
    const Letter letter = letter_of(byte(start));
    if (letter.length == 0 || start + letter.length > text.size()) return start;
    for (std::size_t k = 1; k < letter.length; ++k) {
      const unsigned char least = k == 1 ? letter.least : 0x80;
      const unsigned char most = k == 1 ? letter.most : 0xBF;
      if (byte(start + k) < least || byte(start + k) > most) return start;
    }
    start += letter.length;
  }
  return std::nullopt;
}

}  // namespace ahead::formats
