#pragma once

#include <array>
#include <memory>
#include <vector>

#include "coach/plan/glance.h"
#include "coach/plan/grid.h"
#include "coach/pots/prospect.h"

/// How good is each place of the cue ball for each set of balls left?
///
/// V(S, p): the chance of clearing the set S (and then the black) with the cue ball at p and the
/// other balls where they stand. It is worked out backwards from the black over a grid of places:
/// each place's strikes are simulated once without error and kept, with their pot chance and
/// landing; every V(S, .) is then a sum over stored outcomes,
///   V(S, p) = max over strikes of pot x mean of V(S without the ball, landing +- its drift).
/// It guides the search and prices leaves. Chances that are shown are played out instead.
///
/// Source: Bellman's recursion over subsets (Held and Karp, 1962).
namespace ahead::coach {

class ValueField {
 public:
  /// Simulates some thousand strikes, on as many threads as the caller's arena allows. The answer
  /// does not depend on their number. The glance is one of the same table and player; `ways` are
  /// those of all balls that are to be cleared.
  ValueField(const Scene& scene, const Position& position, Grid grid,
             std::shared_ptr<const Glance> glance, std::vector<Way> ways);
  /// With ways measured closely.
  ValueField(const Scene& scene, const Position& position, Grid grid,
             std::shared_ptr<const Glance> glance);

  /// Between the grid's places, in proportion. `left` are balls present, of which own and black
  /// count.
  [[nodiscard]] double value(BallSet left, engine::Vec2 cue) const;

  /// Of a position that a shot from the field's own has left: balls that it has moved count with
  /// their ease.
  [[nodiscard]] double value_of(const Scene& scene, const Position& position) const {
    return value_along(scene, position, {});
  }
  /// The mean of there and of the cue ball's places `run` further and as far short. What is in
  /// sight is looked at from the middle.
  [[nodiscard]] double value_along(const Scene& scene, const Position& position,
                                   engine::Vec2 run) const;
  /// The best pot chance for the next ball from here, on the same grid.
  [[nodiscard]] double best_pot(BallSet left, engine::Vec2 cue) const;
  /// The same of a position that a shot has left: by a glance where balls have moved.
  [[nodiscard]] double best_pot_of(const Scene& scene, const Position& position) const;

  /// What the nearest places would play: ways and touches to try from `cue`.
  struct Hint {
    int way = 0;  ///< of ways()
    Touch touch;
    double worth = 0;  ///< from the nearest place that holds most of it
  };
  /// At most `most` of them, in falling order of worth.
  [[nodiscard]] std::vector<Hint> hints(BallSet left, engine::Vec2 cue, std::size_t most) const;

  /// The position that the field was made for, and each ball's ways in it.
  [[nodiscard]] const Position& position() const { return position_; }
  [[nodiscard]] Grid grid() const { return grid_; }
  [[nodiscard]] const std::shared_ptr<const Glance>& glance() const { return glance_; }
  [[nodiscard]] const std::vector<Way>& ways() const { return ways_; }
  /// Share of the cue ball's places from which `ball` goes as it lies, once balls that may go
  /// before it have gone; 0 for a ball that is not to be cleared.
  [[nodiscard]] double goes_from(int ball) const {
    return goes_from_[static_cast<std::size_t>(ball)];
  }
  /// Own balls that go from next to nowhere as they lie.
  [[nodiscard]] BallSet stuck() const { return stuck_; }
  [[nodiscard]] long simulated_shots() const { return simulated_shots_; }

 private:
  /// A ball that a shot has moved, with its ease at its new place.
  struct Shifted {
    int ball = 0;
    double ease = 0;
  };
  /// A strike from a place, as kept.
  struct Outcome {
    int way = 0;
    Touch touch;
    double pot = 0;
    engine::Vec2 landing;
    engine::Vec2 drift;
    BallSet blockers = 0;          ///< balls that must have gone for it to be possible
    std::vector<Shifted> shifted;  ///< balls that it moves
  };
  /// What is best at a place for one set of balls.
  struct Best {
    double value = 0;
    double pot = 0;
    int outcome = -1;
  };
  struct Corner {
    std::size_t place;
    double weight;
  };

  [[nodiscard]] std::vector<Outcome> outcomes_at(const Scene& scene, engine::Vec2 place) const;
  [[nodiscard]] Best best_of(const std::vector<Outcome>& outcomes, BallSet left) const;
  [[nodiscard]] std::vector<double> find_shares() const;
  [[nodiscard]] BallSet unlike(const Position& position) const;
  void work_backwards();
  [[nodiscard]] std::size_t index_of(BallSet left) const;
  [[nodiscard]] std::array<Corner, 4> corners(engine::Vec2 cue) const;
  [[nodiscard]] double worth(const Outcome& outcome, BallSet left) const;

  Task task_;
  std::shared_ptr<const Glance> glance_;
  Position position_;
  std::vector<Way> ways_;
  std::vector<double> goes_from_;  ///< [ball]
  BallSet stuck_ = 0;
  std::vector<int> own_;  ///< own balls, as bits of a set's index
  Grid grid_;
  engine::Vec2 first_;
  engine::Vec2 spacing_;
  std::vector<bool> usable_;
  std::vector<std::vector<Outcome>> outcomes_;  ///< one list a place
  std::vector<std::vector<Best>> best_;         ///< [set][place]
  long simulated_shots_ = 0;
};

}  // namespace ahead::coach
