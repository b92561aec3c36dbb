#include "coach/trial/clearance.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <utility>

namespace ahead::coach {
namespace {

/// Tries behind the stated chance of each pot that is played: as many as behind a plan's. With
/// fewer, what is stated high by luck would look as if it came true too seldom.
constexpr int stated_tries = 1000;
/// No clearance has more shots than this: one a ball.
constexpr std::uint64_t shots_a_run = 32;
/// Draws that are played, and draws behind stated chances: neither those that chose the strike.
constexpr std::uint64_t played_salt = 0x7261c1ea;
constexpr std::uint64_t stated_salt = 0x57a7edc4;

std::vector<ToPlay> colours_of(const Layout& layout) {
  if (layout.to_play != ToPlay::open) return {layout.to_play};
  if (layout.rules == Rules::american_8ball) return {ToPlay::solid, ToPlay::stripe};
  return {ToPlay::red, ToPlay::yellow};
}

/// A number for the layout's places, to the micrometre. Source: the FNV-1a hash, Fowler, Noll, Vo.
std::uint64_t stream_of(const Layout& layout) {
  std::uint64_t hash = 0xcbf29ce484222325;
  const auto add = [&hash](double metres) {
    hash ^= static_cast<std::uint64_t>(std::llround(metres * 1e6));
    hash *= 0x100000001b3;
  };
  for (const LayoutBall& ball : layout.balls) {
    add(ball.at.x);
    add(ball.at.y);
  }
  return hash;
}

double stated_pot(const Scene& scene, const Position& position, const Call& call,
                  std::uint64_t seed, std::uint64_t stream) {
  // Other draws for every shot: with the same ones, all stated chances would err to the same side.
  int potted = 0;
  for (std::uint64_t i = 0; i < stated_tries; ++i) {
    const Try one = try_once(scene, position, call, seed ^ stated_salt, stream * stated_tries + i);
    potted += one.potted ? 1 : 0;
  }
  return static_cast<double>(potted) / stated_tries;
}

Outcome outcome_of(const Scene& scene, const TrialShot& shot, const Try& one, bool first) {
  constexpr double even = 0.5;
  switch (one.verdict) {
    case Verdict::cleared:
      return Outcome::cleared;
    case Verdict::in_off:
      return Outcome::in_off;
    case Verdict::wrong_first:
      return Outcome::wrong_ball;
    case Verdict::wrong_potted:
      return (one.leaves.present & scene.task.black) == 0 ? Outcome::black : Outcome::wrong_ball;
    case Verdict::missed:
    case Verdict::goes_on:
      break;
  }
  return !first && shot.pot < even ? Outcome::lost_position : Outcome::missed_pot;
}

}  // namespace

TrialStart trial_start(const Layout& layout, const Player& player, Policy policy,
                       std::uint64_t seed) {
  std::optional<TrialStart> best;
  long simulated = 0;
  for (const ToPlay colour : colours_of(layout)) {
    TrialStart start{.policy = policy,
                     .colour = colour,
                     .scene = scene_of(layout, colour, player),
                     .position = position_of(layout),
                     .seed = seed,
                     .stream = stream_of(layout)};
    start.first = decide(policy, start.scene, start.position, start.known, seed, simulated);
    const bool better =
        !best || (start.first && (!best->first || start.first->promise > best->first->promise));
    if (better) best = std::move(start);
  }
  best->simulated_shots = simulated;
  return *std::move(best);
}

PlayedClearance play_clearance(const TrialStart& start, int run) {
  PlayedClearance played;
  // Where balls came to rest in the trial is known, however the layout was captured.
  Scene scene = start.scene;
  Position position = start.position;
  Knowledge known = start.known;
  std::optional<Decision> decision = start.first;
  const BallSet clearing = scene.task.own | scene.task.black;
  played.outcome = Outcome::no_pot;
  for (std::uint64_t i = 0; i < shots_a_run && decision; ++i) {
    const std::uint64_t stream = start.stream + static_cast<std::uint64_t>(run) * shots_a_run + i;
    TrialShot shot{.before = position, .call = decision->call, .promise = decision->promise};
    shot.pot = stated_pot(scene, position, shot.call, start.seed, stream);
    shot.attempt = attempt_of(scene, position, shot.call, start.seed ^ played_salt, stream);
    const Try one = try_once(scene, position, shot.call, start.seed ^ played_salt, stream);
    shot.potted = one.potted;
    played.simulated_shots += stated_tries + 1;
    played.shots.push_back(std::move(shot));
    position = one.leaves;
    if (!succeeded(one) || one.verdict == Verdict::cleared) {
      played.outcome = outcome_of(scene, played.shots.back(), one, i == 0);
      break;
    }
    played.outcome = Outcome::lost_position;
    std::ranges::fill(scene.sigma_m, 0);
    decision = decide(start.policy, scene, position, known, start.seed, played.simulated_shots);
  }
  played.left = std::popcount(position.present & clearing);
  return played;
}

}  // namespace ahead::coach
