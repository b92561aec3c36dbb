#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "coach/player/likelihood.h"
#include "coach/risk/tries.h"

/// Tries of several strikes that tell about each other.
///
/// What becomes of a try hangs on the strike that came out, not on the one that was meant. So the
/// tries of one strike are tries of its neighbours too, each weighed by how much likelier its
/// strike is for the neighbour than for all that were played: a strike that was never played can
/// be weighed, and every further try makes all around it surer.
///
/// Source: multiple importance sampling with the balance heuristic, Veach and Guibas (1995),
/// SIGGRAPH, 419.
namespace ahead::coach {

class SharedTries {
 public:
  /// What a try that potted is worth, from 0 to 1.
  using Value = std::function<double(const Try&)>;

  struct Estimate {
    double mean = 0;  ///< of the value over all tries, a miss counting 0
    /// Tries of value that the mean rests on (Kish: (sum w)^2 / sum w^2); next to none says that
    /// nothing near was played.
    double effective = 0;
  };

  /// `scene` and `position` must outlive it.
  SharedTries(const Scene& scene, const Position& position, Value value, std::uint64_t seed);

  /// Plays the call `count` times more. All calls name one ball and one pocket.
  void play(const Call& call, int count);

  [[nodiscard]] Estimate estimate(const Call& call) const;

  /// Tries so far.
  [[nodiscard]] std::uint64_t count() const { return next_; }

 private:
  /// A try of some value; the others add nothing to any sum.
  struct Sample {
    CameOut strike;
    double value = 0;
    double density = 0;  ///< of its strike, summed over all tries that were played
  };
  struct Played {
    Likelihood likelihood;
    double tries = 0;
  };

  [[nodiscard]] Likelihood likelihood_of(const Call& call) const;

  const Scene& scene_;
  const Position& position_;
  Value value_;
  std::uint64_t seed_;
  std::uint64_t next_ = 0;
  std::vector<Played> played_;
  std::vector<Sample> samples_;
};

}  // namespace ahead::coach
