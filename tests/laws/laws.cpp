#include "tests/laws/laws.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <limits>
#include <numbers>
#include <span>
#include <utility>
#include <vector>

#include "engine/contact/cushion.h"
#include "engine/contact/strike.h"
#include "engine/simulate/stretch.h"
#include "tests/support/dice.h"
#include "tests/support/shot_facts.h"

namespace ahead::test {
namespace {

using engine::BallState;
using engine::EventKind;
using engine::Playfield;
using engine::Shot;
using engine::Stretch;
using engine::Table;
using engine::Vec2;
using engine::Vec3;
constexpr double infinity = std::numeric_limits<double>::infinity();

// Every number is finite and everything is in order.

bool finite(Vec3 v) { return std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z); }

bool finite(const BallState& state) {
  return finite(state.position) && finite(state.velocity) && finite(state.spin);
}

bool all_finite(const Shot& shot) {
  return std::isfinite(shot.settled_s) && std::isfinite(shot.still_s) &&
         std::ranges::all_of(shot.endings, [](const auto& e) { return finite(e.position); }) &&
         std::ranges::all_of(shot.events,
                             [](const auto& e) { return std::isfinite(e.t_s) && finite(e.at); }) &&
         std::ranges::all_of(shot.stretches, [](const Stretch& s) {
           return std::isfinite(s.t0_s) && std::isfinite(s.t1_s) && finite(s.start);
         });
}

bool in_order(const Shot& shot) {
  return std::ranges::is_sorted(shot.events, {}, &engine::Event::t_s) &&
         std::ranges::is_sorted(shot.stretches, {}, &Stretch::t0_s) &&
         std::ranges::all_of(shot.stretches, [](const Stretch& s) { return s.t0_s <= s.t1_s; }) &&
         shot.still_s <= shot.settled_s;
}

/// Whether a ball that left was heard of again.
bool any_comes_back(const Shot& shot) {
  std::vector<double> left(shot.endings.size(), infinity);
  for (const engine::Event& event : shot.events) {
    for (std::size_t ball = 0; ball < left.size(); ++ball) {
      const bool named = event.ball == static_cast<int>(ball) ||
                         event.other == static_cast<int>(ball) || (event.members >> ball & 1U) != 0;
      if (named && left[ball] < infinity) return true;
    }
    if (event.kind == EventKind::pot || event.kind == EventKind::off_table) {
      left[static_cast<std::size_t>(event.ball)] = event.t_s;
    }
  }
  return std::ranges::any_of(shot.stretches, [&](const Stretch& stretch) {
    return stretch.t1_s > left[static_cast<std::size_t>(stretch.ball)];
  });
}

/// On the bed, clear of the noses and in no fall; or gone, in one way.
bool ended_somewhere(const engine::Ending& ending, const Playfield& field, int index) {
  if (!ending.on_table()) return (ending.pocket >= 0) != ending.off_table;
  const Table& table = field.table();
  const engine::Ball& ball = engine::ball_of(table, index);
  const Vec2 p = plan(ending.position);
  // A ball may hang between the jaws, beyond the line of the noses.
  const double mouth_m = 2 * table.object_ball.radius_m;
  const bool inside = p.x > -mouth_m && p.x < table.width_m + mouth_m && p.y > -mouth_m &&
                      p.y < table.length_m + mouth_m;
  const bool in_a_fall = std::ranges::any_of(table.pockets, [&](const engine::Pocket& pocket) {
    return norm(p - pocket.centre) < pocket.fall_radius_m - 1e-9;
  });
  const double gap_m =
      norm(nearest_on(field.nose(), p) - p) - engine::nose_reach_m(ball, table.nose_height_m);
  return inside && !in_a_fall && gap_m > -overlap_limit_m &&
         std::abs(ending.position.z - ball.radius_m) < 1e-9;
}

// Two shots that should be one.

bool is_contact(const engine::Event& event) {
  return event.kind == EventKind::ball_ball || event.kind == EventKind::group ||
         event.kind == EventKind::cushion;
}

/// Until when shots that should be equal are compared, if they were equal at `from_s`.
double horizon_s(const Shot& shot, double from_s) {
  std::array<double, 4> contacts_s{};
  std::size_t count = 0;
  for (const engine::Event& event : shot.events) {
    if (!is_contact(event) || event.t_s <= from_s) continue;
    contacts_s[count++] = event.t_s;
    if (count == contacts_s.size()) return 0.5 * (contacts_s[2] + contacts_s[3]);
  }
  return shot.settled_s;
}

/// Every ball at `t_s`; one that has left, where it left.
std::vector<BallState> at_time(const Shot& shot, const Table& table,
                               std::span<const BallState> start, double t_s) {
  std::vector<const Stretch*> last(start.size(), nullptr);
  for (const Stretch& stretch : shot.stretches) {
    if (stretch.t0_s > t_s) break;
    last[static_cast<std::size_t>(stretch.ball)] = &stretch;
  }
  std::vector<BallState> states(start.begin(), start.end());
  for (std::size_t ball = 0; ball < states.size(); ++ball) {
    if (last[ball] == nullptr) continue;
    states[ball] = state_at(*last[ball], table, std::min(t_s, last[ball]->t1_s));
    if (t_s >= last[ball]->t1_s) states[ball].velocity = states[ball].spin = {};
  }
  return states;
}

double largest_gap_m(std::span<const BallState> some, std::span<const BallState> others) {
  double gap_m = 0;
  for (std::size_t i = 0; i < some.size(); ++i) {
    gap_m = std::max(gap_m, norm(some[i].position - others[i].position));
  }
  return gap_m;
}

/// The size of a change that nobody could know of.
constexpr double last_digits = 1e-13;

std::vector<BallState> start_of(const SeededShot& shot) {
  const Table& table = shot.field->table();
  std::vector<BallState> states(shot.balls.size());
  for (std::size_t i = 0; i < states.size(); ++i) {
    states[i].position = lift(shot.balls[i], engine::ball_of(table, static_cast<int>(i)).radius_m);
  }
  return states;
}

/// Whether changes of the size of `nudge` to the start take some ball `gap_m` away from where it is
/// at `t_s`.
bool explained_by(double nudge, const Playfield& field, const std::vector<BallState>& start,
                  double t_s, double gap_m) {
  const auto at_end = [&](const std::vector<BallState>& from) {
    return at_time(simulate_from(field, from), field.table(), from, t_s);
  };
  const std::vector<BallState> plain = at_end(start);
  for (std::uint64_t seed = 0; seed < 8; ++seed) {
    Dice dice(seed);
    std::vector<BallState> nudged = start;
    for (BallState& ball : nudged) {
      ball.position.x += dice.between(-nudge, nudge);
      ball.position.y += dice.between(-nudge, nudge);
      ball.velocity = (1 + dice.between(-nudge, nudge)) * ball.velocity;
      ball.spin = (1 + dice.between(-nudge, nudge)) * ball.spin;
    }
    if (largest_gap_m(at_end(nudged), plain) >= gap_m) return true;
  }
  return false;
}

// The mirror.

Vec2 mirrored(Vec2 p, const Table& table, bool ends) {
  return ends ? Vec2{p.x, table.length_m - p.y} : Vec2{table.width_m - p.x, p.y};
}

SeededShot mirrored(SeededShot shot) {
  for (Vec2& ball : shot.balls) ball = mirrored(ball, shot.field->table(), shot.mirror_ends);
  const double aim = shot.strike.aim_rad;
  shot.strike.aim_rad = shot.mirror_ends ? -aim : std::numbers::pi - aim;
  shot.strike.side = -shot.strike.side;
  return shot;
}

void hold_to_mirror(const SeededShot& seeded, const Shot& shot, Judgement& judgement) {
  const Playfield& field = *seeded.field;
  const SeededShot twin = mirrored(seeded);
  const Shot other = simulate(field, twin.balls, twin.strike);
  const double until_s = horizon_s(shot, -1);
  std::vector<BallState> start = start_of(seeded);
  std::vector<BallState> image = at_time(other, field.table(), start_of(twin), until_s);
  for (BallState& ball : image) {
    const Vec2 back = mirrored(plan(ball.position), field.table(), seeded.mirror_ends);
    ball.position = lift(back, ball.position.z);
  }
  const double gap_m = largest_gap_m(at_time(shot, field.table(), start, until_s), image);
  if (gap_m > sameness_limit_m) {
    const Table& table = field.table();
    start[0] = struck(start[0], seeded.strike, table.cue_ball, table.cue, table.cloth);
    judgement.knife_edge = explained_by(last_digits, field, start, until_s, gap_m);
    if (judgement.knife_edge) return;
    judgement.broken += " is not its mirror image;";
  }
  judgement.mirror_m = gap_m;
}

// The cut.

void hold_to_cut(const SeededShot& seeded, const Shot& shot, Judgement& judgement) {
  const Playfield& field = *seeded.field;
  std::vector<double> leaves_s(shot.endings.size(), infinity);
  for (const engine::Event& event : shot.events) {
    if (event.kind == EventKind::pot || event.kind == EventKind::off_table) {
      leaves_s[static_cast<std::size_t>(event.ball)] = event.t_s;
    }
  }
  // Ball 0 is the cue ball in every list of balls, so the cut comes before it leaves.
  const double cut_s = seeded.cut_share * std::min(shot.settled_s, leaves_s[0]);
  const double until_s = horizon_s(shot, cut_s);
  const std::vector<BallState> start = start_of(seeded);
  const auto on_table_of = [&](double t_s) {
    std::vector<BallState> states = at_time(shot, field.table(), start, t_s);
    for (std::size_t ball = states.size(); ball-- > 0;) {
      if (leaves_s[ball] <= cut_s) states.erase(states.begin() + static_cast<std::ptrdiff_t>(ball));
    }
    return states;
  };
  const std::vector<BallState> cut = on_table_of(cut_s);
  const Shot rest = simulate_from(field, cut);
  const double gap_m =
      largest_gap_m(on_table_of(until_s), at_time(rest, field.table(), cut, until_s - cut_s));
  if (gap_m > sameness_limit_m) {
    const double sunk_m = std::max(judgement.ball_overlap_m, judgement.cushion_overlap_m);
    const double rest_s = until_s - cut_s;
    // Contact after contact may sink, until the pair lets go.
    judgement.knife_edge = explained_by(last_digits, field, cut, rest_s, gap_m);
    judgement.sank = !judgement.knife_edge && sunk_m > sameness_limit_m &&
                     explained_by(10 * sunk_m, field, cut, rest_s, gap_m);
    if (judgement.knife_edge || judgement.sank) return;
    judgement.broken += " goes on differently after a cut;";
  }
  judgement.cut_m = gap_m;
}

}  // namespace

Judgement judged(const SeededShot& seeded, const Shot& shot) {
  const Playfield& field = *seeded.field;
  Judgement judgement{.events = shot.events.size(), .settled_s = shot.settled_s};
  const auto expect = [&](bool holds, const char* otherwise) {
    if (!holds) judgement.broken += otherwise;
  };
  expect(all_finite(shot), " has a number that is none;");
  expect(in_order(shot), " is not in order of time;");
  if (!judgement.broken.empty()) return judgement;

  expect(shot.stuck == 0, " does not end by itself;");
  expect(shot.events.size() < events_limit, " has too many events;");
  expect(shot.settled_s < settled_limit_s, " takes too long;");
  expect(!any_comes_back(shot), " has a ball that comes back;");
  for (std::size_t ball = 0; ball < shot.endings.size(); ++ball) {
    expect(ended_somewhere(shot.endings[ball], field, static_cast<int>(ball)),
           " has a ball that ends nowhere;");
  }

  const auto record = energies(shot, field.table());
  if (!record.empty() && record.front().energy_j > 0) {
    judgement.energy_rise = largest_rise_j(record) / record.front().energy_j;
  }
  expect(judgement.energy_rise < energy_limit, " gains energy;");

  const Overlaps deepest = deepest_overlaps(shot, field, seeded.balls);
  judgement.ball_overlap_m = deepest.balls_m;
  judgement.cushion_overlap_m = deepest.cushion_m;
  expect(deepest.balls_m < overlap_limit_m, " has balls that overlap;");
  expect(deepest.cushion_m < overlap_limit_m, " has a ball inside a cushion;");
  return judgement;
}

Judgement judged(const SeededShot& seeded) {
  const Shot shot = simulate(*seeded.field, seeded.balls, seeded.strike);
  Judgement judgement = judged(seeded, shot);
  if (!judgement.broken.empty()) return judgement;
  hold_to_mirror(seeded, shot, judgement);
  hold_to_cut(seeded, shot, judgement);
  return judgement;
}

std::uint64_t digest(const Shot& shot) {
  std::uint64_t sum = 0xcbf29ce484222325;
  const auto add = [&sum](std::uint64_t bits) {
    sum = (sum ^ bits) * 0x9e3779b97f4a7c15;
    sum ^= sum >> 29U;
  };
  const auto add_vec = [&](Vec3 v) {
    for (const double part : {v.x, v.y, v.z}) add(std::bit_cast<std::uint64_t>(part));
  };
  const auto add_number = [&](double number) { add(std::bit_cast<std::uint64_t>(number)); };
  for (const engine::Event& event : shot.events) {
    add_number(event.t_s);
    add(static_cast<std::uint64_t>(event.kind));
    for (const int index : {event.ball, event.other, event.place}) {
      add(static_cast<std::uint64_t>(index));
    }
    add(event.members);
    add_vec(event.at);
  }
  for (const Stretch& stretch : shot.stretches) {
    add(static_cast<std::uint64_t>(stretch.ball));
    add(static_cast<std::uint64_t>(stretch.phase));
    add_number(stretch.t0_s);
    add_number(stretch.t1_s);
    for (const Vec3 v : {stretch.start.position, stretch.start.velocity, stretch.start.spin}) {
      add_vec(v);
    }
  }
  for (const engine::Ending& ending : shot.endings) {
    add_vec(ending.position);
    add(static_cast<std::uint64_t>(ending.pocket));
    add(static_cast<std::uint64_t>(ending.off_table));
  }
  add_number(shot.settled_s);
  add_number(shot.still_s);
  add(shot.stuck);
  return sum;
}

}  // namespace ahead::test
