#include "fuzz/hard_states.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string_view>
#include <utility>

#include <fuzzer/FuzzedDataProvider.h>

#include "engine/contact/strike.h"
#include "engine/equipment/presets.h"
#include "engine/simulate/stretch.h"

namespace ahead::fuzz {
namespace {

using engine::BallState;
using engine::Playfield;
using engine::Table;
using engine::Vec2;
using engine::Vec3;
constexpr double pi = std::numbers::pi;
constexpr double hair_m = 1e-12;
constexpr std::size_t most_balls = 16;

/// Every preset as it is, and slick: what a table's file may ask for and hardly anything stops.
const std::vector<Playfield>& playfields() {
  static const std::vector<Playfield> all = [] {
    std::vector<Playfield> fields;
    for (const std::string_view id : engine::table_preset_ids()) {
      Table table = *engine::table_preset(id);
      fields.emplace_back(table);
      table.cushion = {.restitution = 1, .friction = 0};
      table.ball_contact.restitution = 1;
      table.cloth.bed_restitution = 0.95;
      table.cloth.hop_speed_mps = 0.02;
      fields.emplace_back(table);
    }
    return fields;
  }();
  return all;
}

class States {
 public:
  explicit States(FuzzedDataProvider& bytes) : bytes_(bytes) {
    const auto& fields = playfields();
    state_.field = &fields[bytes.ConsumeIntegralInRange<std::size_t>(0, fields.size() - 1)];
  }

  HardState build() {
    while (state_.balls.size() < most_balls && bytes_.remaining_bytes() > 0) {
      const BallState ball{.position = place()};
      if (fits(ball.position)) state_.balls.push_back(ball);
    }
    // Last, because a ball may be sent at another that comes after it.
    for (std::size_t ball = 0; ball < state_.balls.size(); ++ball) set_going(ball);
    return std::move(state_);
  }

 private:
  enum class Place { anywhere, at_cushion, in_jaws, touching, touching_two, in_air, kMaxValue };
  enum class Going {
    at_rest,
    struck,
    full_on,
    grazing,
    together,
    along_cushion,
    turning,
    hardly,
    huge,
    kMaxValue
  };

  [[nodiscard]] const Table& table() const { return state_.field->table(); }
  [[nodiscard]] const engine::Ball& ball_of(std::size_t ball) const {
    return engine::ball_of(table(), static_cast<int>(ball));
  }
  [[nodiscard]] double radius_m(std::size_t ball) const { return ball_of(ball).radius_m; }
  [[nodiscard]] double reach_m(std::size_t ball) const {
    return state_.field->runner(static_cast<int>(ball)).reach_m;
  }
  /// Seen from above, between the centres of two balls on the bed that touch.
  [[nodiscard]] double touching_m(std::size_t a, std::size_t b) const {
    return 2 * std::sqrt(radius_m(a) * radius_m(b));
  }

  // Two bytes are enough for a number, and leave the fuzzer few bytes to try.
  double between(double low, double high) {
    return low + (high - low) * bytes_.ConsumeIntegral<std::uint16_t>() / 65535.0;
  }
  bool coin() { return bytes_.ConsumeBool(); }
  std::size_t some_ball() {
    return bytes_.ConsumeIntegralInRange<std::size_t>(0, state_.balls.size() - 1);
  }

  Vec2 anywhere() { return {between(0, table().width_m), between(0, table().length_m)}; }

  Vec2 at_cushion() {
    Vec2 place = anywhere();
    const double off_m = reach_m(state_.balls.size()) + (coin() ? hair_m : between(0, 1e-6));
    double& across = coin() ? place.x : place.y;
    const double far_side = &across == &place.x ? table().width_m : table().length_m;
    across = coin() ? off_m : far_side - off_m;
    return place;
  }

  Vec2 in_jaws() {
    const auto& pocket = table().pockets[bytes_.ConsumeIntegralInRange<std::size_t>(0, 5)];
    const double way_m = pocket.fall_radius_m + between(0, 2) * radius_m(1);
    return pocket.centre + way_m * engine::direction(between(-pi, pi));
  }

  Vec2 touching() {
    const std::size_t other = some_ball();
    const double gap_m = coin() ? hair_m : between(0, 0.002);
    return plan(state_.balls[other].position) +
           (touching_m(other, state_.balls.size()) + gap_m) * engine::direction(between(-pi, pi));
  }

  /// In the hollow between two balls, touching both, if they are near enough to each other.
  Vec2 touching_two() {
    const std::size_t a = some_ball();
    const std::size_t b = some_ball();
    const std::size_t own = state_.balls.size();
    const Vec2 from = plan(state_.balls[a].position);
    const Vec2 line = plan(state_.balls[b].position) - from;
    const double ab = norm(line);
    const double to_a = touching_m(a, own) + hair_m;
    const double to_b = touching_m(b, own) + hair_m;
    if (ab == 0 || ab >= to_a + to_b) return touching();
    const double along = (to_a * to_a - to_b * to_b + ab * ab) / (2 * ab);
    const double beside = std::sqrt(std::max(0.0, to_a * to_a - along * along));
    const Vec2 unit_line = line / ab;
    return from + along * unit_line + (coin() ? beside : -beside) * left_of(unit_line);
  }

  Vec3 place() {
    const auto kind = bytes_.ConsumeEnum<Place>();
    double height_m = radius_m(state_.balls.size());
    Vec2 at = anywhere();
    if (kind == Place::at_cushion) at = at_cushion();
    if (kind == Place::in_jaws) at = in_jaws();
    if (kind == Place::touching && !state_.balls.empty()) at = touching();
    if (kind == Place::touching_two && !state_.balls.empty()) at = touching_two();
    if (kind == Place::in_air) height_m += between(0, 0.15);
    return lift(at, height_m);
  }

  [[nodiscard]] bool fits(Vec3 place) const {
    const std::size_t own = state_.balls.size();
    const Vec2 at = plan(place);
    if (at.x <= 0 || at.x >= table().width_m || at.y <= 0 || at.y >= table().length_m) return false;
    for (std::size_t i = 0; i < own; ++i) {
      // A ball may come down on another, but none stands balanced on one for ever.
      if (norm(plan(state_.balls[i].position) - at) < 1e-6) return false;
      if (norm(state_.balls[i].position - place) < radius_m(i) + radius_m(own)) return false;
    }
    const auto holds = [&](const engine::Pocket& pocket) {
      return norm(pocket.centre - at) < pocket.fall_radius_m;
    };
    // In the air a ball may be over the cushion, but clear of its nose.
    const Vec3 nose = lift(engine::nearest_on(state_.field->nose(), at), table().nose_height_m);
    return std::ranges::none_of(table().pockets, holds) && norm(nose - place) >= radius_m(own);
  }

  /// Rolling, or with any spin.
  void go(std::size_t ball, Vec2 velocity) {
    BallState& state = state_.balls[ball];
    state.velocity = lift(velocity);
    const double R = radius_m(ball);
    if (coin()) {
      state.spin = lift(left_of(velocity) / R, between(-50, 50));
    } else {
      state.spin = {between(-100, 100), between(-100, 100), between(-200, 200)};
    }
  }

  void be_struck(std::size_t ball) {
    const double off = 0.999 * table().cue.miscue_offset * between(0, 1);
    const double where = between(-pi, pi);
    const engine::Strike strike{.aim_rad = between(-pi, pi),
                                .elevation_rad = coin() ? between(0, pi / 2) : 0,
                                .side = off * std::cos(where),
                                .height = off * std::sin(where),
                                .cue_speed_mps = between(0, 15)};
    state_.balls[ball] =
        struck(state_.balls[ball], strike, ball_of(ball), table().cue, table().cloth);
  }

  /// Towards another ball, so that the line of motion passes it by `beside` of the touching
  /// distance.
  void go_at(std::size_t ball, std::size_t other, double beside, double speed_mps) {
    const Vec2 line = plan(state_.balls[other].position) - plan(state_.balls[ball].position);
    const double far_m = norm(line);
    if (far_m == 0) return;
    const double sine = std::clamp(beside * touching_m(ball, other) / far_m, -1.0, 1.0);
    go(ball, speed_mps * engine::direction(engine::angle_rad(line) + std::asin(sine)));
  }

  /// So fast that it would be there in the time that every ball sent so takes, which makes contacts
  /// simultaneous, or nearly.
  void go_together(std::size_t ball) {
    const std::size_t other = some_ball();
    const Vec2 line = plan(state_.balls[other].position) - plan(state_.balls[ball].position);
    const double way_m = norm(line) - touching_m(ball, other);
    constexpr double all_take_s = 0.25;
    go(ball, (way_m / all_take_s) * engine::unit(line));
  }

  void set_going(std::size_t ball) {
    const bool on_bed = state_.balls[ball].position.z <= radius_m(ball);
    switch (bytes_.ConsumeEnum<Going>()) {
      case Going::at_rest:
      case Going::kMaxValue:
        return;
      case Going::struck:
        if (on_bed) be_struck(ball);
        return;
      case Going::full_on:
        return go_at(ball, some_ball(), 0, between(0, 8));
      case Going::grazing: {
        // From a hair inside to a hair outside of touching.
        const double beside = 1 + 1e-9 * between(-1, 1) * std::pow(10, between(-6, 6));
        return go_at(ball, some_ball(), coin() ? beside : -beside, between(0, 8));
      }
      case Going::together:
        return go_together(ball);
      case Going::along_cushion:
        return go(ball, coin() ? Vec2{between(-8, 8), 0} : Vec2{0, between(-8, 8)});
      case Going::turning:
        state_.balls[ball].spin = {0, 0, between(-300, 300)};
        return;
      case Going::hardly:
        go(ball, std::pow(10, between(-12, -2)) * engine::direction(between(-pi, pi)));
        return;
      case Going::huge:
        state_.huge = true;
        go(ball, std::pow(10, between(1, 6)) * engine::direction(between(-pi, pi)));
        return;
    }
  }

  FuzzedDataProvider& bytes_;
  HardState state_;
};

}  // namespace

HardState hard_state(const std::uint8_t* bytes, std::size_t size) {
  FuzzedDataProvider provider(bytes, size);
  return States(provider).build();
}

}  // namespace ahead::fuzz
