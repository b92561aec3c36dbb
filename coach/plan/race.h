#pragma once

#include <cstdint>
#include <map>
#include <utility>
#include <vector>

#include "coach/plan/effort.h"
#include "coach/plan/value_field.h"
#include "coach/plan/weighed.h"
#include "coach/pots/climb.h"

/// Rivals for one shot, played out with the player's errors against the same draws. The tries of
/// strikes at one ball and pocket tell about each other (risk/shared_tries.h).
namespace ahead::coach {

class Race {
 public:
  /// All must outlive it.
  Race(const Scene& scene, const ValueField& field, const Position& position, std::uint64_t seed)
      : scene_(scene), field_(field), position_(position), seed_(seed) {}

  /// Plays the first of them, and puts these in falling order of worth: rivals that a round has
  /// measured come before those that it has not.
  void run(std::vector<Weighed>& rivals, const Round& round);

  /// What climbs from the best of them come to joins them, in falling order of worth, and with it
  /// the same without side where that is a trace. `ways` are the direct ones; other strikes stay as
  /// they are.
  void climb(std::vector<Weighed>& rivals, const std::vector<Way>& ways, const ClimbCare& care);

  [[nodiscard]] long simulated_shots() const;

 private:
  [[nodiscard]] SharedTries& tries_at(const Prospect& prospect);
  void rank(std::vector<Weighed>& rivals, std::size_t first);

  const Scene& scene_;
  const ValueField& field_;
  const Position& position_;
  std::uint64_t seed_;
  std::map<std::pair<int, int>, SharedTries> tries_;  ///< by ball and pocket
};

/// What a try's leave is worth: 0 unless the visit goes on, else the field's value.
[[nodiscard]] double worth_of(const Scene& scene, const ValueField& field, const Try& one);

}  // namespace ahead::coach
