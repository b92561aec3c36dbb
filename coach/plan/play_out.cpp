#include "coach/plan/play_out.h"

#include <numeric>

#include <tbb/parallel_for.h>
#include <tbb/partitioner.h>

#include "coach/plan/quick_choice.h"

namespace ahead::coach {
namespace {

/// Draws that are played, and draws that choose the next strike.
constexpr std::uint64_t played_salt = 0x5ca1ab1e;
constexpr std::uint64_t chosen_salt = 0xc0ffee;

RunEnd played_on(const Scene& scene, const ValueField& field, Position position, Call call,
                 std::uint64_t seed, std::uint64_t run, long& simulated) {
  // Streams of one run lie far from those of the others and from single tries.
  constexpr std::uint64_t shots_a_run = 64;
  FreshWays fresh;
  for (std::uint64_t shot = 0; shot < shots_a_run; ++shot) {
    const Try one = try_once(scene, position, call, seed ^ played_salt, run * shots_a_run + shot);
    ++simulated;
    if (!succeeded(one)) {
      return {.began = shot > 0,
              .foul = one.miscued || one.verdict != Verdict::missed,
              .in_hand = !one.miscued && one.verdict == Verdict::in_off,
              .left = one.leaves};
    }
    if (one.verdict == Verdict::cleared)
      return {.cleared = true, .began = true, .left = one.leaves};
    position = one.leaves;
    const auto next = quick_choice(scene, field, position, fresh, seed ^ chosen_salt, simulated);
    if (!next) break;
    call = *next;
  }
  return {.began = true, .left = position};
}

}  // namespace

std::vector<RunEnd> runs_of(const Scene& scene, const ValueField& field, const Position& position,
                            const Call& first, int runs, std::uint64_t seed,
                            long& simulated_shots) {
  std::vector<RunEnd> ends(static_cast<std::size_t>(runs));
  std::vector<long> simulated(ends.size(), 0);
  // One by one: a run takes milliseconds, and a stop waits for those that were handed out together.
  tbb::parallel_for(
      std::size_t{0}, ends.size(),
      [&](std::size_t i) {
        ends[i] = played_on(scene, field, position, first, seed, i, simulated[i]);
      },
      tbb::simple_partitioner{});
  simulated_shots = std::accumulate(simulated.begin(), simulated.end(), simulated_shots);
  return ends;
}

}  // namespace ahead::coach
