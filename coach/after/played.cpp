#include "coach/after/played.h"

namespace ahead::coach {
namespace {

bool fits(const PlayedShot& played, const Plan& plan) {
  if (played.shot >= plan.shots.size()) return false;
  const PlannedShot& shot = plan.shots[played.shot];
  return shot.before.balls[static_cast<std::size_t>(shot.best.ball)].id == played.ball;
}

}  // namespace

std::expected<AsPlayed, std::size_t> as_played(const Plan& plan,
                                               std::span<const PlayedShot> played) {
  AsPlayed whole{.plan = plan};
  whole.plan.shots.clear();
  const auto take = [&whole](std::size_t count) {
    for (std::size_t k = 0; k < count; ++k) {
      whole.plan.shots.push_back(whole.plans.back().shots[k]);
      whole.meant.push_back({.plan = whole.plans.size() - 1, .shot = k});
    }
    whole.came.resize(whole.plan.shots.size());
  };
  whole.plans.push_back(plan);
  bool over = false;
  for (std::size_t i = 0; i < played.size(); ++i) {
    if (over || !fits(played[i], whole.plans.back())) return std::unexpected(i);
    take(played[i].shot + 1);
    whole.came.back() = played[i].result;
    // After a miss the table is somebody else's.
    over = !played[i].result.potted || !played[i].plan;
    if (!over) whole.plans.push_back(*played[i].plan);
  }
  const bool all = over && played.back().result.potted &&
                   played.back().shot + 1 == whole.plans.back().shots.size();
  whole.plan.complete = over ? all && whole.plans.back().complete : whole.plans.back().complete;
  if (!over) take(whole.plans.back().shots.size());
  return whole;
}

}  // namespace ahead::coach
