#pragma once

#include <span>
#include <vector>

#include "coach/access/table_edges.h"
#include "coach/position.h"

/// What stands behind the cue ball on one aim, near enough to matter to the cue or the hand.
namespace ahead::coach {

/// Places seen from the cue ball: x back along the aim, y to the player's right.
struct AimFrame {
  engine::Vec2 origin;
  engine::Vec2 back;
  engine::Vec2 right;

  [[nodiscard]] engine::Vec2 seen(engine::Vec2 at) const {
    return {engine::dot(at - origin, back), engine::dot(at - origin, right)};
  }
  [[nodiscard]] engine::Vec2 on_table(engine::Vec2 seen_at) const {
    return origin + seen_at.x * back + seen_at.y * right;
  }
};

[[nodiscard]] AimFrame aim_frame(engine::Vec2 cue_ball, double aim_rad);

struct Behind {
  struct Ball {
    engine::Vec2 at;  ///< seen
    int ball = 0;
  };
  struct SeenEdge {
    engine::Vec2 from;  ///< seen
    engine::Vec2 to;
    double z_m = 0;  ///< over the cue ball's centre
    EdgeKind kind{};
  };
  AimFrame frame;
  std::vector<Ball> balls;
  std::vector<SeenEdge> edges;
};

[[nodiscard]] Behind behind(const engine::Table& table, std::span<const Edge> edges,
                            const Position& position, double aim_rad);

}  // namespace ahead::coach
