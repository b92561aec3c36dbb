#include "formats/workbench/json_number.h"

#include <array>
#include <cassert>
#include <charconv>
#include <cmath>
#include <cstdint>

namespace ahead::formats {

void append_number(std::string& text, double value, int decimals) {
  assert(std::abs(value) < 1e9);
  static constexpr std::array<std::int64_t, 7> powers{1, 10, 100, 1000, 10'000, 100'000, 1'000'000};
  const std::int64_t power = powers[static_cast<std::size_t>(decimals)];
  std::int64_t all = std::llround(value * static_cast<double>(power));
  if (all < 0) {
    text += '-';
    all = -all;
  }
  std::array<char, 24> digits{};
  const auto [end, error] =
      std::to_chars(digits.data(), digits.data() + digits.size(), all / power);
  text.append(digits.data(), end);
  std::int64_t rest = all % power;
  if (rest == 0) return;
  text += '.';
  for (std::int64_t place = power / 10; rest != 0; place /= 10) {
    text += static_cast<char>('0' + rest / place);
    rest %= place;
  }
}

}  // namespace ahead::formats
