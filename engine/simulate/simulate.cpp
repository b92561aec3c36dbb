#include "engine/simulate/simulate.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cassert>
#include <cmath>
#include <utility>

#include "engine/contact/ball_ball.h"
#include "engine/contact/cushion.h"
#include "engine/contact/landing.h"
#include "engine/contact/touching_group.h"
#include "engine/motion/motion.h"
#include "engine/simulate/next_contact.h"
#include "engine/simulate/off_nose.h"
#include "engine/simulate/stretch.h"

namespace ahead::engine {
namespace {

/// Events in one shot beyond which the balls are stopped where they are. A break takes a few
/// hundred; the limit only guards the promise that a shot ends (tests/laws/ says it is not met).
constexpr std::size_t most_events = 20000;

/// What the ball meets first by itself.
enum class Own { phase_end, cushion, pocket, exit };

/// A ball on its way: the law that it obeys since `since_s`, and its next event.
struct Course {
  BallState state;  ///< at since_s
  Phase phase = Phase::rest;
  double since_s = 0;
  double phase_ends_s = never;
  Own own = Own::phase_end;
  double own_s = never;
  Vec2 nose;        ///< of a cushion contact
  int pocket = -1;  ///< of a pocket entry
  bool gone = false;
  std::size_t stretch = 0;  ///< where its open stretch is recorded

  [[nodiscard]] bool idle() const { return gone || phase == Phase::rest; }
};

/// The running shot.
class Play {
 public:
  Play(const Playfield& field, std::span<const BallState> balls);

  Shot run();
  void note(EventKind kind, int ball) { add({.kind = kind, .ball = ball}); }

 private:
  struct Meeting {
    int first = -1;
    int second = -1;
    double t_s = never;
  };

  [[nodiscard]] Course& course(int ball) { return courses_[static_cast<std::size_t>(ball)]; }
  [[nodiscard]] const Ball& ball(int index) const { return ball_of(field_.table(), index); }
  [[nodiscard]] int count() const { return static_cast<int>(courses_.size()); }
  [[nodiscard]] double reach_m(int index) const {
    return index == 0 ? field_.cue_ball_reach_m() : field_.object_ball_reach_m();
  }
  [[nodiscard]] double& meeting_s(int a, int b) {
    const auto row = static_cast<std::size_t>(std::min(a, b));
    return meetings_[row * courses_.size() + static_cast<std::size_t>(std::max(a, b))];
  }

  [[nodiscard]] BallState now(int index);
  [[nodiscard]] Path path(int index);
  [[nodiscard]] Meeting earliest_meeting();
  [[nodiscard]] int earliest_own();

  void set_off(int index, const BallState& state);
  void look_ahead(int index);
  void add(Event event);
  void leave(int index, const BallState& at, int pocket);

  void meet(const Meeting& meeting);
  void meet_pair(int first, int second);
  void meet_group(std::uint32_t members);
  [[nodiscard]] std::uint32_t group_of(int first, int second);
  [[nodiscard]] bool beyond_pockets(Vec3 position) const;
  void end_phase(int index);
  void meet_cushion(int index);

  const Playfield& field_;
  double now_s_ = 0;
  std::vector<Course> courses_;
  std::vector<double> meetings_;
  Shot shot_;
};

Play::Play(const Playfield& field, std::span<const BallState> balls)
    : field_(field), courses_(balls.size()), meetings_(balls.size() * balls.size(), never) {
  shot_.events.reserve(64);
  shot_.stretches.reserve(64);
  shot_.endings.resize(balls.size());
  for (int i = 0; i < count(); ++i) {
    course(i).state = balls[static_cast<std::size_t>(i)];
    if (phase_of(course(i).state, ball(i)) != Phase::rest) set_off(i, course(i).state);
  }
  for (int i = 0; i < count(); ++i) {
    if (!course(i).idle()) look_ahead(i);
  }
}

BallState Play::now(int index) {
  const Course& c = course(index);
  return advance(c.phase, c.state, ball(index), field_.table().cloth, now_s_ - c.since_s);
}

Path Play::path(int index) {
  const Course& c = course(index);
  return path_of(c.phase, now(index), ball(index), field_.table().cloth, c.phase_ends_s - now_s_);
}

void Play::add(Event event) {
  event.t_s = now_s_;
  event.at = now(event.ball).position;
  shot_.events.push_back(event);
}

/// Starts a new stretch from `state`, now. Its contacts are looked for in look_ahead().
void Play::set_off(int index, const BallState& state) {
  Course& c = course(index);
  if (!c.idle()) shot_.stretches[c.stretch].t1_s = now_s_;
  const Phase phase = phase_of(state, ball(index));
  const double lasts_s = phase_duration_s(phase, state, ball(index), field_.table().cloth);
  c = {.state = state,
       .phase = phase,
       .since_s = now_s_,
       .phase_ends_s = now_s_ + lasts_s,
       .stretch = shot_.stretches.size()};
  if (phase == Phase::rest) return;
  shot_.stretches.push_back(
      {.ball = index, .phase = phase, .t0_s = now_s_, .t1_s = c.phase_ends_s, .start = state});
}

/// Finds the ball's next event by itself and its meetings with all the others.
void Play::look_ahead(int index) {
  Course& c = course(index);
  const Path mine = path(index);
  c.own = Own::phase_end;
  c.own_s = c.phase_ends_s;
  const auto weigh = [&](Own own, double in_s) {
    if (now_s_ + in_s < c.own_s) {
      c.own = own;
      c.own_s = now_s_ + in_s;
    }
  };
  const NoseContact contact =
      next_nose(mine, field_.nose(), field_.table(), ball(index), reach_m(index));
  c.nose = contact.nose;
  weigh(Own::cushion, contact.t_s);
  const PocketEntry entry = next_pocket(mine, field_.table(), ball(index));
  c.pocket = entry.pocket;
  weigh(Own::pocket, entry.t_s);
  weigh(Own::exit, next_exit(mine, field_.nose(), field_.table()));

  for (int other = 0; other < count(); ++other) {
    if (other == index) continue;
    double in_s = never;
    if (!course(other).gone) {
      in_s = next_meeting(mine, path(other), ball(index).radius_m + ball(other).radius_m);
    }
    meeting_s(index, other) = now_s_ + in_s;
  }
}

Play::Meeting Play::earliest_meeting() {
  Meeting first;
  for (int a = 0; a < count(); ++a) {
    for (int b = a + 1; b < count(); ++b) {
      if (meeting_s(a, b) < first.t_s) first = {a, b, meeting_s(a, b)};
    }
  }
  return first;
}

int Play::earliest_own() {
  int first = -1;
  for (int i = 0; i < count(); ++i) {
    if (course(i).idle()) continue;
    if (first < 0 || course(i).own_s < course(first).own_s) first = i;
  }
  return first;
}

void Play::leave(int index, const BallState& at, int pocket) {
  Course& c = course(index);
  shot_.stretches[c.stretch].t1_s = now_s_;
  c.gone = true;
  c.own_s = never;
  for (int other = 0; other < count(); ++other) {
    if (other != index) meeting_s(index, other) = never;
  }
  shot_.endings[static_cast<std::size_t>(index)] = {
      .position = at.position, .pocket = pocket, .off_table = pocket < 0};
}

/// The balls that are resolved together with the two that meet: all that are linked to them by
/// gaps below the limit.
std::uint32_t Play::group_of(int first, int second) {
  assert(first >= 0 && second >= 0);
  std::uint32_t members = 1U << first | 1U << second;
  for (std::uint32_t fresh = members; fresh != 0;) {
    const int from = std::countr_zero(fresh);
    fresh &= fresh - 1;
    const Vec3 centre = now(from).position;
    for (int other = 0; other < count(); ++other) {
      if ((members >> other & 1U) != 0 || course(other).gone) continue;
      const double touching_m = ball(from).radius_m + ball(other).radius_m;
      if (norm(now(other).position - centre) - touching_m < group_gap_m) {
        members |= 1U << other;
        fresh |= 1U << other;
      }
    }
  }
  return members;
}

void Play::meet(const Meeting& meeting) {
  const std::uint32_t members = group_of(meeting.first, meeting.second);
  const bool pair = std::popcount(members) == 2;
  add({.kind = pair ? EventKind::ball_ball : EventKind::group,
       .ball = meeting.first,
       .other = meeting.second,
       .members = pair ? 0 : members});
  if (pair) {
    meet_pair(meeting.first, meeting.second);
  } else {
    meet_group(members);
  }
}

/// Moves balls that have sunk into each other apart, back to contact. All the shifts are found
/// before any is made, so that the order of listing cannot matter.
void part(std::span<BallState> states, std::span<const Ball> balls) {
  std::vector<Vec2> shifts(states.size());
  for (std::size_t i = 0; i < states.size(); ++i) {
    for (std::size_t j = i + 1; j < states.size(); ++j) {
      const Vec3 line = states[j].position - states[i].position;
      const double overlap = balls[i].radius_m + balls[j].radius_m - norm(line);
      if (overlap <= 0) continue;
      const Vec2 shift = (0.5 * overlap) * unit(plan(line));
      shifts[i] = shifts[i] - shift;
      shifts[j] = shifts[j] + shift;
    }
  }
  for (std::size_t i = 0; i < states.size(); ++i) states[i].position += lift(shifts[i]);
}

void Play::meet_pair(int first, int second) {
  std::array states{now(first), now(second)};
  part(states, std::array{ball(first), ball(second)});
  const auto [after_a, after_b] =
      collided(states[0], ball(first), states[1], ball(second), field_.table().ball_contact);
  set_off(first, settled_on_bed(after_a, ball(first), field_.table().cloth));
  set_off(second, settled_on_bed(after_b, ball(second), field_.table().cloth));
  look_ahead(first);
  look_ahead(second);
}

void Play::meet_group(std::uint32_t members) {
  std::vector<int> indices;
  std::vector<BallState> states;
  std::vector<Ball> balls;
  for (int i = 0; i < count(); ++i) {
    if ((members >> i & 1U) == 0) continue;
    indices.push_back(i);
    states.push_back(now(i));
    balls.push_back(ball(i));
  }
  part(states, balls);
  resolve_group(states, balls, field_.table().ball_contact);
  for (std::size_t k = 0; k < indices.size(); ++k) {
    set_off(indices[k], settled_on_bed(states[k], balls[k], field_.table().cloth));
  }
  for (const int index : indices) {
    if (!course(index).idle()) look_ahead(index);
  }
}

/// Whether a ball that comes down here has flown over a pocket: jaws hold no ball in front of the
/// fall that is further out than its own width.
bool Play::beyond_pockets(Vec3 position) const {
  const Table& table = field_.table();
  const double width = 2 * table.object_ball.radius_m;
  return position.x < -width || position.x > table.width_m + width || position.y < -width ||
         position.y > table.length_m + width;
}

void Play::end_phase(int index) {
  const Course& c = course(index);
  const Phase ended = c.phase;
  const BallState end =
      at_phase_end(ended, c.state, ball(index), field_.table().cloth, c.phase_ends_s - c.since_s);
  if (ended == Phase::airborne) {
    if (beyond_pockets(end.position)) {
      note(EventKind::off_table, index);
      leave(index, end, -1);
      return;
    }
    note(EventKind::bed, index);
    set_off(index, landed(end, ball(index), field_.table().cloth));
  } else {
    set_off(index, end);
    const Phase next = course(index).phase;
    if (ended == Phase::sliding && next == Phase::rolling) note(EventKind::slide_to_roll, index);
    if (ended != Phase::spinning && next != Phase::rolling) {
      note(EventKind::stop, index);
      shot_.still_s = now_s_;
    }
  }
  // A ball at rest is still met by the others.
  look_ahead(index);
}

void Play::meet_cushion(int index) {
  note(EventKind::cushion, index);
  set_off(index, off_nose(now(index), ball(index), course(index).nose, field_.table()));
  look_ahead(index);
}

Shot Play::run() {
  while (shot_.events.size() < most_events) {
    const int own = earliest_own();
    if (own < 0) break;
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
      case Own::pocket:
        add({.kind = EventKind::pot, .ball = own, .place = course(own).pocket});
        leave(own, now(own), course(own).pocket);
        break;
      case Own::exit:
        note(EventKind::off_table, own);
        leave(own, now(own), -1);
        break;
    }
  }
  shot_.settled_s = now_s_;
  for (int i = 0; i < count(); ++i) {
    if (course(i).gone) continue;
    shot_.endings[static_cast<std::size_t>(i)].position = now(i).position;
    if (!course(i).idle()) shot_.stretches[course(i).stretch].t1_s = now_s_;
  }
  return std::move(shot_);
}

}  // namespace

Playfield::Playfield(Table table)
    : table_(std::move(table)),
      nose_(nose_line(table_.rails)),
      cue_ball_reach_m_(nose_reach_m(table_.cue_ball, table_.nose_height_m)),
      object_ball_reach_m_(nose_reach_m(table_.object_ball, table_.nose_height_m)) {}

Shot simulate_from(const Playfield& field, std::span<const BallState> balls) {
  return Play(field, balls).run();
}

Shot simulate(const Playfield& field, std::span<const Vec2> balls, const Strike& strike) {
  assert(!balls.empty() && balls.size() <= 32);
  const Table& table = field.table();
  std::vector<BallState> states(balls.size());
  for (std::size_t i = 0; i < balls.size(); ++i) {
    states[i].position = lift(balls[i], ball_of(table, static_cast<int>(i)).radius_m);
  }
  states[0] = struck(states[0], strike, table.cue_ball, table.cue, table.cloth);
  Shot shot = simulate_from(field, states);
  shot.events.insert(
      shot.events.begin(),
      {.kind = EventKind::strike, .ball = 0, .at = lift(balls[0], table.cue_ball.radius_m)});
  return shot;
}

}  // namespace ahead::engine
