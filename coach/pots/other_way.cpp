#include "coach/pots/other_way.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>

#include <tbb/parallel_for.h>

#include "coach/access/access.h"
#include "coach/player/scatter.h"
#include "coach/pots/prospect.h"
#include "coach/pots/sight.h"
#include "coach/risk/tries.h"
#include "engine/simulate/simulate.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

constexpr int directions = 81;
/// Stun and follow at a medium pace, and stun with some more for what must run further.
constexpr std::array touches{Touch{.height = -0.30, .cue_speed_mps = 1.1},
                             Touch{.height = 0.15, .cue_speed_mps = 1.1},
                             Touch{.height = -0.20, .cue_speed_mps = 2.0}};
constexpr int edge_steps = 6;
constexpr int tries_a_way = 150;

/// A pocketed ball and how it came there.
struct Story {
  int ball = 0;
  int pocket = 0;
  Indirect how;

  friend auto operator<=>(const Story&, const Story&) = default;
};

/// A run of neighbouring directions with one story, at one touch.
struct Run {
  engine::Strike strike;  ///< at its middle
  Access access;
  double from_rad = 0;
  double to_rad = 0;

  [[nodiscard]] double width_rad() const { return to_rad - from_rad; }
};

/// Plays at one ball and collects the widest run of each story.
class Scan {
 public:
  Scan(const Scene& scene, const Position& position, int target)
      : scene_(scene), position_(position), target_(target), simulation_(scene.field) {
    for (int i = 0; i < static_cast<int>(position.at.size()); ++i) {
      if (!has(position.present, i)) continue;
      indices_.push_back(i);
      at_.push_back(position.at[static_cast<std::size_t>(i)]);
    }
  }

  [[nodiscard]] std::map<Story, Run> widest() {
    std::map<Story, Run> best;
    const engine::Table& table = scene_.field.table();
    const Vec2 offset = position_.at[static_cast<std::size_t>(target_)] - position_.at[0];
    const double reach_m = 2 * std::sqrt(table.cue_ball.radius_m * table.object_ball.radius_m);
    const double half_rad = std::asin(std::min(1.0, reach_m / engine::norm(offset)));
    const double centre_rad = engine::angle_rad(offset);
    const double step_rad = 2 * half_rad / (directions - 1);
    Approach approach(scene_, position_, centre_rad);
    for (const Touch& touch : touches) {
      engine::Strike strike{
          .aim_rad = centre_rad, .height = touch.height, .cue_speed_mps = touch.cue_speed_mps};
      // Over the width of one ball the way in which the strike is reached hardly changes.
      const Access access = approach.at(0, touch.height);
      if (!recommended(access)) continue;
      strike.elevation_rad = access.elevation_rad;
      std::map<Story, int> since;  // the first direction of a story that is still going on
      std::vector<Story> before;
      for (int i = 0; i <= directions; ++i) {
        strike.aim_rad = centre_rad - half_rad + i * step_rad;
        const std::vector<Story> now = i < directions ? stories(strike) : std::vector<Story>{};
        for (const Story& story : before) {
          if (std::ranges::find(now, story) != now.end()) continue;
          const double first_rad = centre_rad - half_rad + since[story] * step_rad;
          const double last_rad = strike.aim_rad - step_rad;
          Run run = refined(story, strike, first_rad, last_rad, step_rad);
          run.access = access;
          offer(best, story, run);
          since.erase(story);
        }
        for (const Story& story : now) since.try_emplace(story, i);
        before = now;
      }
    }
    return best;
  }

 private:
  /// Every indirect pot of this strike; none when the cue ball is lost.
  std::vector<Story> stories(const engine::Strike& strike) {
    const engine::Table& table = scene_.field.table();
    const engine::Shot& shot = simulation_.play(at_, strike);
    std::vector<Story> all;
    if (!shot.endings[0].on_table()) return all;
    for (int ball = 1; ball < static_cast<int>(shot.endings.size()); ++ball) {
      const int pocket = shot.endings[static_cast<std::size_t>(ball)].pocket;
      if (pocket < 0) continue;
      auto how = indirect_of(shot, ball, table, at_);
      if (!how) continue;
      // From the shot's terms to the position's.
      how->first = indices_[static_cast<std::size_t>(how->first)];
      for (int& other : how->by) other = indices_[static_cast<std::size_t>(other)];
      all.push_back({.ball = indices_[static_cast<std::size_t>(ball)],
                     .pocket = pocket,
                     .how = *std::move(how)});
    }
    return all;
  }

  Run refined(const Story& story, engine::Strike strike, double first_rad, double last_rad,
              double step_rad) {
    const auto edge = [&](double in_rad, double out_rad) {
      for (int i = 0; i < edge_steps; ++i) {
        strike.aim_rad = 0.5 * (in_rad + out_rad);
        const auto told = stories(strike);
        (std::ranges::find(told, story) != told.end() ? in_rad : out_rad) = strike.aim_rad;
      }
      return in_rad;
    };
    Run run;
    run.from_rad = edge(first_rad, first_rad - step_rad);
    run.to_rad = edge(last_rad, last_rad + step_rad);
    strike.aim_rad = 0.5 * (run.from_rad + run.to_rad);
    run.strike = strike;
    return run;
  }

  static void offer(std::map<Story, Run>& best, const Story& story, const Run& run) {
    const auto [known, fresh] = best.try_emplace(story, run);
    if (!fresh && run.width_rad() > known->second.width_rad()) known->second = run;
  }

  const Scene& scene_;
  const Position& position_;
  int target_;
  engine::Simulation simulation_;
  std::vector<int> indices_;
  std::vector<Vec2> at_;
};

}  // namespace

std::vector<OtherWay> other_ways(const Scene& scene, const Position& position, BallSet on,
                                 std::uint64_t seed) {
  std::vector<int> targets;
  for (const Sight& sight : sights_of(scene.field, position)) {
    if (has(on, sight.ball) && !sight.hidden()) targets.push_back(sight.ball);
  }
  std::vector<std::map<Story, Run>> found(targets.size());
  tbb::parallel_for(std::size_t{0}, targets.size(),
                    [&](std::size_t i) { found[i] = Scan(scene, position, targets[i]).widest(); });
  std::map<Story, Run> best;
  for (const auto& one : found) {
    for (const auto& [story, run] : one) {
      if (!has(on, story.ball)) continue;
      const auto [known, fresh] = best.try_emplace(story, run);
      if (!fresh && run.width_rad() > known->second.width_rad()) known->second = run;
    }
  }
  // The direction's error alone must leave some chance.
  const auto hopeless = [&](const Run& run) {
    const double sigma_rad = sigmas(scene.player, {.elevation_rad = run.strike.elevation_rad,
                                                   .carried = run.access.error_factor})
                                 .direction_rad;
    return std::erf(0.5 * run.width_rad() / (sigma_rad * std::numbers::sqrt2)) < hopeless_pot;
  };
  std::vector<OtherWay> ways;
  for (const auto& [story, run] : best) {
    if (hopeless(run)) continue;
    ways.push_back({.ball = story.ball,
                    .pocket = story.pocket,
                    .how = story.how,
                    .from_rad = run.from_rad,
                    .to_rad = run.to_rad,
                    .strike = run.strike,
                    .access = run.access});
  }
  tbb::parallel_for(std::size_t{0}, ways.size(), [&](std::size_t i) {
    OtherWay& way = ways[i];
    const Call call{
        .ball = way.ball, .pocket = way.pocket, .strike = way.strike, .access = way.access};
    const auto tries = tries_of(scene, position, call, tries_a_way, seed);
    const auto potted = std::ranges::count_if(
        tries, [](const Try& one) { return one.potted && one.verdict != Verdict::in_off; });
    way.pot = chance_of(static_cast<int>(potted), tries_a_way);
  });
  std::erase_if(ways, [](const OtherWay& way) { return way.pot.value < hopeless_pot; });
  return ways;
}

}  // namespace ahead::coach
