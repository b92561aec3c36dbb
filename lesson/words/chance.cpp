#include "lesson/words/chance.h"

#include <cmath>

#include <fmt/format.h>

namespace ahead::lesson {
namespace {

/// One in how many, rounded to what a person keeps: 12, 15, 20, 30, 40 ... 200.
int one_in(double chance) {
  const double n = 1 / chance;
  const double step = n < 12 ? 1 : n < 20 ? 5 : n < 100 ? 10 : 50;
  return static_cast<int>(std::lround(n / step) * static_cast<long>(step));
}

}  // namespace

std::string odds_words(double chance) {
  if (chance <= 0) return "in no try";
  if (chance >= 1) return "in every try";
  if (chance < 0.005) return "fewer than 1 in 200";
  if (chance > 0.995) return "more than 199 in 200";
  if (chance < 0.15) return fmt::format("about 1 in {}", one_in(chance));
  if (chance > 0.98) return "about 99 in 100";
  if (chance > 0.925) return "about 19 in 20";
  return fmt::format("about {} in 10", std::lround(10 * chance));
}

std::string average_words(double chance) {
  if (chance > 0.995) return "all but certain";
  if (chance < 0.005) return "next to nothing";
  return fmt::format("{} ({})", odds_words(chance), percent_words(chance));
}

std::string percent_words(double chance) {
  if (chance > 0 && chance < 0.005) return "under 1%";
  if (chance < 1 && chance > 0.995) return "over 99%";
  return fmt::format("{:.0f}%", 100 * chance);
}

std::string chance_words(const coach::Chance& chance) {
  const std::string odds = odds_words(chance.value);
  if (chance.trials == 0) return fmt::format("{} ({})", odds, percent_words(chance.value));
  return fmt::format("{} ({}, 95% interval {:.0f} to {:.0f})", odds, percent_words(chance.value),
                     100 * chance.low, 100 * chance.high);
}

}  // namespace ahead::lesson
