#include "tests/laws/seeded_shot.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string_view>

#include "engine/equipment/presets.h"
#include "engine/simulate/stretch.h"
#include "tests/support/dice.h"

namespace ahead::test {
namespace {

using engine::Playfield;
using engine::Table;
using engine::Vec2;
constexpr double pi = std::numbers::pi;

/// Far less than any gap that matters, so that balls said to touch never overlap by round-off.
constexpr double hair_m = 1e-12;

/// Every preset, with its own cue ball, with a small light one and with a heavy one.
const std::vector<Playfield>& playfields() {
  static const std::vector<Playfield> all = [] {
    std::vector<Playfield> fields;
    for (const std::string_view id : engine::table_preset_ids()) {
      Table table = *engine::table_preset(id);
      fields.emplace_back(table);
      const engine::Ball own = table.cue_ball;
      table.cue_ball = {.radius_m = 0.9 * own.radius_m, .mass_kg = 0.729 * own.mass_kg};
      fields.emplace_back(table);
      table.cue_ball = {.radius_m = own.radius_m, .mass_kg = 1.2 * own.mass_kg};
      fields.emplace_back(table);
    }
    return fields;
  }();
  return all;
}

/// What the places of a layout have in common.
enum class Style { scattered, crowded, pack, in_jaws, at_cushions, touching_cue_ball };

class Layouts {
 public:
  Layouts(Dice& dice, const Playfield& field) : dice_(dice), field_(field) {}

  std::vector<Vec2> draw(Style style, int count) {
    if (style == Style::pack) add_pack(count);
    // A place that is taken is drawn again; a full table ends up with fewer balls.
    for (int tries = 0; tries < 8 * count && std::ssize(balls_) < count; ++tries) {
      add(dice_.whole(0, 1) == 0 ? anywhere() : place(style));
    }
    return balls_;
  }

 private:
  [[nodiscard]] const Table& table() const { return field_.table(); }
  [[nodiscard]] double radius_m(std::size_t ball) const {
    return engine::ball_of(table(), static_cast<int>(ball)).radius_m;
  }
  /// Seen from above, between the centres of two balls on the bed that touch.
  [[nodiscard]] double touching_m(std::size_t a, std::size_t b) const {
    return 2 * std::sqrt(radius_m(a) * radius_m(b));
  }
  [[nodiscard]] double reach_m() const {
    return field_.runner(static_cast<int>(balls_.size())).reach_m;
  }

  Vec2 anywhere() {
    return {dice_.between(0, table().width_m), dice_.between(0, table().length_m)};
  }

  Vec2 at_cushion() {
    Vec2 place = anywhere();
    const double off_m = reach_m() + (dice_.whole(0, 1) == 0 ? hair_m : dice_.between(0, 0.01));
    if (dice_.whole(0, 1) == 0) {
      place.x = dice_.whole(0, 1) == 0 ? off_m : table().width_m - off_m;
    } else {
      place.y = dice_.whole(0, 1) == 0 ? off_m : table().length_m - off_m;
    }
    return place;
  }

  Vec2 in_jaws() {
    const engine::Pocket& pocket = table().pockets[static_cast<std::size_t>(dice_.whole(0, 5))];
    const double way_m = pocket.fall_radius_m + dice_.between(0, 2.5) * radius_m(1);
    return pocket.centre + way_m * engine::direction(dice_.between(-pi, pi));
  }

  Vec2 beside(std::size_t ball) {
    const double gap_m = dice_.whole(0, 1) == 0 ? hair_m : dice_.between(0, 0.003);
    // Whole sixths of a turn let rows and triangles of touching balls grow.
    const double turn = dice_.whole(0, 1) == 0 ? dice_.whole(0, 5) / 6.0 : dice_.between(0, 1);
    return balls_[ball] +
           (touching_m(ball, balls_.size()) + gap_m) * engine::direction(2 * pi * turn);
  }

  Vec2 place(Style style) {
    if (style == Style::in_jaws) return in_jaws();
    if (style == Style::at_cushions) return at_cushion();
    if (balls_.empty() || style == Style::scattered) return anywhere();
    const int last = static_cast<int>(balls_.size()) - 1;
    return beside(style == Style::crowded ? static_cast<std::size_t>(dice_.whole(0, last)) : 0);
  }

  /// The triangle at the spot, tight or a hair loose, and the cue ball before it.
  void add_pack(int count) {
    const Vec2 spot = table().markings.spot;
    add({spot.x + dice_.between(-0.2, 0.2), dice_.between(0.1, 0.5) * spot.y});
    const double pitch_m =
        2 * radius_m(1) + (dice_.whole(0, 1) == 0 ? hair_m : dice_.between(0, 5e-4));
    for (int row = 0; std::ssize(balls_) < count; ++row) {
      for (int i = 0; i <= row && std::ssize(balls_) < count; ++i) {
        add(spot + pitch_m * Vec2{i - 0.5 * row, std::sqrt(0.75) * row});
      }
      if (row == 4) return;
    }
  }

  void add(Vec2 place) {
    if (place.x <= 0 || place.x >= table().width_m || place.y <= 0 || place.y >= table().length_m) {
      return;
    }
    for (std::size_t i = 0; i < balls_.size(); ++i) {
      if (norm(balls_[i] - place) < touching_m(i, balls_.size())) return;
    }
    const bool in_a_fall = std::ranges::any_of(table().pockets, [&](const auto& pocket) {
      return norm(place - pocket.centre) < pocket.fall_radius_m;
    });
    if (in_a_fall || norm(engine::nearest_on(field_.nose(), place) - place) < reach_m()) return;
    balls_.push_back(place);
  }

  Dice& dice_;
  const Playfield& field_;
  std::vector<Vec2> balls_;
};

double any_elevation_rad(Dice& dice) {
  switch (dice.whole(0, 5)) {
    case 0:
    case 1:
      return dice.between(0, pi / 4);
    case 2:
      return dice.between(0, 0.99 * pi / 2);
    default:
      return 0;
  }
}

double any_cue_speed_mps(Dice& dice) {
  switch (dice.whole(0, 9)) {
    case 0:
      return dice.between(1e-6, 0.15);
    case 1:
      return dice.between(4.3, 15);
    default:
      return dice.between(0.15, 4.3);
  }
}

engine::Strike any_strike(Dice& dice, const Table& table, const std::vector<Vec2>& balls) {
  const double off = table.cue.miscue_offset * std::sqrt(dice.between(0, 1));
  const double where = dice.between(0, 2 * pi);
  engine::Strike strike{.aim_rad = dice.between(-pi, pi),
                        .elevation_rad = any_elevation_rad(dice),
                        .side = off * std::cos(where),
                        .height = off * std::sin(where),
                        .cue_speed_mps = any_cue_speed_mps(dice)};
  if (balls.size() > 1 && dice.whole(0, 2) != 0) {
    const int last = static_cast<int>(balls.size()) - 1;
    const Vec2 line = balls[static_cast<std::size_t>(dice.whole(1, last))] - balls[0];
    const double window_rad = std::min(1.0, 0.06 / norm(line));
    strike.aim_rad = angle_rad(line) + dice.between(-window_rad, window_rad);
  }
  return strike;
}

}  // namespace

SeededShot seeded_shot(std::uint64_t seed) {
  Dice dice(seed);
  const auto& fields = playfields();
  SeededShot shot;
  shot.field =
      &fields[static_cast<std::size_t>(dice.whole(0, static_cast<int>(fields.size()) - 1))];
  const auto style = static_cast<Style>(dice.whole(0, 5));
  const int count = std::min(dice.whole(1, 16), dice.whole(1, 16));
  while (shot.balls.empty()) shot.balls = Layouts(dice, *shot.field).draw(style, count);
  shot.strike = any_strike(dice, shot.field->table(), shot.balls);
  shot.mirror_ends = dice.whole(0, 1) == 0;
  shot.cut_share = dice.between(0, 1);
  return shot;
}

}  // namespace ahead::test
