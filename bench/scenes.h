#pragma once

#include <cstddef>
#include <functional>
#include <vector>

/// The shots that are timed and counted, each scene with a check of its answer.
///
/// bench/shots.cpp times them, bench/count.cpp plays them for a counter of instructions. All on
/// one thread, on the table `english-7ft`.
namespace ahead::bench {

struct Scene {
  std::size_t shots = 0;                                ///< in one round
  std::function<std::size_t(std::size_t shot)> events;  ///< plays one of them and counts its events
};

/// A clearance in mid-game: 25 shots, four to eight balls on the table, each played at another ball
/// and from another height, as a planner tries them.
[[nodiscard]] Scene clearance_shots();

/// Fifteen balls, racked with the gaps of a real rack, and a firm shot at the first.
[[nodiscard]] Scene break_shot();

/// One pot looked at closely: every height, side and pace of a grid is aimed so that the ball
/// drops, the butt is raised as far as it must be, and the shot is played to see the leave.
[[nodiscard]] Scene leave_grid();

/// The same twelve shots with `balls` on the table: the three that are played at, and bystanders.
/// Requires 4 to 16.
[[nodiscard]] Scene among_balls(std::size_t balls);

struct NamedScene {
  const char* name = nullptr;
  Scene (*scene)() = nullptr;
};

/// What count.cpp offers by name.
[[nodiscard]] const std::vector<NamedScene>& named_scenes();

/// Stops the run when an answer is wrong: a fast wrong answer is no result.
void require(bool right, const char* what);

}  // namespace ahead::bench
