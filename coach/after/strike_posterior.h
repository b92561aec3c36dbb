#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "coach/after/seen.h"
#include "coach/player/scatter.h"
#include "coach/risk/tries.h"
#include "coach/scene.h"

/// What strike was made? The player's slip, given where the balls ended.
///
/// Prior: the player's errors. Likelihood: seen.h, through the full engine. The posterior is
/// sampled by adaptive importance sampling: slips are drawn, played and weighted; the next round is
/// drawn near the good ones, while the measurement error is tightened from a hundred times its size
/// down to its own. Same seed, same answer, on any number of threads.
///
/// Source: Cappe et al. (2008), Stat. Comput. 18, 447; the tightening: Del Moral, Doucet and Jasra
/// (2006), J. R. Stat. Soc. B 68, 411.
///
/// A strike that miscues is no explanation here: what the ball then does is not modelled.
namespace ahead::coach {

/// The parts of a slip, in the order and units of Slip.
enum class Part { direction, pace, tip_height, tip_side, elevation };
inline constexpr std::size_t part_count = 5;

/// One part of the slip: how far from the intention, in its own unit.
struct Estimate {
  double low = 0;   ///< the 90% interval: 5% of the weight lies below ...
  double best = 0;  ///< median
  double high = 0;  ///< ... and 5% above
  double prior_sigma = 0;
  double sigma = 0;  ///< after seeing the balls
};

/// Two parts that the balls cannot tell apart: either would do.
struct Tradeoff {
  Part one{};
  Part other{};
  double one_alone = 0;    ///< the slip of `one` if `other` was as meant
  double other_alone = 0;  ///< the slip of `other` if `one` was as meant
};

struct StrikePosterior {
  std::array<Estimate, part_count> parts;
  std::vector<Tradeoff> tradeoffs;  ///< closest tie first
  std::vector<Part> untold;         ///< parts of which the balls say next to nothing
  Slip likeliest;                   ///< of all slips tried, the one with the most posterior density
  double explained = 0;             ///< weight of the strikes that account for every ball, 0 to 1
  std::vector<int> strays;          ///< balls for which most of the weight does not account
  double effective_samples = 0;     ///< Kish: (sum w)^2 / sum w^2
  long simulated_shots = 0;
};

/// Half the weight on strikes that account for every ball: the least for a strike to be named.
[[nodiscard]] bool is_explained(const StrikePosterior& posterior);

/// `intended` was played at `ball` from `position`; `seen` says how its balls (those present) were
/// found. A place with an uncertainty (scene.sigma_m) is drawn for the cue ball and for `ball`, and
/// the player is taken to have aimed at the balls as they lay.
[[nodiscard]] StrikePosterior strike_posterior(const Scene& scene, const Position& position,
                                               const Call& intended,
                                               const std::vector<SeenBall>& seen,
                                               std::uint64_t seed);

}  // namespace ahead::coach
