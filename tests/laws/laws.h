#pragma once

#include <cstdint>
#include <string>

#include "tests/laws/seeded_shot.h"

/// The laws that hold for every shot, and how near one shot comes to breaking each.
///
/// - Every number is finite; events and stretches are in order of time; what has left stays away.
/// - It ends by itself; a ball ends at rest on the bed, in a pocket or off the table.
/// - Kinetic plus potential energy of all the balls never rises.
/// - Nothing sinks into anything by more than a micrometre, at events or between them.
/// - A mirrored shot is the shot's mirror image.
/// - A shot that is cut and simulated on from there ends as it did.
///
/// The last two are compared until the fourth contact (after the cut, if there is one): each
/// contact makes what two shots differ by some ten times larger, so a chain of contacts turns the
/// last digit into anything. Where a single one does that, as a contact that only just happens, the
/// shot stands on a knife edge, and proves nothing: there, a nudge of 1e-13 does as much. Nor does
/// a cut where the difference is what the engine lets slow contacts sink, because how far depends
/// on when it looked.
namespace ahead::test {

inline constexpr double energy_limit = 1e-12;  ///< round-off of sums of a few joules
inline constexpr double overlap_limit_m = 1e-6;
inline constexpr double sameness_limit_m = 1e-9;
inline constexpr std::size_t events_limit = 10000;
inline constexpr double settled_limit_s = 200;

struct Judgement {
  std::string broken;      ///< the laws that the shot breaks, in words; empty when none
  double energy_rise = 0;  ///< largest, as a share of the energy given
  double ball_overlap_m = 0;
  double cushion_overlap_m = 0;
  double mirror_m = 0;      ///< largest difference from the mirror image
  double cut_m = 0;         ///< largest difference from the shot that was not cut
  bool knife_edge = false;  ///< the mirror or the cut proves nothing
  bool sank = false;        ///< the cut proves nothing
  std::size_t events = 0;
  double settled_s = 0;
};

[[nodiscard]] Judgement judged(const SeededShot& seeded);

/// The same without the last two laws, for a record that is there already.
[[nodiscard]] Judgement judged(const SeededShot& seeded, const engine::Shot& shot);

/// A number made of every bit of the record: equal shots have equal digests.
[[nodiscard]] std::uint64_t digest(const engine::Shot& shot);

}  // namespace ahead::test
