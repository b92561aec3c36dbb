#pragma once

#include <array>
#include <limits>
#include <optional>

#include "coach/access/bridge.h"
#include "coach/access/least_elevation.h"
#include "coach/scene.h"

/// Can the player make this strike, with which hand and bridge, how far must the butt come up, and
/// what does it cost in accuracy?
///
/// Every place for the bridge on the cue's line is asked, with the player's own hand, the other
/// hand, and the rests: is there room, can the body be where it must, and can the bridge hold the
/// cue at the height that clears what is behind the cue ball? Of those that can, the one with the
/// least error is taken. Model, figures and limits: docs/access.md.
namespace ahead::coach {

/// Why a strike cannot be made, or not with the player's own hand.
enum class Blocked {
  cue_meets_ball,     ///< even the steepest cue would touch the ball
  cue_meets_cushion,  ///< the same of a cushion or the rail
  no_room,            ///< a ball, a pocket or the table's end is where the bridge would stand
  too_far,            ///< the bridge is out of reach with a foot on the floor
  bridge_too_low,     ///< no bridge is high enough to clear what is behind the cue ball
  butt_too_high       ///< the butt cannot be held that high
};

struct Reason {
  Blocked why{};
  int ball = 0;  ///< of the layout; 0 when it is not a ball's doing

  friend bool operator==(const Reason&, const Reason&) = default;
};

struct Access {
  std::optional<Reason> blocked;
  double elevation_rad = 0;                ///< least; without meaning when blocked
  InTheWay raised_by = InTheWay::nothing;  ///< what asks for the elevation, when not the bridge
  int raised_by_ball = 0;
  Support support{};
  Hand hand{};
  double bridge_m = 0;      ///< from the cue ball's centre to the bridge, in plan
  double stretch = 0;       ///< 0 in easy reach, 1 at the end of it
  double error_factor = 1;  ///< on direction and tip errors; the raised butt's own comes on top
  std::optional<Reason> not_own_hand;  ///< why a rest or the other hand is used

  friend bool operator==(const Access&, const Access&) = default;
};

/// Butts raised beyond this are not recommended, rad (30 degrees: above, cloth is at risk). Common
/// practice, no source.
inline constexpr double highest_elevation_rad = 0.5236;

/// Whether a plan may offer the strike.
[[nodiscard]] bool recommended(const Access& access);

/// All strikes along one aim: what stands behind the cue ball is gathered once.
class Approach {
 public:
  /// `scene` must outlive it.
  Approach(const Scene& scene, const Position& position, double aim_rad);

  /// For a touch at `side` and `height` of the radius, within the cue's miscue limit.
  [[nodiscard]] Access at(double side, double height);

 private:
  /// Bridge lengths that are tried, the comfortable ones first (common practice, no source).
  static constexpr std::array lengths_m{0.25, 0.23, 0.27, 0.21, 0.29,  0.19, 0.31,
                                        0.17, 0.15, 0.13, 0.11, 0.095, 0.08};

  struct Search;
  [[nodiscard]] double reach_needed(std::size_t length, Hand hand);
  void try_hand(Search& search, Hand hand);
  void try_rest(Search& search, Posture posture) const;

  const Scene& scene_;
  Behind behind_;
  /// By hand and length; negative while not asked. The cue's shift to a side is neglected.
  std::array<std::array<double, lengths_m.size()>, 2> reach_needed_{};
};

[[nodiscard]] Access access(const Scene& scene, const Position& position,
                            const engine::Strike& strike);

}  // namespace ahead::coach
