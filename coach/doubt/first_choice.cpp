#include "coach/doubt/first_choice.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "coach/plan/choose.h"
#include "coach/random.h"
#include "coach/threads.h"
#include "engine/simulate/nose_line.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

constexpr int redraws = 6;
/// A planned shot worth this share of a redraw's best is about as good there.
constexpr double about_as_good = 0.9;

/// Whether a ball may lie at `place` with the others where they are.
bool fits(const Scene& scene, const Position& position, std::size_t ball, Vec2 place) {
  const engine::Playfield& field = scene.field;
  if (engine::norm(place - engine::nearest_on(field.nose(), place)) <
      field.runner(static_cast<int>(ball)).reach_m) {
    return false;
  }
  for (std::size_t i = 0; i < position.at.size(); ++i) {
    if (i == ball) continue;
    const double apart_m = 2 * std::sqrt(field.runner(static_cast<int>(i)).ball.radius_m *
                                         field.runner(static_cast<int>(ball)).ball.radius_m);
    if (engine::norm(place - position.at[i]) < apart_m) return false;
  }
  return true;
}

/// Every ball moved within its error; one that finds no room stays.
Position redrawn(const Scene& scene, const Position& measured, const std::vector<double>& sigma_m,
                 Random& random) {
  Position drawn = measured;
  for (std::size_t ball = 0; ball < drawn.at.size(); ++ball) {
    constexpr int attempts = 20;
    for (int i = 0; i < attempts; ++i) {
      const double x = random.normal();
      const double y = random.normal();
      const Vec2 place = measured.at[ball] + sigma_m[ball] * Vec2{x, y};
      if (!fits(scene, drawn, ball, place)) continue;
      drawn.at[ball] = place;
      break;
    }
  }
  return drawn;
}

/// What is chosen from a position, against the planned ball and pocket.
struct Choice {
  bool kept = false;
  bool close = false;
  int ball = 0;
};

Choice choice_from(const Scene& scene, const std::shared_ptr<const Glance>& glance,
                   const Position& position, const ShotOption& planned, std::uint64_t seed) {
  long shots = 0;
  const ValueField field(scene, position, coarse_grid, glance);
  const auto rivals = weigh_shots(scene, field, position, seed, shots);
  if (rivals.empty()) return {};
  const auto is_planned = [&](const Weighed& rival) {
    return rival.prospect.ball == planned.ball && rival.prospect.pocket == planned.pocket;
  };
  const auto same = std::ranges::find_if(rivals, is_planned);
  return {.kept = is_planned(rivals.front()),
          .close = same != rivals.end() && same->worth >= about_as_good * rivals.front().worth,
          .ball = rivals.front().prospect.ball};
}

}  // namespace

bool is_shaky(const Steadiness& steadiness) {
  return 3 * (steadiness.redraws - steadiness.kept - steadiness.close) >= steadiness.redraws;
}

Steadiness steadiness_of(const Plan& plan, double assumed_sigma_m, std::uint64_t seed,
                         int threads) {
  const ThreadLimit limit(threads);
  const PlannedShot& shot = plan.shots.front();
  const Scene scene = scene_of(shot.before, plan.colour, plan.player);
  const auto glance = std::make_shared<const Glance>(scene.field, scene.player);
  const Position measured = position_of(shot.before);
  std::vector<double> sigma_m = scene.sigma_m;
  for (double& sigma : sigma_m) sigma = sigma > 0 ? sigma : assumed_sigma_m;

  Steadiness steadiness{.redraws = redraws, .sigma_m = std::ranges::max(sigma_m)};
  std::vector<int> decides(measured.at.size(), 0);
  for (int i = 0; i < redraws; ++i) {
    Random random(seed, static_cast<std::uint64_t>(i));
    const Position drawn = redrawn(scene, measured, sigma_m, random);
    const Choice choice = choice_from(scene, glance, drawn, shot.best, seed);
    if (choice.kept) {
      ++steadiness.kept;
    } else if (choice.close) {
      ++steadiness.close;
    } else {
      // Whose place was it? The balls most likely to decide, moved one at a time.
      for (const int ball : {0, shot.best.ball, choice.ball}) {
        const auto b = static_cast<std::size_t>(ball);
        Position alone = measured;
        if (!fits(scene, alone, b, drawn.at[b])) continue;
        alone.at[b] = drawn.at[b];
        const Choice once = choice_from(scene, glance, alone, shot.best, seed);
        if (!once.kept && !once.close) ++decides[b];
      }
    }
  }
  const auto most = std::ranges::max_element(decides);
  if (*most >= 2) steadiness.hangs_on = static_cast<int>(most - decides.begin());
  return steadiness;
}

}  // namespace ahead::coach
