#include "coach/access/least_elevation.h"

namespace ahead::coach {

Clearance least_elevation(const Behind& behind, const CueLine& line, double object_ball_radius_m) {
  Clearance least;
  for (const Behind::SeenEdge& edge : behind.edges) {
    const double over = elevation_over_edge(line, edge.from, edge.to, edge.z_m);
    if (over <= least.elevation_rad) continue;
    least = {.elevation_rad = over,
             .by = edge.kind == EdgeKind::nose ? InTheWay::cushion : InTheWay::rail};
  }
  for (const Behind::Ball& ball : behind.balls) {
    const double over =
        elevation_over_ball(line, {ball.at.x, ball.at.y, object_ball_radius_m - line.ball_radius_m},
                            object_ball_radius_m);
    if (over <= least.elevation_rad) continue;
    least = {.elevation_rad = over, .by = InTheWay::ball, .ball = ball.ball};
  }
  return least;
}

}  // namespace ahead::coach
