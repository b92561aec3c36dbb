#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "coach/risk/chance.h"
#include "coach/trial/policy.h"

/// One clearance played by a policy with the player's errors, choosing again after every shot.
namespace ahead::coach {

/// How a clearance ended.
enum class Outcome {
  cleared,
  missed_pot,     ///< a fair chance, missed: the pot was held for an even chance or better
  lost_position,  ///< nothing on after a good pot, or only a pot under an even chance, and missed
  in_off,         ///< the cue ball potted or off the table
  wrong_ball,     ///< a wrong ball met first, or potted so that it is a foul
  black,          ///< the black potted early
  no_pot          ///< the policy found no pot in the layout itself
};
inline constexpr int outcome_count = 7;

/// A shot as it was called and as it was played.
struct TrialShot {
  Position before;
  Call call;
  double promise = 0;  ///< what the policy held it for (Decision::promise)
  double pot = 0;      ///< chance of the pot, stated as a plan states it: by playing it out
  Attempt attempt;
  bool potted = false;  ///< the called ball in the called pocket
};

struct PlayedClearance {
  std::vector<TrialShot> shots;
  Outcome outcome{};
  int left = 0;  ///< balls still to clear at the end, the black included
  long simulated_shots = 0;
};

/// A layout that a policy is about to play: what every run has in common.
struct TrialStart {
  Policy policy{};
  ToPlay colour{};  ///< on an open table, the one in which the policy's first shot promises more
  Scene scene;
  Position position;
  Knowledge known;
  std::optional<Decision> first;
  std::uint64_t seed = 1;
  std::uint64_t stream = 0;  ///< of this layout, so that no two layouts meet the same errors
  long simulated_shots = 0;
};

/// Requires a valid layout with a ball to clear.
[[nodiscard]] TrialStart trial_start(const Layout& layout, const Player& player, Policy policy,
                                     std::uint64_t seed);

/// Run `run` of the layout. Runs of the same number meet the same errors under every policy.
[[nodiscard]] PlayedClearance play_clearance(const TrialStart& start, int run);

}  // namespace ahead::coach
