#include "formats/closest.h"

#include <algorithm>
#include <cstddef>
#include <vector>

namespace ahead::formats {
namespace {

/// Letters to insert, delete, replace or swap with their neighbour (Damerau, restricted form).
std::size_t slips(std::string_view from, std::string_view to) {
  std::vector<std::size_t> before_last(to.size() + 1);
  std::vector<std::size_t> last(to.size() + 1);
  std::vector<std::size_t> row(to.size() + 1);
  for (std::size_t j = 0; j <= to.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= from.size(); ++i) {
    std::swap(before_last, last);
    std::swap(last, row);
    row[0] = i;
    for (std::size_t j = 1; j <= to.size(); ++j) {
      const std::size_t replaced = last[j - 1] + (from[i - 1] == to[j - 1] ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, replaced});
      if (i > 1 && j > 1 && from[i - 1] == to[j - 2] && from[i - 2] == to[j - 1]) {
        row[j] = std::min(row[j], before_last[j - 2] + 1);
      }
    }
  }
  return row[to.size()];
}

}  // namespace

std::optional<std::string_view> closest(std::string_view text,
                                        std::span<const std::string_view> choices) {
  constexpr std::size_t most_slips = 2;
  std::optional<std::string_view> best;
  std::size_t fewest = most_slips + 1;
  for (const std::string_view choice : choices) {
    // Long input cannot be close, and must not cost time.
    if (text.size() > choice.size() + most_slips) continue;
    const std::size_t count = slips(text, choice);
    if (count < fewest && 2 * count < choice.size()) {
      best = choice;
      fewest = count;
    }
  }
  return best;
}

}  // namespace ahead::formats
