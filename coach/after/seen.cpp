#include "coach/after/seen.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace ahead::coach {
namespace {

constexpr std::size_t most_balls = 32;

double near_density(const Misfit& misfit, double widen) {
  const double s = widen * misfit.sigma_m;
  const double z = misfit.apart_m / s;
  return std::exp(-0.5 * z * z) / (2 * std::numbers::pi * s * s);
}

}  // namespace

std::vector<SeenBall> seen_in(const Layout& before, const Layout& actual) {
  std::vector<SeenBall> seen;
  for (const LayoutBall& ball : before.balls) {
    const auto found = std::ranges::find(actual.balls, ball.id, &LayoutBall::id);
    SeenBall one;
    if (found != actual.balls.end()) {
      one.at = found->at;
      if (found->sigma_m > 0) one.sigma_m = found->sigma_m;
    }
    seen.push_back(one);
  }
  return seen;
}

void misfits_of(const engine::Shot& shot, std::span<const engine::Vec2> from,
                std::span<const SeenBall> seen, std::span<Misfit> misfits) {
  std::array<double, most_balls> run_m{};
  std::array<engine::Vec2, most_balls> last;
  std::ranges::copy(from, last.begin());
  const auto run_to = [&](std::size_t ball, engine::Vec2 place) {
    run_m[ball] += engine::norm(place - last[ball]);
    last[ball] = place;
  };
  for (const engine::Stretch& stretch : shot.stretches) {
    run_to(static_cast<std::size_t>(stretch.ball), engine::plan(stretch.start.position));
  }
  for (std::size_t i = 0; i < seen.size(); ++i) {
    const engine::Ending& ending = shot.endings[i];
    run_to(i, engine::plan(ending.position));
    misfits[i] = {.seen = seen[i].at.has_value(), .stays = ending.on_table()};
    if (!misfits[i].seen || !misfits[i].stays) continue;
    misfits[i].apart_m = engine::norm(*seen[i].at - engine::plan(ending.position));
    misfits[i].sigma_m = std::hypot(seen[i].sigma_m, drift_per_m * run_m[i]);
  }
}

double log_likelihood(std::span<const Misfit> misfits, double bed_m2, double widen) {
  double sum = 0;
  for (const Misfit& misfit : misfits) {
    const double floor = misfit.seen ? stray_chance / bed_m2 : stray_chance;
    double likely = 0;
    if (misfit.seen && misfit.stays) likely = near_density(misfit, widen);
    if (!misfit.seen && !misfit.stays) likely = 1;
    sum += std::log((1 - stray_chance) * likely + floor);
  }
  return sum;
}

bool is_stray(const Misfit& misfit, double bed_m2) {
  if (misfit.seen != misfit.stays) return true;
  return misfit.seen && (1 - stray_chance) * near_density(misfit, 1) < stray_chance / bed_m2;
}

}  // namespace ahead::coach
