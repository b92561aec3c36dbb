#include "tests/photographs/scene.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "coach/random.h"
#include "engine/equipment/presets.h"

namespace ahead::photographs {
namespace {

constexpr double pi = std::numbers::pi;

/// What the scene is drawn with.
class Dice {
 public:
  Dice(std::uint64_t seed, std::uint64_t stream) : random_(seed, stream) {}
  double between(double least, double most) { return least + (most - least) * random_.uniform(); }
  int below(int count) { return static_cast<int>(random_.uniform() * count); }
  bool once_in(int count) { return below(count) == 0; }

 private:
  coach::Random random_;
};

constexpr std::array<Tint, 8> cloths{{{0.02, 0.22, 0.10},    // green
                                      {0.02, 0.10, 0.36},    // blue
                                      {0.03, 0.28, 0.34},    // petrol
                                      {0.25, 0.02, 0.05},    // burgundy
                                      {0.16, 0.16, 0.18},    // grey
                                      {0.10, 0.03, 0.20},    // purple
                                      {0.03, 0.03, 0.035},   // black
                                      {0.28, 0.20, 0.10}}};  // camel

const std::array<Tint, 7> numbered{{{0.85, 0.60, 0.02},    // 1 yellow
                                    {0.02, 0.06, 0.45},    // 2 blue
                                    {0.70, 0.03, 0.02},    // 3 red
                                    {0.16, 0.02, 0.25},    // 4 purple
                                    {0.80, 0.25, 0.02},    // 5 orange
                                    {0.01, 0.25, 0.08},    // 6 green
                                    {0.28, 0.02, 0.03}}};  // 7 maroon

bool free_at(const Scene& scene, Vec2 at, double radius_m, double gap_m) {
  const engine::Table& table = scene.table;
  if (at.x < radius_m || at.x > table.width_m - radius_m || at.y < radius_m ||
      at.y > table.length_m - radius_m) {
    return false;
  }
  for (const engine::Pocket& pocket : table.pockets) {
    if (norm(at - pocket.centre) < pocket.fall_radius_m + 1.5 * radius_m) return false;
  }
  return std::ranges::all_of(scene.balls, [&](const SceneBall& ball) {
    return norm(at - ball.at) >= ball.radius_m + radius_m + gap_m;
  });
}

Vec2 place_for(const Scene& scene, double radius_m, Dice& dice) {
  const engine::Table& table = scene.table;
  for (int i = 0; i < 2000; ++i) {
    Vec2 at{dice.between(radius_m, table.width_m - radius_m),
            dice.between(radius_m, table.length_m - radius_m)};
    double gap_m = 0.004;
    const int kind = dice.below(10);
    if (kind == 0) {  // frozen to a cushion
      (dice.once_in(2) ? at.x : at.y) = radius_m;
      if (dice.once_in(2)) at = {table.width_m - at.x, table.length_m - at.y};
    } else if (kind <= 2 && !scene.balls.empty()) {  // touching another ball, or all but
      const SceneBall& other =
          scene.balls[static_cast<std::size_t>(dice.below(static_cast<int>(scene.balls.size())))];
      const double apart = dice.once_in(2) ? 0 : dice.between(0, 0.02);
      at = other.at +
           (other.radius_m + radius_m + apart) * engine::direction(dice.between(0, 2 * pi));
      gap_m = -1e-9;
    } else if (kind == 3 && !scene.balls.empty()) {  // behind another, as the camera sees it
      const SceneBall& other =
          scene.balls[static_cast<std::size_t>(dice.below(static_cast<int>(scene.balls.size())))];
      const Vec2 away = unit(other.at - plan(scene.eye.at));
      at = other.at + dice.between(2.1, 4.5) * radius_m * away +
           dice.between(-0.8, 0.8) * radius_m * left_of(away);
      gap_m = 1e-4;
    }
    if (free_at(scene, at, radius_m, gap_m)) return at;
  }
  return {table.width_m / 2, table.length_m / 2};
}

void add_ball(Scene& scene, std::string id, Tint tint, bool striped, Dice& dice) {
  const bool cue = id == "cue";
  const double radius_m = (cue ? scene.table.cue_ball : scene.table.object_ball).radius_m;
  const Vec2 at = place_for(scene, radius_m, dice);
  if (!free_at(scene, at, radius_m, -1e-9)) return;
  scene.balls.push_back(
      {.id = std::move(id),
       .at = at,
       .radius_m = radius_m,
       .tint = tint,
       .striped = striped,
       .turn_deg = {dice.between(0, 360), dice.between(0, 360), dice.between(0, 360)}});
}

void add_balls(Scene& scene, Dice& dice) {
  const bool american = scene.table.id.starts_with("american");
  add_ball(scene, "cue", {0.80, 0.77, 0.70}, false, dice);
  add_ball(scene, "black", {0.012, 0.012, 0.013}, false, dice);
  for (int i = 0; i < 7; ++i) {
    const std::string number = std::to_string(i + 1);
    const auto shade = static_cast<std::size_t>(i);
    const int missing = dice.below(4);
    if (american) {
      if (missing != 0) add_ball(scene, "solid-" + number, numbered[shade], false, dice);
      if (missing != 1) add_ball(scene, "stripe-" + number, numbered[shade], true, dice);
    } else {
      if (missing != 0) add_ball(scene, "red-" + number, {0.55, 0.015, 0.02}, false, dice);
      if (missing != 1) add_ball(scene, "yellow-" + number, {0.80, 0.52, 0.02}, false, dice);
    }
  }
}

/// Stands the camera where a person or a stand would, far enough off to see all four corners.
void stand_camera(Scene& scene, Dice& dice) {
  const engine::Table& table = scene.table;
  const Vec2 middle{table.width_m / 2, table.length_m / 2};
  const double angle = dice.once_in(3) ? dice.between(0, 2 * pi)             // anywhere
                                       : -pi / 2 + dice.between(-0.6, 0.6);  // at the baulk end
  const double raised = dice.between(26, 62) * pi / 180;
  const double field = dice.between(50, 78) * pi / 180;  // across the picture
  scene.lens = {.focal_px = scene.width_px / 2.0 / std::tan(field / 2),
                .k1 = dice.between(-0.18, 0.05),
                .k2 = dice.between(-0.01, 0.02)};
  const Vec3 out{std::cos(angle) * std::cos(raised), std::sin(angle) * std::cos(raised),
                 std::sin(raised)};
  const double roll = dice.between(-0.05, 0.05);
  const Vec3 aim =
      engine::lift(middle) + Vec3{dice.between(-0.08, 0.08), dice.between(-0.1, 0.1), 0};
  for (double distance = 0.8; distance < 6; distance += 0.02) {
    Eye& eye = scene.eye;
    eye.at = engine::lift(middle) + distance * out;
    eye.forward = unit(aim - eye.at);
    const Vec3 level = unit(cross(eye.forward, Vec3{0, 0, 1}));
    const Vec3 sunk = cross(eye.forward, level);
    eye.right = std::cos(roll) * level + std::sin(roll) * sunk;
    eye.down = cross(eye.forward, eye.right);
    bool all = true;
    const double edge = 0.02 * scene.width_px;
    for (const Vec3 corner : corners_of(table)) {
      const Vec3 to = corner - eye.at;
      const double deep = dot(to, eye.forward);
      const double r = norm(Vec2{dot(to, eye.right), dot(to, eye.down)}) / deep;
      // Behind the camera, or where the lens's formula folds back.
      if (deep < 0.1 || 1 + 3 * scene.lens.k1 * r * r + 5 * scene.lens.k2 * std::pow(r, 4) < 0.4) {
        all = false;
        continue;
      }
      const Vec2 at = seen_at(scene, corner);
      all = all && at.x > edge && at.x < scene.width_px - edge && at.y > edge &&
            at.y < scene.height_px - edge;
    }
    if (all) return;
  }
}

void hang_lamps(Scene& scene, Dice& dice) {
  const engine::Table& table = scene.table;
  const double warm = dice.between(0, 0.25);
  const Tint tint{1.0, 1.0 - 0.4 * warm, 1.0 - 1.2 * warm};
  const auto dimmed = [&](double by) {
    return Tint{by * tint.red, by * tint.green, by * tint.blue};
  };
  switch (dice.below(3)) {
    case 0:  // three shades in a row over the table
      for (const double share : {0.2, 0.5, 0.8}) {
        scene.lamps.push_back({.at = {table.width_m / 2, share * table.length_m, 0.95},
                               .size_m = {0.3, 0.3},
                               .tint = dimmed(0.42)});
      }
      break;
    case 1:  // one long box
      scene.lamps.push_back({.at = {table.width_m / 2, table.length_m / 2, 1.1},
                             .size_m = {0.3, 1.2},
                             .tint = dimmed(1.1)});
      break;
    default:  // lamps of the room, off to the sides
      scene.lamps.push_back(
          {.at = {-0.9, 0.3 * table.length_m, 1.7}, .size_m = {0.5, 0.5}, .tint = dimmed(0.6)});
      scene.lamps.push_back({.at = {table.width_m + 1.1, table.length_m, 1.7},
                             .size_m = {0.5, 0.5},
                             .tint = dimmed(0.55)});
      break;
  }
  scene.ambient = dice.between(0.10, 0.30);
}

}  // namespace

std::array<Vec3, 4> corners_of(const engine::Table& table) {
  const double h = table.nose_height_m;
  return {Vec3{0, 0, h}, Vec3{table.width_m, 0, h}, Vec3{table.width_m, table.length_m, h},
          Vec3{0, table.length_m, h}};
}

Vec2 seen_at(const Scene& scene, Vec3 point) {
  const Vec3 to = point - scene.eye.at;
  const double deep = dot(to, scene.eye.forward);
  const Vec2 flat{dot(to, scene.eye.right) / deep, dot(to, scene.eye.down) / deep};
  const double r2 = dot(flat, flat);
  const double bend = 1 + scene.lens.k1 * r2 + scene.lens.k2 * r2 * r2;
  return Vec2{(scene.width_px - 1) / 2.0, (scene.height_px - 1) / 2.0} +
         scene.lens.focal_px * bend * flat;
}

Scene drawn_scene(std::uint64_t seed, int number, int width_px, int height_px) {
  Dice dice(seed, static_cast<std::uint64_t>(number) + 1);
  Scene scene;
  scene.seed = seed * 1000 + static_cast<std::uint64_t>(number);
  scene.name = (number < 10 ? "0" : "") + std::to_string(number);
  // Every fifth table is American; cloths take turns, so that each colour occurs.
  constexpr std::array<std::string_view, 5> tables{"english-7ft", "english-7ft", "english-8ft",
                                                   "english-7ft-match", "american-8ft"};
  scene.table = *engine::table_preset(tables[static_cast<std::size_t>(number) % tables.size()]);
  scene.cloth = cloths[static_cast<std::size_t>(number) % cloths.size()];
  scene.wood = dice.once_in(3) ? Tint{0.06, 0.05, 0.05} : Tint{0.30, 0.14, 0.06};
  scene.width_px = width_px;
  scene.height_px = height_px;
  stand_camera(scene, dice);
  hang_lamps(scene, dice);
  add_balls(scene, dice);
  scene.mirror = dice.between(0, 0.12);
  scene.markings = !dice.once_in(4);
  scene.cue = dice.once_in(3);
  scene.hand = scene.cue && dice.once_in(2);
  scene.chalk = dice.once_in(2);
  scene.chalk_on_bed = dice.once_in(5);
  scene.person = dice.once_in(3);
  scene.paper = dice.once_in(4);
  scene.noise = dice.between(1, 4);
  scene.vignette = dice.between(0, 0.3);
  scene.cushion_m = dice.between(0.036, 0.058);
  scene.cushion_rise_m = dice.between(0, 0.008);
  return scene;
}

}  // namespace ahead::photographs
