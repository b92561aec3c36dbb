#include "coach/pots/prospect.h"

#include <algorithm>
#include <cmath>

namespace ahead::coach {
namespace {

using engine::Vec2;

/// Distance that the cue ball runs from its first meeting with a ball to rest, m.
double run_after_contact_m(const engine::Shot& shot) {
  double from_s = 0;
  for (const engine::Event& event : shot.events) {
    const bool meets =
        event.kind == engine::EventKind::ball_ball || event.kind == engine::EventKind::group;
    if (meets && event.ball == 0) {
      from_s = event.t_s;
      break;
    }
  }
  double run_m = 0;
  for (const engine::Stretch& stretch : shot.stretches) {
    if (stretch.ball != 0 || stretch.t0_s < from_s) continue;
    const double speed = engine::norm(engine::plan(stretch.start.velocity));
    run_m += 0.5 * speed * (stretch.t1_s - stretch.t0_s);
  }
  return run_m;
}

Vec2 last_direction(const engine::Shot& shot) {
  Vec2 along;
  for (const engine::Stretch& stretch : shot.stretches) {
    const Vec2 v = engine::plan(stretch.start.velocity);
    if (stretch.ball == 0 && engine::norm(v) > 0.01) along = engine::unit(v);
  }
  return along;
}

}  // namespace

Call call_of(const Prospect& prospect) {
  return {.ball = prospect.ball,
          .pocket = prospect.pocket,
          .strike = prospect.strike,
          .access = prospect.access};
}

std::optional<AimedCall> aimed_call(const Scene& scene, const Position& position, const Way& way,
                                    const Touch& touch) {
  const engine::Table& table = scene.field.table();
  const Vec2 cue = position.at[0];
  const Vec2 object = position.at[static_cast<std::size_t>(way.ball)];
  engine::Strike strike{
      .side = touch.side, .height = touch.height, .cue_speed_mps = touch.cue_speed_mps};
  if (engine::miscues(strike, table.cue)) return std::nullopt;
  // Elevation hangs on the aim, and the aim a little on the elevation: from the ghost ball's line.
  auto aimed = aim_through(table, cue, object, way.gates, strike);
  if (!aimed) return std::nullopt;
  strike.aim_rad = aimed->aim.strike.aim_rad;
  const Access reached = access(scene, position, strike);
  if (!recommended(reached)) return std::nullopt;
  strike.elevation_rad = reached.elevation_rad;
  // Without side a slightly raised butt changes next to nothing: the aim stays.
  constexpr double slightly_rad = 0.05;
  if (touch.side == 0 && reached.elevation_rad < slightly_rad) {
    aimed->aim.strike.elevation_rad = reached.elevation_rad;
  } else {
    aimed = aim_through(table, cue, object, way.gates, strike, strike.aim_rad);
    if (!aimed) return std::nullopt;
  }
  return AimedCall{.call = {.ball = way.ball,
                            .pocket = way.pocket,
                            .strike = aimed->aim.strike,
                            .access = reached},
                   .aim = aimed->aim};
}

std::optional<Prospect> prospect_of(const Scene& scene, const Position& position, const Way& way,
                                    const Touch& touch) {
  const auto aimed = aimed_call(scene, position, way, touch);
  if (!aimed) return std::nullopt;
  const double pot = pot_chance(scene, position, way, aimed->aim, aimed->call.access.error_factor);
  return prospect_of(scene, position, aimed->call, pot);
}

std::optional<Prospect> prospect_of(const Scene& scene, const Position& position, const Call& call,
                                    double pot) {
  if (pot < hopeless_pot) return std::nullopt;
  Prospect prospect{.ball = call.ball,
                    .pocket = call.pocket,
                    .strike = call.strike,
                    .access = call.access,
                    .pot = pot};
  const Played as_meant = play(scene.field, position, prospect.strike);
  const Verdict verdict =
      judge(scene.task, as_meant.shot, as_meant.indices, position.present, call.ball, call.pocket);
  if (verdict != Verdict::goes_on && verdict != Verdict::cleared) return std::nullopt;
  prospect.leaves = after(position, as_meant);
  if (has(prospect.leaves.present, call.ball)) return std::nullopt;
  prospect.touched = moved(position, prospect.leaves);
  // Distance goes as the square of speed.
  const double run_m = run_after_contact_m(as_meant.shot);
  prospect.drift =
      std::min(0.5, 2 * scene.player.pace.sigma * run_m) * last_direction(as_meant.shot);
  return prospect;
}

}  // namespace ahead::coach
