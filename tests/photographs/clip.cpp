#include "tests/photographs/clip.h"

#include <cmath>
#include <cstddef>
#include <numbers>
#include <string_view>
#include <vector>

#include "engine/contact/strike.h"
#include "engine/equipment/presets.h"
#include "engine/simulate/simulate.h"
#include "engine/simulate/stretch.h"

namespace ahead::photographs {

Clip filmed_shot() {
  Clip clip{.scene = drawn_scene(7, 2, 800, 600)};
  Scene& scene = clip.scene;
  scene.table = *engine::table_preset("english-7ft");
  scene.cloth = {0.02, 0.22, 0.10};
  scene.cue = scene.hand = scene.chalk_on_bed = scene.paper = false;
  scene.noise = 2;
  for (Lamp& lamp : scene.lamps) lamp.size_m = {};  // quick to render
  scene.balls.clear();
  const auto add = [&](const char* id, Vec2 at, Tint tint) {
    const bool cue = std::string_view(id) == "cue";
    scene.balls.push_back(
        {.id = id,
         .at = at,
         .radius_m = (cue ? scene.table.cue_ball : scene.table.object_ball).radius_m,
         .tint = tint});
  };
  const Tint red{0.55, 0.015, 0.02};
  const Tint yellow{0.80, 0.52, 0.02};
  add("cue", {0.30, 0.45}, {0.80, 0.77, 0.70});
  add("red-1", {0.42, 0.95}, red);
  add("red-2", {0.70, 1.50}, red);
  add("yellow-1", {0.22, 1.35}, yellow);
  add("yellow-2", {0.75, 0.60}, yellow);
  add("black", {0.457, 1.372}, {0.012, 0.012, 0.013});

  std::vector<engine::Vec2> centres;
  for (const SceneBall& ball : scene.balls) centres.push_back(ball.at);
  // A little thinner than full on the red, without side: it goes up the table, the cue ball runs
  // on.
  const engine::Strike strike{.aim_rad = 75.2 * std::numbers::pi / 180, .cue_speed_mps = 1.0};
  clip.shot = engine::simulate(engine::Playfield(scene.table), centres, strike);
  clip.length_s = std::ceil((clip.before_s + clip.shot.still_s + 1) * clip.rate) / clip.rate;
  return clip;
}

Scene scene_at(const Clip& clip, double t_s) {
  Scene scene = clip.scene;
  const double shot_s = t_s - clip.before_s;
  if (shot_s <= 0) return scene;
  scene.balls.clear();
  for (std::size_t i = 0; i < clip.scene.balls.size(); ++i) {
    SceneBall ball = clip.scene.balls[i];
    const engine::Ending& ending = clip.shot.endings[i];
    bool moving = false;
    for (const engine::Stretch& stretch : engine::path_of(clip.shot, static_cast<int>(i))) {
      if (shot_s < stretch.t0_s || shot_s > stretch.t1_s) continue;
      ball.at = plan(engine::state_at(stretch, scene.table, shot_s).position);
      moving = true;
    }
    if (!moving) {
      // Not yet begun, at rest between two moves, or at its end.
      ball.at = clip.scene.balls[i].at;
      for (const engine::Stretch& stretch : engine::path_of(clip.shot, static_cast<int>(i))) {
        if (stretch.t1_s <= shot_s) {
          ball.at = plan(engine::state_at(stretch, scene.table, stretch.t1_s).position);
        }
      }
      const auto path = engine::path_of(clip.shot, static_cast<int>(i));
      if (!ending.on_table() && !path.empty() && shot_s > path.back().t1_s) continue;
    }
    scene.balls.push_back(ball);
  }
  return scene;
}

}  // namespace ahead::photographs
