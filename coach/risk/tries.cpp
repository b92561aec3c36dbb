#include "coach/risk/tries.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tbb/parallel_for.h>

#include "coach/aim/contact.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

/// Whether the object ball left nearer to the line of the strike than meant: cut too little.
bool hit_too_full(const engine::Shot& shot, int shot_ball, const Call& call, Vec2 meant) {
  for (const engine::Stretch& stretch : shot.stretches) {
    if (stretch.ball != shot_ball) continue;
    const auto off_aim = [&](Vec2 direction) {
      return std::abs(
          std::remainder(engine::angle_rad(direction) - call.strike.aim_rad, 2 * std::numbers::pi));
    };
    return off_aim(engine::plan(stretch.start.velocity)) < off_aim(meant);
  }
  return false;
}

Position drawn_position(const Scene& scene, const Position& position, Random& random) {
  Position drawn = position;
  for (std::size_t i = 0; i < drawn.at.size(); ++i) {
    const double sigma = scene.sigma_m[i];
    if (sigma <= 0) continue;
    const double x = random.normal();
    const double y = random.normal();
    drawn.at[i] = drawn.at[i] + sigma * Vec2{x, y};
  }
  return drawn;
}

}  // namespace

Handicapped circumstances(const Call& call) {
  return {.elevation_rad = call.strike.elevation_rad, .carried = call.access.error_factor};
}

Attempt attempt_of(const Scene& scene, const Position& position, const Call& call,
                   std::uint64_t seed, std::uint64_t stream) {
  Random random(seed, stream);
  // Each in its own statement: the order of draws is part of the answer.
  const Slip slip = drawn(scene.player, circumstances(call), random);
  return {.from = drawn_position(scene, position, random),
          .strike = played(call.strike, slip, scene.field.table())};
}

Attempt spread_attempt(const Scene& scene, const Position& position, const Call& call,
                       std::uint64_t seed, std::uint64_t index) {
  Random random(seed, index);
  const Slip slip = slip_of(scene.player, circumstances(call), spread_normals(seed, index));
  return {.from = drawn_position(scene, position, random),
          .strike = played(call.strike, slip, scene.field.table())};
}

Try try_of(const Scene& scene, const Position& position, const Call& call, const Attempt& attempt) {
  const engine::Table& table = scene.field.table();
  const auto& [from, strike] = attempt;
  Try one;
  if (engine::miscues(strike, table.cue)) {
    one.miscued = true;
    one.verdict = Verdict::missed;
    one.leaves = position;
    return one;
  }
  const Played shot = play(scene.field, from, strike);
  one.verdict =
      judge(scene.task, shot.shot, shot.indices, position.present, call.ball, call.pocket);
  one.leaves = after(from, shot);
  const auto at = std::ranges::find(shot.indices, call.ball) - shot.indices.begin();
  one.potted = shot.shot.endings[static_cast<std::size_t>(at)].pocket == call.pocket;
  if (one.verdict == Verdict::missed) {
    const auto meant = first_contact(table, position.at[0],
                                     position.at[static_cast<std::size_t>(call.ball)], call.strike);
    one.thick = meant && hit_too_full(shot.shot, static_cast<int>(at), call,
                                      engine::plan(meant->object_after.velocity));
  }
  return one;
}

Try try_once(const Scene& scene, const Position& position, const Call& call, std::uint64_t seed,
             std::uint64_t stream) {
  return try_of(scene, position, call, attempt_of(scene, position, call, seed, stream));
}

std::vector<Try> tries_of(const Scene& scene, const Position& position, const Call& call, int count,
                          std::uint64_t seed) {
  std::vector<Try> tries(static_cast<std::size_t>(count));
  const auto attempt = [&](std::size_t i) {
    tries[i] = try_of(scene, position, call, spread_attempt(scene, position, call, seed, i));
  };
  // So few are done before another thread has woken up.
  constexpr std::size_t few = 64;
  if (tries.size() <= few) {
    for (std::size_t i = 0; i < tries.size(); ++i) attempt(i);
  } else {
    tbb::parallel_for(std::size_t{0}, tries.size(), attempt);
  }
  return tries;
}

bool succeeded(const Try& one) {
  return !one.miscued && (one.verdict == Verdict::goes_on || one.verdict == Verdict::cleared);
}

Fates fates_of(std::span<const Try> tries) {
  Fates fates;
  const double share = 1.0 / static_cast<double>(tries.size());
  for (const Try& one : tries) {
    if (one.miscued) {
      fates.miscue += share;
      continue;
    }
    switch (one.verdict) {
      case Verdict::cleared:
      case Verdict::goes_on:
        fates.good += share;
        break;
      case Verdict::missed:
        (one.thick ? fates.missed_thick : fates.missed_thin) += share;
        break;
      case Verdict::in_off:
        fates.in_off += share;
        break;
      case Verdict::wrong_first:
        fates.wrong_first += share;
        break;
      case Verdict::wrong_potted:
        fates.black_early += share;
        break;
    }
  }
  return fates;
}

}  // namespace ahead::coach
