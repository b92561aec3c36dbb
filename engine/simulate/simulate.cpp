#include "engine/simulate/simulate.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cassert>
#include <cmath>
#include <utility>

#include "engine/contact/ball_ball.h"
#include "engine/contact/landing.h"
#include "engine/contact/overlap.h"
#include "engine/contact/touching_group.h"
#include "engine/motion/motion.h"
#include "engine/simulate/next_contact.h"
#include "engine/simulate/off_nose.h"

namespace ahead::engine {
namespace {

/// A shot that has this many events within `no_time_s` does not get on, and is given up: the
/// busiest millisecond of a million shots has some twenty (tests/laws/).
constexpr std::size_t events_without_progress = 1000;
constexpr double no_time_s = 1e-3;

/// So is one that has this many in all. A break takes a few hundred.
constexpr std::size_t most_events = 20000;

/// Whether the shot is to be given up.
bool gets_nowhere(const std::vector<Event>& events) {
  if (events.size() < events_without_progress) return false;
  const Event& earlier = events[events.size() - events_without_progress];
  return events.back().t_s - earlier.t_s < no_time_s || events.size() >= most_events;
}

/// What the ball meets first by itself.
enum class Own { phase_end, cushion, pocket, exit };

/// A ball on its way: the law that it obeys since `since_s`, and its next event.
struct Course {
  BallState state;  ///< at since_s
  Phase phase = Phase::rest;
  bool gone = false;
  double since_s = 0;
  double phase_ends_s = never;
  Path path;  ///< from since_s; only of a ball that moves
  Own own = Own::phase_end;
  double own_s = never;
  Vec2 nose;                ///< of a cushion contact
  int pocket = -1;          ///< of a pocket entry
  std::size_t stretch = 0;  ///< where its open stretch is recorded

  [[nodiscard]] bool idle() const { return gone || phase == Phase::rest; }
  [[nodiscard]] bool moves() const { return !gone && phase > Phase::spinning; }
};

/// Balls as bits.
using Balls = std::uint32_t;

constexpr Balls bit(int ball) { return Balls{1} << ball; }

/// Calls `visit` with each ball of the set, in rising order.
template <typename Visit>
void for_each(Balls balls, Visit visit) {
  for (; balls != 0; balls &= balls - 1) visit(std::countr_zero(balls));
}

/// The balls of the last events.
Balls balls_of_last(const std::vector<Event>& events) {
  Balls balls = 0;
  for (std::size_t i = events.size() - events_without_progress; i < events.size(); ++i) {
    balls |= bit(events[i].ball) | events[i].members;
    if (events[i].other >= 0) balls |= bit(events[i].other);
  }
  return balls;
}

}  // namespace

/// The running shot.
class Simulation::Play {
 public:
  explicit Play(const Playfield& field) : field_(field) {}

  void run(std::span<const BallState> balls, bool struck);
  void run(std::span<const Vec2> balls, const Strike& strike);

  Shot shot;

 private:
  struct Meeting {
    int first = -1;
    int second = -1;
    double t_s = never;
  };

  [[nodiscard]] Course& course(int ball) { return courses_[static_cast<std::size_t>(ball)]; }
  [[nodiscard]] const Ball& ball(int index) const { return field_.runner(index).ball; }
  [[nodiscard]] const Cloth& cloth() const { return field_.table().cloth; }
  [[nodiscard]] double& meeting_s(int a, int b) {
    const auto row = static_cast<std::size_t>(std::min(a, b));
    return meetings_[row * most_balls + static_cast<std::size_t>(std::max(a, b))];
  }

  [[nodiscard]] BallState now(int index);
  [[nodiscard]] Vec3 place(int index);
  [[nodiscard]] double meets_in_s(int index, int other);
  [[nodiscard]] Meeting earliest_meeting();
  [[nodiscard]] int earliest_own();

  void begin(std::span<const BallState> balls);
  void set_off(int index, const BallState& state);
  void look_ahead(int index);
  void add(EventKind kind, int index, Vec3 at) {
    shot.events.push_back({.t_s = now_s_, .kind = kind, .ball = index, .at = at});
  }
  void leave(int index, Vec3 at, int pocket);

  void meet(const Meeting& meeting);
  void meet_pair(int first, int second);
  void meet_group(Balls members);
  [[nodiscard]] Balls group_of(int first, int second);
  [[nodiscard]] bool beyond_pockets(Vec3 position) const;
  void end_phase(int index);
  void meet_cushion(int index);

  const Playfield& field_;
  int count_ = 0;
  double now_s_ = 0;
  Balls busy_ = 0;     ///< balls with an event of their own to come
  Balls moving_ = 0;   ///< those of them whose centre moves
  Balls present_ = 0;  ///< balls that have not left
  std::array<Course, most_balls> courses_;
  std::array<double, most_balls * most_balls> meetings_{};
  TouchingGroup group_;
};

void Simulation::Play::begin(std::span<const BallState> balls) {
  count_ = static_cast<int>(balls.size());
  now_s_ = 0;
  busy_ = 0;
  moving_ = 0;
  present_ = count_ == 32 ? ~Balls{0} : bit(count_) - 1;
  shot.endings.assign(balls.size(), {});
  shot.events.clear();
  shot.stretches.clear();
  shot.settled_s = 0;
  shot.still_s = 0;
  shot.stuck = 0;
  for (int i = 0; i < count_; ++i) {
    Course& c = course(i);
    c.state = balls[static_cast<std::size_t>(i)];
    c.phase = Phase::rest;
    c.gone = false;
    c.own_s = never;
  }
}

BallState Simulation::Play::now(int index) {
  const Course& c = course(index);
  if (!c.moves() && c.phase == Phase::rest) return c.state;
  const Vec3 acceleration = c.moves() ? 2.0 * c.path.half_a : Vec3{};
  return advance(c.phase, c.state, acceleration, ball(index), cloth(), now_s_ - c.since_s);
}

Vec3 Simulation::Play::place(int index) {
  const Course& c = course(index);
  if (!c.moves()) return c.state.position;
  const double t_s = now_s_ - c.since_s;
  return c.path.p + t_s * (c.path.v + t_s * c.path.half_a);
}

/// Starts a new stretch from `state`, now. Its contacts are looked for in look_ahead().
void Simulation::Play::set_off(int index, const BallState& state) {
  Course& c = course(index);
  if (!c.idle()) shot.stretches[c.stretch].t1_s = now_s_;
  c.state = state;
  c.phase = phase_of(state, ball(index));
  c.since_s = now_s_;
  c.stretch = shot.stretches.size();
  if (c.phase == Phase::rest) {
    c.own_s = never;
    busy_ &= ~bit(index);
    moving_ &= ~bit(index);
    return;
  }
  const double lasts_s = phase_duration_s(c.phase, state, ball(index), cloth());
  c.phase_ends_s = now_s_ + lasts_s;
  busy_ |= bit(index);
  if (c.moves()) {
    moving_ |= bit(index);
    c.path = path_of(c.phase, state, ball(index), cloth(), lasts_s);
  } else {
    moving_ &= ~bit(index);
  }
  shot.stretches.push_back(
      {.ball = index, .phase = c.phase, .t0_s = now_s_, .t1_s = c.phase_ends_s, .start = state});
}

/// Seconds until a ball that has set off now meets another, or is met by it.
double Simulation::Play::meets_in_s(int index, int other) {
  const Course& mine = course(index);
  const Course& theirs = course(other);
  const double distance_m = ball(index).radius_m + ball(other).radius_m;
  if (!theirs.moves()) return next_meeting(mine.path, theirs.state.position, distance_m);
  const Path rest = rest_of(theirs.path, now_s_ - theirs.since_s);
  if (!mine.moves()) return next_meeting(rest, mine.state.position, distance_m);
  return next_meeting(mine.path, rest, distance_m);
}

/// Finds the next event by itself of a ball that has set off now, and its meetings with the others.
void Simulation::Play::look_ahead(int index) {
  Course& c = course(index);
  c.own = Own::phase_end;
  c.own_s = c.phase == Phase::rest ? never : c.phase_ends_s;
  const auto weigh = [&](Own own, double in_s) {
    if (now_s_ + in_s < c.own_s) {
      c.own = own;
      c.own_s = now_s_ + in_s;
    }
  };
  if (c.moves() && (c.path.airborne || !inside(c.path.box, field_.open_bed()))) {
    const NoseContact contact =
        next_nose(c.path, field_.nose(), field_.table(), ball(index), field_.runner(index).reach_m);
    c.nose = contact.nose;
    weigh(Own::cushion, contact.t_s);
    const PocketEntry entry = next_pocket(c.path, field_.table(), ball(index));
    c.pocket = entry.pocket;
    weigh(Own::pocket, entry.t_s);
    weigh(Own::exit, next_exit(c.path, field_.nose(), field_.table()));
  }
  const Balls others = (c.moves() ? present_ : moving_) & ~bit(index);
  for_each(others, [&](int other) { meeting_s(index, other) = now_s_ + meets_in_s(index, other); });
}

Simulation::Play::Meeting Simulation::Play::earliest_meeting() {
  Meeting first;
  for_each(present_, [&](int a) {
    const Balls later = ~(bit(a) | (bit(a) - 1));
    const Balls partners = ((moving_ & bit(a)) != 0 ? present_ : moving_) & later;
    for_each(partners, [&](int b) {
      const double t_s = meeting_s(a, b);
      if (t_s < first.t_s) first = {a, b, t_s};
    });
  });
  return first;
}

int Simulation::Play::earliest_own() {
  int first = -1;
  double first_s = never;
  for_each(busy_, [&](int i) {
    if (first < 0 || course(i).own_s < first_s) {
      first = i;
      first_s = course(i).own_s;
    }
  });
  return first;
}

void Simulation::Play::leave(int index, Vec3 at, int pocket) {
  Course& c = course(index);
  shot.stretches[c.stretch].t1_s = now_s_;
  c.gone = true;
  busy_ &= ~bit(index);
  moving_ &= ~bit(index);
  present_ &= ~bit(index);
  shot.endings[static_cast<std::size_t>(index)] = {
      .position = at, .pocket = pocket, .off_table = pocket < 0};
}

/// The balls that are resolved together with the two that meet: all that are linked to them by
/// gaps below the limit.
Balls Simulation::Play::group_of(int first, int second) {
  assert(first >= 0 && second >= 0);
  Balls members = bit(first) | bit(second);
  for (Balls fresh = members; fresh != 0;) {
    const int from = std::countr_zero(fresh);
    fresh &= fresh - 1;
    const Vec3 centre = place(from);
    for_each(present_ & ~members, [&](int other) {
      const double near_m = ball(from).radius_m + ball(other).radius_m + group_gap_m;
      const Vec3 apart = place(other) - centre;
      if (dot(apart, apart) < near_m * near_m) {
        members |= bit(other);
        fresh |= bit(other);
      }
    });
  }
  return members;
}

void Simulation::Play::meet(const Meeting& meeting) {
  const Balls members = group_of(meeting.first, meeting.second);
  const bool pair = std::popcount(members) == 2;
  add(pair ? EventKind::ball_ball : EventKind::group, meeting.first, place(meeting.first));
  shot.events.back().other = meeting.second;
  if (pair) {
    meet_pair(meeting.first, meeting.second);
  } else {
    shot.events.back().members = members;
    meet_group(members);
  }
}

void Simulation::Play::meet_pair(int first, int second) {
  std::array states{now(first), now(second)};
  part(states, std::array{ball(first), ball(second)});
  const auto [after_a, after_b] =
      collided(states[0], ball(first), states[1], ball(second), field_.table().ball_contact);
  set_off(first, settled_on_bed(after_a, ball(first), cloth()));
  set_off(second, settled_on_bed(after_b, ball(second), cloth()));
  look_ahead(first);
  look_ahead(second);
}

void Simulation::Play::meet_group(Balls members) {
  std::array<BallState, most_balls> states;
  std::array<Ball, most_balls> balls;
  std::size_t count = 0;
  for_each(members, [&](int i) {
    states[count] = now(i);
    balls[count] = ball(i);
    ++count;
  });
  const std::span group_states(states.data(), count);
  const std::span group_balls(balls.data(), count);
  part(group_states, group_balls);
  group_.resolve(group_states, group_balls, field_.table().ball_contact);
  std::size_t k = 0;
  for_each(members, [&](int i) {
    set_off(i, settled_on_bed(states[k], balls[k], cloth()));
    ++k;
  });
  for_each(members, [&](int i) {
    if (!course(i).idle()) look_ahead(i);
  });
}

/// Whether a ball that comes down here has flown over a pocket: jaws hold no ball in front of the
/// fall that is further out than its own width.
bool Simulation::Play::beyond_pockets(Vec3 position) const {
  const Table& table = field_.table();
  const double width = 2 * table.object_ball.radius_m;
  return position.x < -width || position.x > table.width_m + width || position.y < -width ||
         position.y > table.length_m + width;
}

void Simulation::Play::end_phase(int index) {
  const Course& c = course(index);
  const Phase ended = c.phase;
  const BallState end =
      at_phase_end(ended, c.state, ball(index), cloth(), c.phase_ends_s - c.since_s);
  if (ended == Phase::airborne) {
    if (beyond_pockets(end.position)) {
      add(EventKind::off_table, index, end.position);
      leave(index, end.position, -1);
      return;
    }
    add(EventKind::bed, index, end.position);
    set_off(index, landed(end, ball(index), cloth()));
  } else {
    set_off(index, end);
    const Phase next = c.phase;
    if (ended == Phase::sliding && next == Phase::rolling) {
      add(EventKind::slide_to_roll, index, end.position);
    }
    if (ended != Phase::spinning && next != Phase::rolling) {
      add(EventKind::stop, index, end.position);
      shot.still_s = now_s_;
    }
    // Its place, and so its meetings, are what they were.
    if (ended == Phase::spinning) return;
  }
  // A ball at rest is still met by the others.
  look_ahead(index);
}

void Simulation::Play::meet_cushion(int index) {
  const BallState at = now(index);
  add(EventKind::cushion, index, at.position);
  set_off(index, off_nose(at, field_.runner(index), course(index).nose, field_.table()));
  look_ahead(index);
}

void Simulation::Play::run(std::span<const Vec2> balls, const Strike& strike) {
  assert(!balls.empty() && balls.size() <= most_balls);
  const Table& table = field_.table();
  std::array<BallState, most_balls> states;
  for (std::size_t i = 0; i < balls.size(); ++i) {
    states[i] = {.position = lift(balls[i], ball(static_cast<int>(i)).radius_m)};
  }
  states[0] = engine::struck(states[0], strike, table.cue_ball, table.cue, table.cloth);
  run(std::span(states.data(), balls.size()), true);
}

void Simulation::Play::run(std::span<const BallState> balls, bool struck) {
  begin(balls);
  if (struck) add(EventKind::strike, 0, balls[0].position);
  for (int i = 0; i < count_; ++i) {
    if (phase_of(course(i).state, ball(i)) != Phase::rest) set_off(i, course(i).state);
  }
  for_each(busy_, [&](int i) { look_ahead(i); });

  while (busy_ != 0) {
    if (gets_nowhere(shot.events)) {
      shot.stuck = balls_of_last(shot.events);
      break;
    }
    const int own = earliest_own();
    // At equal times balls first, then cushions.
    const Meeting meeting = earliest_meeting();
    if (meeting.t_s <= course(own).own_s) {
      now_s_ = meeting.t_s;
      meet(meeting);
      continue;
    }
    now_s_ = course(own).own_s;
    switch (course(own).own) {
      case Own::phase_end:
        end_phase(own);
        break;
      case Own::cushion:
        meet_cushion(own);
        break;
      case Own::pocket: {
        const Vec3 at = place(own);
        add(EventKind::pot, own, at);
        shot.events.back().place = course(own).pocket;
        leave(own, at, course(own).pocket);
        break;
      }
      case Own::exit: {
        const Vec3 at = place(own);
        add(EventKind::off_table, own, at);
        leave(own, at, -1);
        break;
      }
    }
  }
  shot.settled_s = now_s_;
  for_each(present_, [&](int i) {
    shot.endings[static_cast<std::size_t>(i)].position = place(i);
    if (!course(i).idle()) shot.stretches[course(i).stretch].t1_s = now_s_;
  });
}

Simulation::Simulation(const Playfield& field) : play_(std::make_unique<Play>(field)) {}
Simulation::~Simulation() = default;

const Shot& Simulation::play(std::span<const Vec2> balls, const Strike& strike) {
  play_->run(balls, strike);
  return play_->shot;
}

const Shot& Simulation::play_from(std::span<const BallState> balls) {
  play_->run(balls, false);
  return play_->shot;
}

Shot simulate(const Playfield& field, std::span<const Vec2> balls, const Strike& strike) {
  return Simulation(field).play(balls, strike);
}

Shot simulate_from(const Playfield& field, std::span<const BallState> balls) {
  return Simulation(field).play_from(balls);
}

}  // namespace ahead::engine
