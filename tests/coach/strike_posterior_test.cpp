#include "coach/after/strike_posterior.h"

#include <array>
#include <cstdio>
#include <cstdlib>
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "coach/plan/plan_clearance.h"
#include "coach/player/player.h"
#include "formats/layout.h"
#include "formats/text_file.h"
#include "tests/coach/scene_of_balls.h"

// What strike was made: shots whose strike is known, and how well it is found again.
namespace ahead::coach {
namespace {

Layout example(const std::string& name) {
  const std::string path = AHEAD_SOURCE_DIR "/examples/" + name + ".json";
  return *formats::read_layout(*formats::read_file(path), path);
}

std::array<double, part_count> parts_of(const Slip& slip) {
  return {slip.direction_rad, slip.pace, slip.tip_height_m, slip.tip_side_m, slip.elevation_rad};
}

/// A shot with a hidden slip, and the layout that was found after it.
struct Hidden {
  Scene scene;
  Position position;
  Call call;
  Slip slip;
  std::vector<SeenBall> seen;
};

/// How far a ball may be measured from where it ended, beyond its own measurement error.
enum class Drift { none, as_stated };

/// Shot `number` of an endless line: planned shots of two players, slips and measurement errors drawn by the
/// standard library.
class HiddenShots {
 public:
  HiddenShots() {
    for (const char* name : {"evening-class", "on-the-cushion", "awkward-black"}) {
      for (const char* player : {"club", "county"}) {
        plans_.push_back(*plan_clearance(example(name), *player_preset(player), {}));
      }
    }
  }

  Hidden shot(unsigned number, Drift drift) const {
    std::mt19937_64 bits(20261125 + number);
    std::normal_distribution<double> normal;
    const Plan& plan = plans_[number % plans_.size()];
    const PlannedShot& planned = plan.shots[number / plans_.size() % plan.shots.size()];
    Hidden hidden{.scene = scene_of(planned.before, plan.colour, plan.player),
                  .position = position_of(planned.before),
                  .call = {planned.best.ball, planned.best.pocket, planned.best.strike}};
    for (;;) {
      hidden.slip = {.direction_rad =
                         direction_sigma_rad(plan.player, planned.best.strike.elevation_rad) *
                         normal(bits),
                     .pace = plan.player.pace.sigma * normal(bits),
                     .tip_height_m = plan.player.tip_height_m.sigma * normal(bits),
                     .tip_side_m = plan.player.tip_side_m.sigma * normal(bits),
                     .elevation_rad = plan.player.elevation_rad.sigma * normal(bits)};
      const engine::Strike strike =
          played(planned.best.strike, hidden.slip, planned.before.table);
      if (engine::miscues(strike, planned.before.table.cue)) continue;
      const Played shot = play(hidden.scene.field, hidden.position, strike);
      if (!shot.shot.endings[0].on_table()) continue;  // the cue ball has no place of its own then
      hidden.seen.resize(planned.before.balls.size());
      std::vector<Misfit> misfits(hidden.seen.size());
      misfits_of(shot.shot, hidden.position.at, hidden.seen, misfits);
      std::vector<SeenBall> here = hidden.seen;
      for (std::size_t i = 0; i < here.size(); ++i) {
        const engine::Ending& ending = shot.shot.endings[i];
        if (ending.on_table()) here[i].at = engine::plan(ending.position);
      }
      misfits_of(shot.shot, hidden.position.at, here, misfits);
      for (std::size_t i = 0; i < here.size(); ++i) {
        if (!here[i].at) continue;
        const double sigma = drift == Drift::none ? here[i].sigma_m : misfits[i].sigma_m;
        const double x = normal(bits);
        const double y = normal(bits);
        hidden.seen[i].at = *here[i].at + sigma * engine::Vec2{x, y};
      }
      return hidden;
    }
  }

 private:
  std::vector<Plan> plans_;
};

TEST(Probe, Coverage) {
  const HiddenShots shots;
  const int n = std::atoi(std::getenv("N") ? std::getenv("N") : "20");
  for (const Drift drift : {Drift::none, Drift::as_stated}) {
    std::array<int, part_count> held{};
    double ess = 0, sims = 0;
    int unexplained = 0, low = 0;
    for (int i = 0; i < n; ++i) {
      const Hidden h = shots.shot(static_cast<unsigned>(i), drift);
      const auto post = strike_posterior(h.scene, h.position, h.call, h.seen, 7);
      const auto truth = parts_of(h.slip);
      for (std::size_t p = 0; p < part_count; ++p) {
        if (post.parts[p].low <= truth[p] && truth[p] <= post.parts[p].high) ++held[p];
      }
      ess += post.effective_samples;
      sims += static_cast<double>(post.simulated_shots);
      if (post.effective_samples < 200) ++low;
      if (post.explained < 0.5) { ++unexplained; std::printf("unexpl %d: %f ess %f\n", i, post.explained, post.effective_samples); }
    }
    std::printf("drift %d:", static_cast<int>(drift));
    for (int c : held) std::printf(" %.3f", static_cast<double>(c) / n);
    std::printf("  ess %.0f sims %.0f unexplained %d low %d\n", ess / n, sims / n, unexplained, low);
  }
}

}  // namespace
}  // namespace ahead::coach
