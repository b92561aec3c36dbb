#pragma once

#include <array>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "engine/equipment/ball.h"
#include "engine/equipment/surfaces.h"
#include "engine/geometry/vec.h"

/// A table: what a file describes and what the simulation runs on.
///
/// Frame: seen from above with the baulk end at the bottom, origin at the bottom-left corner of the
/// playing area (where the lines of the cushion noses meet), x right, y up the table, z up. SI.
namespace ahead::engine {

/// A straight piece of the nose line, seen from above.
struct RailSegment {
  Vec2 from;
  Vec2 to;

  friend bool operator==(const RailSegment&, const RailSegment&) = default;
};

/// A curved piece of the nose line, counter-clockwise from `from_rad` to `to_rad`.
struct RailArc {
  Vec2 centre;
  double radius_m = 0;
  double from_rad = 0;
  double to_rad = 0;

  friend bool operator==(const RailArc&, const RailArc&) = default;
};

using Rail = std::variant<RailSegment, RailArc>;

/// In the order in which every list of pockets is kept.
enum class PocketName { bottom_left, bottom_right, middle_left, middle_right, top_left, top_right };
inline constexpr std::array<std::string_view, 6> pocket_names{
    "bottom-left", "bottom-right", "middle-left", "middle-right", "top-left", "top-right"};

/// A ball is potted while its centre is inside the fall circle and at most 2R above the bed.
struct Pocket {
  PocketName name{};
  Vec2 centre;
  double fall_radius_m = 0;

  friend bool operator==(const Pocket&, const Pocket&) = default;
};

/// Marks on the cloth, for drawing and for the rules. Lengths in metres along y.
struct Markings {
  double baulk_line_m = 0;  ///< height of the baulk line (head string)
  Vec2 spot;                ///< black spot (foot spot)

  friend bool operator==(const Markings&, const Markings&) = default;
};

struct Table {
  std::string id;
  double width_m = 0;        ///< nose to nose, along x
  double length_m = 0;       ///< nose to nose, along y
  double nose_height_m = 0;  ///< of the cushion's nose above the bed
  std::vector<Rail> rails;
  std::vector<Pocket> pockets;
  Ball cue_ball;
  Ball object_ball;
  Cloth cloth;
  BallContact ball_contact;
  Cushion cushion;
  Cue cue;
  Markings markings;
  std::vector<std::string> notes;  ///< which value comes from where, and which is an assumption

  friend bool operator==(const Table&, const Table&) = default;
};

}  // namespace ahead::engine
