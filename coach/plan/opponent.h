#pragma once

#include <memory>
#include <vector>

#include "coach/plan/value_field.h"

/// What the opponent can make of the balls that a shot leaves.
///
/// The opponent is taken to play like this player. Their chance of clearing is the value field's
/// guide, worked out for their balls, so it compares leaves; it is no chance that was played out.
namespace ahead::coach {

class Opponent {
 public:
  /// `scene` and `position` are the player's, `layout` the one that they come from: on its open
  /// table the opponent may take either colour. Goes on with the glance of the player's field.
  Opponent(const Layout& layout, const Scene& scene, const Position& position,
           const std::shared_ptr<const Glance>& glance);

  /// Chance of clearing from where a shot of the player has left the balls, 0 to 1.
  [[nodiscard]] double clears(const Position& position) const;

  /// The same after a foul: two visits, with the cue ball where it lies or, when it was potted, at
  /// the best of some places in baulk (a simplification: docs/rules.md has each set's words).
  [[nodiscard]] double clears_after_foul(const Position& position, bool in_hand) const;

  /// The best direct pot from there, 0 to 1.
  [[nodiscard]] double best_pot(const Position& position) const;

 private:
  struct Side {
    Scene scene;
    ValueField field;
  };
  std::vector<Side> sides_;  ///< the colours that the opponent may play
};

}  // namespace ahead::coach
