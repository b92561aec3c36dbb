#pragma once

#include <variant>
#include <vector>

#include "coach/pots/way.h"

/// Where the cue ball is wanted after the pot, and what a place is worth for it.
/// SI, frame of the table.
namespace ahead::coach {

/// Anywhere in a circle.
struct Leave {
  engine::Vec2 at;
  double radius_m = 0;
};

/// Anywhere inside a closed outline, drawn in order.
struct Region {
  std::vector<engine::Vec2> outline;
};

/// Wherever the next ball can be potted from, the surer the better.
struct NextPot {
  int ball = 0;
  int pocket = 0;
};

using Wanted = std::variant<Leave, Region, NextPot>;

/// What places are worth: 1 or 0 for a circle or a region, the chance of the next pot for a pot.
class Worth {
 public:
  /// `position` holds the balls before the shot; `potted` will be gone. A next pot's chances are
  /// found once for a grid of places and read between them.
  Worth(const Scene& scene, const Position& position, int potted, Wanted wanted);

  [[nodiscard]] double operator()(engine::Vec2 place) const;
  /// How far `place` lies outside, m; 0 inside. A next pot has no outside.
  [[nodiscard]] double off_m(engine::Vec2 place) const;
  [[nodiscard]] const Wanted& wanted() const { return wanted_; }

 private:
  void find_chances(const Scene& scene, const Position& position, int potted, NextPot next);
  [[nodiscard]] double chance_at(engine::Vec2 place) const;

  Wanted wanted_;
  int columns_ = 0;
  int rows_ = 0;
  engine::Vec2 first_;
  engine::Vec2 spacing_;
  std::vector<double> chances_;
};

/// Whether `place` lies inside the outline (ray crossing; an outline of fewer than three corners
/// holds nothing).
[[nodiscard]] bool inside(const Region& region, engine::Vec2 place);

}  // namespace ahead::coach
