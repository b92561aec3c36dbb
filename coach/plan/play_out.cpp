#include "coach/plan/play_out.h"

#include <numeric>
#include <utility>

#include <tbb/parallel_for.h>
#include <tbb/partitioner.h>

#include "coach/plan/quick_choice.h"

namespace ahead::coach {
namespace {

/// Draws that are played, and draws that choose the next strike.
constexpr std::uint64_t played_salt = 0x5ca1ab1e;
constexpr std::uint64_t chosen_salt = 0xc0ffee;

constexpr std::uint64_t most_shots = 64;
constexpr std::uint64_t tries_a_shot = 16;

/// What became of the tries of one shot.
struct Split {
  int cleared = 0;
  int went_on = 0;
  int failed = 0;
  Try goes_on;  ///< the first of those that went on
  Try broke;    ///< ... and of those that failed
};

Split split(const Scene& scene, const Position& position, const Call& call, std::uint64_t seed,
            std::uint64_t first_stream) {
  Split all;
  for (std::uint64_t i = 0; i < tries_a_shot; ++i) {
    Try one = try_once(scene, position, call, seed, first_stream + i);
    if (!succeeded(one)) {
      if (all.failed++ == 0) all.broke = std::move(one);
    } else if (one.verdict == Verdict::cleared) {
      ++all.cleared;
    } else if (all.went_on++ == 0) {
      all.goes_on = std::move(one);
    }
  }
  return all;
}

Run played_on(const Scene& scene, const ValueField& field, Position position, Call call,
              std::uint64_t seed, std::uint64_t run, long& simulated) {
  Run out;
  FreshWays fresh;
  double share = 1;  // of the run that is still on its way
  constexpr double each = 1.0 / tries_a_shot;
  for (std::uint64_t shot = 0; shot < most_shots; ++shot) {
    // Streams of one run lie far from those of the others and from single tries.
    Split tries =
        split(scene, position, call, seed ^ played_salt, (run * most_shots + shot) * tries_a_shot);
    simulated += tries_a_shot;
    if (shot == 0) out.began = each * (tries.cleared + tries.went_on);
    out.cleared += share * each * tries.cleared;
    if (tries.failed > 0) {
      out.breakdowns.push_back(
          {.share = share * each * tries.failed,
           .foul = tries.broke.miscued || tries.broke.verdict != Verdict::missed,
           .in_hand = !tries.broke.miscued && tries.broke.verdict == Verdict::in_off,
           .left = std::move(tries.broke.leaves)});
    }
    share *= each * tries.went_on;
    if (share == 0) return out;
    position = std::move(tries.goes_on.leaves);
    const auto next = quick_choice(scene, field, position, fresh, seed ^ chosen_salt, simulated);
    if (!next) break;
    call = *next;
  }
  out.breakdowns.push_back({.share = share, .left = std::move(position)});
  return out;
}

}  // namespace

std::vector<Run> runs_of(const Scene& scene, const ValueField& field, const Position& position,
                         const Call& first, int runs, std::uint64_t seed, long& simulated_shots) {
  std::vector<Run> all(static_cast<std::size_t>(runs));
  std::vector<long> simulated(all.size(), 0);
  // One by one: a run takes milliseconds, and a stop waits for those that were handed out together.
  tbb::parallel_for(
      std::size_t{0}, all.size(),
      [&](std::size_t i) {
        all[i] = played_on(scene, field, position, first, seed, i, simulated[i]);
      },
      tbb::simple_partitioner{});
  simulated_shots = std::accumulate(simulated.begin(), simulated.end(), simulated_shots);
  return all;
}

}  // namespace ahead::coach
