#include "coach/plan/play_out.h"

#include <array>
#include <map>
#include <optional>
#include <vector>

#include <tbb/parallel_for.h>

namespace ahead::coach {
namespace {

using engine::Vec2;

/// Touches tried on a ball that has moved, for which the field has no hints.
constexpr std::array<Touch, 5> fresh_touches{{{.height = -0.30, .cue_speed_mps = 1.0},
                                              {.height = -0.10, .cue_speed_mps = 0.9},
                                              {.height = -0.10, .cue_speed_mps = 1.5},
                                              {.height = 0.20, .cue_speed_mps = 0.7},
                                              {.height = 0.20, .cue_speed_mps = 1.3}}};

/// A choice being made: the best call so far and what was spent on it.
struct Choice {
  const Scene& scene;
  const ValueField& field;
  const Position& position;
  std::optional<Call> best;
  double worth = 0;
  long simulated = 0;

  void consider(const Way& way, const Touch& touch) {
    const auto prospect = prospect_of(scene, position, way, touch);
    ++simulated;
    if (!prospect) return;
    const BallSet left = prospect->leaves.present & (scene.task.own | scene.task.black);
    const double value =
        prospect->pot * (left == 0 ? 1.0 : field.value(left, prospect->leaves.at[0]));
    if (best && value <= worth) return;
    worth = value;
    best = call_of(*prospect);
  }
};

/// Ways of balls that have moved, kept while they lie still.
struct FreshWays {
  struct OfBall {
    Vec2 at;
    std::vector<Way> ways;
  };
  std::map<int, OfBall> balls;

  const std::vector<Way>& of(const Scene& scene, const Position& position, int ball) {
    const Vec2 at = position.at[static_cast<std::size_t>(ball)];
    const auto known = balls.find(ball);
    if (known != balls.end() && known->second.at == at) return known->second.ways;
    OfBall& fresh = balls[ball];
    fresh = {.at = at, .ways = quick_ways_of(scene, position, ball)};
    return fresh.ways;
  }
};

std::optional<Call> next_call(const Scene& scene, const ValueField& field, const Position& position,
                              FreshWays& fresh_ways, long& simulated) {
  Choice choice{.scene = scene, .field = field, .position = position};
  const BallSet shifted = moved(field.position(), position);
  const BallSet on = balls_on(scene.task, position.present);
  for (const ValueField::Hint& hint : field.hints(position.present, position.at[0])) {
    if (has(shifted, hint.ball) || !has(on, hint.ball)) continue;
    for (const Way& way : field.ways()) {
      if (way.ball == hint.ball && way.pocket == hint.pocket) choice.consider(way, hint.touch);
    }
  }
  // The field knows the ways of balls that lie where it saw them; those that moved are seen afresh.
  const auto try_touches = [&](const std::vector<Way>& ways, int ball) {
    for (const Way& way : ways) {
      if (way.ball != ball || (way.blockers & position.present) != 0) continue;
      for (const Touch& touch : fresh_touches) choice.consider(way, touch);
    }
  };
  const bool no_hint = !choice.best;
  for (int ball = 1; ball < static_cast<int>(position.at.size()); ++ball) {
    if (!has(on, ball)) continue;
    if (has(shifted, ball)) {
      try_touches(fresh_ways.of(scene, position, ball), ball);
    } else if (no_hint) {
      try_touches(field.ways(), ball);
    }
  }
  simulated += choice.simulated;
  return choice.best;
}

bool clears(const Scene& scene, const ValueField& field, Position position, Call call,
            std::uint64_t seed, std::uint64_t run, long& simulated) {
  // Streams of one run lie far from those of the others and from single tries.
  constexpr std::uint64_t shots_a_run = 64;
  FreshWays fresh_ways;
  for (std::uint64_t shot = 0; shot < shots_a_run; ++shot) {
    const Try one = try_once(scene, position, call, seed ^ 0x5ca1ab1e, run * shots_a_run + shot);
    ++simulated;
    if (!succeeded(one)) return false;
    if (one.verdict == Verdict::cleared) return true;
    position = one.leaves;
    const auto next = next_call(scene, field, position, fresh_ways, simulated);
    if (!next) return false;
    call = *next;
  }
  return false;
}

}  // namespace

Chance clearance_chance(const Scene& scene, const ValueField& field, const Position& position,
                        const Call& first, int runs, std::uint64_t seed, long& simulated_shots) {
  struct Run {
    bool cleared = false;
    long simulated = 0;
  };
  std::vector<Run> results(static_cast<std::size_t>(runs));
  tbb::parallel_for(std::size_t{0}, results.size(), [&](std::size_t i) {
    results[i].cleared = clears(scene, field, position, first, seed, i, results[i].simulated);
  });
  int cleared = 0;
  for (const Run& run : results) {
    cleared += run.cleared ? 1 : 0;
    simulated_shots += run.simulated;
  }
  return chance_of(cleared, runs);
}

}  // namespace ahead::coach
