#include "coach/plan/play_out.h"

#include <vector>

#include <tbb/parallel_for.h>

#include "coach/plan/quick_choice.h"

namespace ahead::coach {
namespace {

/// Draws that are played, and draws that choose the next strike.
constexpr std::uint64_t played_salt = 0x5ca1ab1e;
constexpr std::uint64_t chosen_salt = 0xc0ffee;

bool clears(const Scene& scene, const ValueField& field, Position position, Call call,
            std::uint64_t seed, std::uint64_t run, long& simulated) {
  // Streams of one run lie far from those of the others and from single tries.
  constexpr std::uint64_t shots_a_run = 64;
  FreshWays fresh;
  for (std::uint64_t shot = 0; shot < shots_a_run; ++shot) {
    const Try one = try_once(scene, position, call, seed ^ played_salt, run * shots_a_run + shot);
    ++simulated;
    if (!succeeded(one)) return false;
    if (one.verdict == Verdict::cleared) return true;
    position = one.leaves;
    const auto next = quick_choice(scene, field, position, fresh, seed ^ chosen_salt, simulated);
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
