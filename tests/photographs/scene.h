#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "engine/equipment/table.h"

/// A table with balls on it, lamps over it, things about it and a camera before it, all drawn from
/// one number: what the test photographs are rendered from.
namespace ahead::photographs {

using engine::Vec2;
using engine::Vec3;

struct Tint {
  double red = 0, green = 0, blue = 0;
};

struct SceneBall {
  std::string id;
  Vec2 at;
  double radius_m = 0;
  Tint tint;
  bool striped = false;
  Vec3 turn_deg;  ///< how it has rolled
};

/// An ideal lens bent by two terms: a point seen at (x, y), r from the axis, lands at
/// (1 + k1 r^2 + k2 r^4) (x, y). Written apart from capture/camera, which it judges.
struct Lens {
  double focal_px = 0, k1 = 0, k2 = 0;
};

struct Eye {
  Vec3 at;
  Vec3 right, down, forward;
};

struct Lamp {
  Vec3 at;
  Vec2 size_m;
  Tint tint;
};

struct Scene {
  std::string name;
  engine::Table table;
  std::vector<SceneBall> balls;
  Tint cloth;
  Tint wood;
  std::vector<Lamp> lamps;
  double ambient = 0.15;
  double mirror = 0;  ///< how much the balls mirror the room
  bool markings = true;
  bool cue = false, hand = false, chalk = false, chalk_on_bed = false, person = false,
       paper = false;
  double cushion_m = 0.045, cushion_rise_m = 0.004;  ///< from the nose back to the wood, and up
  int width_px = 0, height_px = 0;
  Lens lens;
  Eye eye;
  double noise = 2;     ///< of the sensor, in 255ths
  double vignette = 0;  ///< darkening of the picture's corners
  int jpeg_quality = 82;
  std::uint64_t seed = 1;
};

[[nodiscard]] Scene drawn_scene(std::uint64_t seed, int number, int width_px, int height_px);

/// Where the bent lens shows a table point.
[[nodiscard]] Vec2 seen_at(const Scene& scene, Vec3 point);
/// The nose lines' four crossings, against the clock from the bottom left.
[[nodiscard]] std::array<Vec3, 4> corners_of(const engine::Table& table);

}  // namespace ahead::photographs
