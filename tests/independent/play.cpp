#include "tests/independent/play.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <numbers>
#include <optional>
#include <variant>

#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <boost/numeric/odeint.hpp>

#include "tests/independent/contacts.h"

namespace ahead::independent {
namespace {

using engine::Ball;
using engine::BallState;
using engine::EventKind;
using engine::Vec2;
using engine::Vec3;
namespace odeint = boost::numeric::odeint;
namespace tools = boost::math::tools;

constexpr double g_mps2 = 9.81;
constexpr double longest_step_s = 0.01;
constexpr int samples = 8;  ///< of a step, for events
constexpr std::size_t most_events = 40;
/// Neighbours closer than this are resolved as a group, m.
constexpr double neighbour_m = 1e-3;

/// Nine numbers a ball: position, velocity, spin.
using State = std::vector<double>;

Vec3 part(const State& x, std::size_t ball, std::size_t which) {
  const std::size_t at = 9 * ball + 3 * which;
  return {x[at], x[at + 1], x[at + 2]};
}
Vec3 position(const State& x, std::size_t ball) { return part(x, ball, 0); }
Vec3 velocity(const State& x, std::size_t ball) { return part(x, ball, 1); }
Vec3 spin(const State& x, std::size_t ball) { return part(x, ball, 2); }

void put(State& x, std::size_t ball, std::size_t which, Vec3 value) {
  const std::size_t at = 9 * ball + 3 * which;
  x[at] = value.x;
  x[at + 1] = value.y;
  x[at + 2] = value.z;
}

Vec2 slip(const State& x, std::size_t ball, double R) {
  const Vec3 v = velocity(x, ball);
  const Vec3 w = spin(x, ball);
  return {v.x - R * w.y, v.y + R * w.x};
}

enum class Mode { still, rolling, sliding, airborne, gone };

/// The law that a ball obeys, with the senses that it had when the present step began. A direction
/// is continued through zero, so that the equations stay smooth up to the event and a little
/// beyond.
struct Law {
  Mode mode = Mode::still;
  Vec2 along;       ///< of the slip (sliding) or of the velocity (rolling)
  double turn = 0;  ///< sense of the spin about the vertical: -1, 0 or 1
};

Vec2 continued(Vec2 a, Vec2 along) {
  const double size = std::hypot(a.x, a.y);
  if (size < 1e-12) return along;
  return (std::copysign(1.0, dot(a, along)) / size) * a;
}

double sign(double a) { return a > 0 ? 1 : a < 0 ? -1 : 0; }

double distance(const engine::RailSegment& rail, Vec2 p, Vec2& nearest) {
  const Vec2 all = rail.to - rail.from;
  const double share = std::clamp(dot(p - rail.from, all) / dot(all, all), 0.0, 1.0);
  nearest = rail.from + share * all;
  return std::hypot(p.x - nearest.x, p.y - nearest.y);
}

double distance(const engine::RailArc& rail, Vec2 p, Vec2& nearest) {
  const auto at = [&](double angle) {
    return rail.centre + rail.radius_m * Vec2{std::cos(angle), std::sin(angle)};
  };
  const Vec2 out = p - rail.centre;
  constexpr double round = 2 * std::numbers::pi;
  const double angle = std::atan2(out.y, out.x);
  const double sweep = std::remainder(rail.to_rad - rail.from_rad - round / 2, round) + round / 2;
  const double into = std::remainder(angle - rail.from_rad - round / 2, round) + round / 2;
  if (into <= sweep) {
    nearest = at(angle);
  } else {
    const Vec2 a = at(rail.from_rad);
    const Vec2 b = at(rail.to_rad);
    nearest = dot(a - p, a - p) < dot(b - p, b - p) ? a : b;
  }
  return std::hypot(p.x - nearest.x, p.y - nearest.y);
}

/// The point of all the rails that is nearest in plan.
Vec2 nearest_nose(const engine::Table& table, Vec2 p) {
  Vec2 nearest;
  double least = std::numeric_limits<double>::infinity();
  for (const engine::Rail& rail : table.rails) {
    Vec2 candidate;
    const double d =
        std::visit([&](const auto& shape) { return distance(shape, p, candidate); }, rail);
    if (d < least) {
      least = d;
      nearest = candidate;
    }
  }
  return nearest;
}

/// Something that happens when gap() falls through zero.
struct Watch {
  enum class What { end_of_law, end_of_turn, meeting, nose, pocket };
  What what{};
  std::size_t ball = 0;
  std::size_t other = 0;  ///< of a meeting, or the pocket
};

class Playing {
 public:
  Playing(const engine::Table& table, std::span<const BallState> balls);

  Played run();
  /// The equations of motion.
  void operator()(const State& x, State& rate, double t) const;

 private:
  struct Found {
    double t_s = 0;
    Watch watch;
  };

  [[nodiscard]] const Ball& ball(std::size_t i) const {
    return i == 0 ? table_.cue_ball : table_.object_ball;
  }
  [[nodiscard]] BallState state(std::size_t i) const {
    return {position(x_, i), velocity(x_, i), spin(x_, i)};
  }
  [[nodiscard]] bool moving() const;
  [[nodiscard]] std::vector<Watch> watches(double lasts_s) const;
  [[nodiscard]] double gap(const Watch& watch, const State& x) const;
  template <typename At>
  [[nodiscard]] std::optional<double> first_fall(const Watch& watch, double from, double to,
                                                 const std::vector<State>& sampled, At at) const;

  void put_back(std::size_t i, const BallState& ball_state);
  void choose_law(std::size_t i);
  void note(EventKind kind, std::size_t i, int other = -1);
  void happen(const Watch& watch);
  void end_law(std::size_t i);
  void meet(std::size_t a, std::size_t b);
  void meet_nose(std::size_t i);
  [[nodiscard]] BallState settled(BallState after, std::size_t i) const;

  const engine::Table& table_;
  std::size_t count_;
  State x_;
  std::vector<Law> laws_;
  double t_s_ = 0;
  Played played_;
};

Playing::Playing(const engine::Table& table, std::span<const BallState> balls)
    : table_(table), count_(balls.size()), x_(9 * balls.size()), laws_(balls.size()) {
  for (std::size_t i = 0; i < count_; ++i) put_back(i, balls[i]);
}

void Playing::put_back(std::size_t i, const BallState& ball_state) {
  put(x_, i, 0, ball_state.position);
  put(x_, i, 1, ball_state.velocity);
  put(x_, i, 2, ball_state.spin);
  choose_law(i);
}

void Playing::choose_law(std::size_t i) {
  const double R = ball(i).radius_m;
  const Vec3 v = velocity(x_, i);
  const Vec2 u = slip(x_, i, R);
  Law& law = laws_[i];
  law.turn = sign(spin(x_, i).z);
  if (position(x_, i).z > R + 1e-12 || v.z > 0) {
    law.mode = Mode::airborne;
  } else if (std::hypot(u.x, u.y) > 1e-9) {
    law.mode = Mode::sliding;
    law.along = u / std::hypot(u.x, u.y);
  } else if (std::hypot(v.x, v.y) > 1e-9) {
    law.mode = Mode::rolling;
    law.along = plan(v) / std::hypot(v.x, v.y);
  } else {
    law.mode = Mode::still;
  }
}

void Playing::operator()(const State& x, State& rate, double /*t*/) const {
  std::ranges::fill(rate, 0.0);
  const engine::Cloth& cloth = table_.cloth;
  for (std::size_t i = 0; i < count_; ++i) {
    const double R = ball(i).radius_m;
    const Law& law = laws_[i];
    if (law.mode == Mode::gone) continue;
    const Vec3 v = velocity(x, i);
    Vec3 push;
    Vec3 twist;
    if (law.mode == Mode::airborne) {
      push = {0, 0, -g_mps2};
    } else {
      twist.z = -cloth.spin_decay_radps2 * law.turn;
    }
    if (law.mode == Mode::sliding) {
      const Vec2 e = continued(slip(x, i, R), law.along);
      push = lift(-cloth.sliding * g_mps2 * e);
      const double rate_of_spin = 5 * cloth.sliding * g_mps2 / (2 * R);
      twist.x = -rate_of_spin * e.y;
      twist.y = rate_of_spin * e.x;
    } else if (law.mode == Mode::rolling) {
      push = lift(-cloth.rolling * g_mps2 * continued(plan(v), law.along));
      push.y += cloth.nap * g_mps2;
      twist.x = -push.y / R;
      twist.y = push.x / R;
    }
    if (law.mode != Mode::still) put(rate, i, 0, v);
    put(rate, i, 1, push);
    put(rate, i, 2, twist);
  }
}

bool Playing::moving() const {
  return std::ranges::any_of(
      laws_, [](const Law& law) { return law.mode != Mode::still && law.mode != Mode::gone; });
}

/// Whatever can happen within `lasts_s` of now.
std::vector<Watch> Playing::watches(double lasts_s) const {
  using enum Watch::What;
  std::vector<Watch> all;
  const auto way_m = [&](std::size_t i) {
    const Vec3 v = velocity(x_, i);
    const double speed = laws_[i].mode == Mode::still ? 0 : std::sqrt(dot(v, v));
    return lasts_s * (speed + g_mps2 * lasts_s);
  };
  for (std::size_t i = 0; i < count_; ++i) {
    if (laws_[i].mode == Mode::gone) continue;
    const bool moves = laws_[i].mode != Mode::still;
    if (laws_[i].turn != 0 && laws_[i].mode != Mode::airborne) all.push_back({end_of_turn, i, 0});
    for (std::size_t j = i + 1; j < count_; ++j) {
      if (laws_[j].mode == Mode::gone || (!moves && laws_[j].mode == Mode::still)) continue;
      const Watch meeting_of{meeting, i, j};
      if (gap(meeting_of, x_) < way_m(i) + way_m(j)) all.push_back(meeting_of);
    }
    if (!moves) continue;
    all.push_back({end_of_law, i, 0});
    if (const Watch at{nose, i, 0}; gap(at, x_) < way_m(i)) all.push_back(at);
    for (std::size_t k = 0; k < table_.pockets.size(); ++k) {
      if (const Watch into{pocket, i, k}; gap(into, x_) < way_m(i)) all.push_back(into);
    }
  }
  return all;
}

double Playing::gap(const Watch& watch, const State& x) const {
  const std::size_t i = watch.ball;
  const double R = ball(i).radius_m;
  const Vec3 p = position(x, i);
  switch (watch.what) {
    case Watch::What::end_of_turn:
      return spin(x, i).z * laws_[i].turn;
    case Watch::What::end_of_law:
      if (laws_[i].mode == Mode::airborne) return p.z - R;
      return dot(laws_[i].mode == Mode::sliding ? slip(x, i, R) : plan(velocity(x, i)),
                 laws_[i].along);
    case Watch::What::meeting: {
      const Vec3 apart = position(x, watch.other) - p;
      return std::sqrt(dot(apart, apart)) - R - ball(watch.other).radius_m;
    }
    case Watch::What::nose: {
      const Vec3 to = lift(nearest_nose(table_, plan(p)), table_.nose_height_m) - p;
      return std::sqrt(dot(to, to)) - R;
    }
    case Watch::What::pocket: {
      const engine::Pocket& pocket = table_.pockets[watch.other];
      const double outside =
          std::hypot(p.x - pocket.centre.x, p.y - pocket.centre.y) - pocket.fall_radius_m;
      return std::max(outside, p.z - 2 * R);
    }
  }
  return 1;
}

/// When the watched gap first falls through zero within the step. `at` gives the state at a time.
template <typename At>
std::optional<double> Playing::first_fall(const Watch& watch, double from, double to,
                                          const std::vector<State>& sampled, At at) const {
  const auto time = [&](int k) { return from + (to - from) * k / samples; };
  const auto gap_at = [&](double t) { return gap(watch, at(t)); };
  const auto root = [&](double open, double closed) {
    const double f_open = gap_at(open);
    const double f_closed = gap_at(closed);
    if (f_open <= 0) return open;
    if (f_closed == 0) return closed;
    std::uintmax_t rounds = 100;
    return tools::toms748_solve(gap_at, open, closed, f_open, f_closed,
                                tools::eps_tolerance<double>(50), rounds)
        .second;
  };
  std::vector<double> gaps;
  for (const State& x : sampled) gaps.push_back(gap(watch, x));
  // Closed and closing: what another event of the same moment has left to be done.
  if (gaps[0] <= 0 && gaps[1] < gaps[0]) return from;
  for (int k = 0; k < samples; ++k) {
    const auto here = static_cast<std::size_t>(k);
    if (gaps[here] > 0 && gaps[here + 1] <= 0) return root(time(k), time(k + 1));
    // A dip between two sample points: a graze.
    if (k == 0 || gaps[here - 1] <= gaps[here] || gaps[here + 1] <= gaps[here]) continue;
    if (gaps[here] <= 0) continue;
    const auto lowest = tools::brent_find_minima(gap_at, time(k - 1), time(k + 1), 40);
    if (lowest.second < 0) return root(time(k - 1), lowest.first);
  }
  return std::nullopt;
}

Played Playing::run() {
  const auto system = [this](const State& x, State& rate, double t) { (*this)(x, rate, t); };
  while (moving() && !played_.given_up) {
    auto stepper = odeint::make_dense_output(1e-12, 1e-12, longest_step_s,
                                             odeint::runge_kutta_dopri5<State>());
    stepper.initialize(x_, t_s_, 1e-3);
    std::optional<Found> first;
    while (!first) {
      const auto [from, to] = stepper.do_step(system);
      const auto at = [&stepper, this](double t) {
        State x(9 * count_);
        stepper.calc_state(t, x);
        return x;
      };
      std::vector<State> sampled;
      for (int k = 0; k <= samples; ++k) sampled.push_back(at(from + (to - from) * k / samples));
      for (const Watch& watch : watches(to - from)) {
        const auto t = first_fall(watch, from, to, sampled, at);
        if (t && (!first || *t < first->t_s)) first = {*t, watch};
      }
      if (!first) {
        x_ = sampled.back();
        // The directions that are continued through zero are those of the step's start.
        for (std::size_t i = 0; i < count_; ++i) {
          if (laws_[i].mode == Mode::rolling) {
            const Vec2 v = plan(velocity(x_, i));
            laws_[i].along = v / std::hypot(v.x, v.y);
          }
        }
      } else {
        t_s_ = first->t_s;
        x_ = at(t_s_);
      }
    }
    happen(first->watch);
    if (played_.events.size() > most_events) played_.given_up = true;
  }
  for (std::size_t i = 0; i < count_; ++i) played_.ends.push_back(state(i));
  return played_;
}

void Playing::note(EventKind kind, std::size_t i, int other) {
  played_.events.push_back({.t_s = t_s_,
                            .kind = kind,
                            .ball = static_cast<int>(i),
                            .other = other,
                            .at = position(x_, i)});
}

void Playing::happen(const Watch& watch) {
  const std::size_t i = watch.ball;
  switch (watch.what) {
    case Watch::What::end_of_law:
      end_law(i);
      return;
    case Watch::What::end_of_turn: {
      const Vec3 w = spin(x_, i);
      put(x_, i, 2, {w.x, w.y, 0});
      laws_[i].turn = 0;
      return;
    }
    case Watch::What::meeting:
      meet(i, watch.other);
      return;
    case Watch::What::nose:
      meet_nose(i);
      return;
    case Watch::What::pocket:
      note(EventKind::pot, i);
      laws_[i].mode = Mode::gone;
      return;
  }
}

void Playing::end_law(std::size_t i) {
  const double R = ball(i).radius_m;
  BallState now = state(i);
  if (laws_[i].mode == Mode::airborne) {
    now.position.z = R;
    note(EventKind::bed, i);
    put_back(i, landed(now, ball(i), table_.cloth));
    return;
  }
  const Mode ended = laws_[i].mode;
  const bool stops = ended == Mode::rolling || std::hypot(now.velocity.x, now.velocity.y) < 1e-6;
  if (stops) now.velocity = {};
  now.spin.x = -now.velocity.y / R;
  now.spin.y = now.velocity.x / R;
  put_back(i, now);
  note(stops ? EventKind::stop : EventKind::slide_to_roll, i);
}

/// On the bed, what an impact has left of the vertical speed meets the bed or stays down.
BallState Playing::settled(BallState after, std::size_t i) const {
  if (after.position.z > ball(i).radius_m + 1e-12) return after;
  if (after.velocity.z < 0) return landed(after, ball(i), table_.cloth);
  if (after.velocity.z < table_.cloth.hop_speed_mps) after.velocity.z = 0;
  return after;
}

void Playing::meet(std::size_t a, std::size_t b) {
  for (std::size_t k = 0; k < count_; ++k) {
    if (k == a || k == b || laws_[k].mode == Mode::gone) continue;
    for (const std::size_t one : {a, b}) {
      if (gap({Watch::What::meeting, one, k}, x_) < neighbour_m) {
        played_.given_up = true;
        return;
      }
    }
  }
  note(EventKind::ball_ball, a, static_cast<int>(b));
  BallState first = state(a);
  BallState second = state(b);
  collide(first, ball(a), second, ball(b), table_.ball_contact);
  put_back(a, settled(first, a));
  put_back(b, settled(second, b));
}

void Playing::meet_nose(std::size_t i) {
  note(EventKind::cushion, i);
  const BallState now = state(i);
  const Vec3 to =
      lift(nearest_nose(table_, plan(now.position)), table_.nose_height_m) - now.position;
  const Vec3 c = to / std::sqrt(dot(to, to));
  const bool on_bed = laws_[i].mode != Mode::airborne;
  const BallState after = rebounded(now, ball(i), c, on_bed, table_.cushion, table_.cloth);
  put_back(i, settled(after, i));
}

}  // namespace

Played play(const engine::Table& table, std::span<const BallState> balls) {
  return Playing(table, balls).run();
}

}  // namespace ahead::independent
