#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <limits>
#include <optional>
#include <string>

#include <fmt/core.h>

#include "bench/side_by_side/stepper.h"
#include "engine/equipment/presets.h"
#include "engine/simulate/simulate.h"

// The same shots by our engine and by three general rigid-body engines, one after another on one
// core, in one run. docs/performance.md tells the method and how to read the table.
namespace ahead::bench {
namespace {

using engine::BallState;
using engine::Vec2;

using Start = std::vector<BallState>;
using Places = std::vector<Vec2>;

constexpr std::size_t shots_wanted = 20;
/// A step is good when on this share of the shots every ball ends this near to the converged
/// answer.
constexpr double share_wanted = 0.9;
constexpr double near_m = 0.005;
constexpr int coarsest = 5;  ///< steps longer than 2^-5 s are not tried

/// An English table without pockets, with what every engine can be told: one friction between
/// balls at every slip speed, and no bounce off the bed.
engine::Table closed_table() {
  engine::Table table = *engine::table_preset("english-7ft");
  const double w = table.width_m;
  const double l = table.length_m;
  table.pockets.clear();
  table.rails = {engine::RailSegment{{0, 0}, {w, 0}}, engine::RailSegment{{w, 0}, {w, l}},
                 engine::RailSegment{{w, l}, {0, l}}, engine::RailSegment{{0, l}, {0, 0}}};
  table.ball_contact.friction_a = 0.06;
  table.ball_contact.friction_b = 0;
  table.cloth.bed_restitution = 0;
  return table;
}

bool is_simple(const engine::Shot& shot) {
  std::size_t meetings = 0;
  std::size_t cushions = 0;
  for (const engine::Event& event : shot.events) {
    meetings += event.kind == engine::EventKind::ball_ball ? 1 : 0;
    cushions += event.kind == engine::EventKind::cushion && event.ball == 0 ? 1 : 0;
    if (event.kind == engine::EventKind::off_table) return false;
  }
  return meetings == 1 && (cushions == 1 || cushions == 2);
}

/// Four balls; the cue ball, just struck, meets one of them and then one or two cushions. Shots in
/// which more happens are left out: each further meeting multiplies every engine's error.
std::vector<Start> simple_shots(const engine::Playfield& field) {
  const engine::Table& table = field.table();
  constexpr std::array<Vec2, 4> at{{{0.42, 0.62}, {0.30, 1.32}, {0.71, 1.11}, {0.18, 0.34}}};
  std::vector<Start> shots;
  for (int turn = 0; shots.size() < shots_wanted; ++turn) {
    const Vec2 line = at[static_cast<std::size_t>(1 + turn % 3)] - at[0];
    const engine::Strike strike{.aim_rad = angle_rad(line) + 0.06 * std::sin(2.4 * turn),
                                .side = 0.25 * std::sin(0.9 * turn),
                                .height = 0.3 * std::cos(1.3 * turn),
                                .cue_speed_mps = 0.9 + 0.5 * (1 + std::sin(3.1 * turn))};
    Start start;
    for (std::size_t i = 0; i < at.size(); ++i) {
      start.push_back({.position = lift(at[i], ball_at(table, i).radius_m)});
    }
    start[0] = struck(start[0], strike, table.cue_ball, table.cue, table.cloth);
    if (is_simple(simulate_from(field, start))) shots.push_back(start);
  }
  return shots;
}

double processor_s() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

/// The n-th part of a list in order of size: 0.5 is the median.
double quantile(std::vector<double> values, double part) {
  const auto n = static_cast<std::size_t>(std::ceil(part * static_cast<double>(values.size()))) - 1;
  std::ranges::nth_element(values, values.begin() + static_cast<std::ptrdiff_t>(n));
  return values[n];
}

struct Played {
  std::vector<Places> ends;
  double a_shot_s = 0;
};

template <typename Play>
Played played(const std::vector<Start>& shots, const Play& play) {
  Played all;
  const double began_s = processor_s();
  for (const Start& shot : shots) all.ends.push_back(play(shot));
  all.a_shot_s = (processor_s() - began_s) / static_cast<double>(shots.size());
  return all;
}

/// For each shot, how far the ball that ended furthest from its place in the other answer is from
/// it, m.
std::vector<double> apart_m(const Played& one, const Played& other) {
  std::vector<double> apart;
  for (std::size_t shot = 0; shot < one.ends.size(); ++shot) {
    double most = 0;
    for (std::size_t i = 0; i < one.ends[shot].size(); ++i) {
      const double off = norm(one.ends[shot][i] - other.ends[shot][i]);
      most = std::max(most, std::isfinite(off) ? off : std::numeric_limits<double>::infinity());
    }
    apart.push_back(most);
  }
  return apart;
}

/// Our engine has no step. Rounds are repeated until the clock's own step does not matter.
Played ours(const engine::Playfield& field, const std::vector<Start>& shots) {
  const auto play = [&](const Start& shot) {
    Places places;
    for (const auto& ending : simulate_from(field, shot).endings) {
      places.push_back(plan(ending.position));
    }
    return places;
  };
  Played first = played(shots, play);
  constexpr int rounds = 1000;
  double all_s = 0;
  for (int i = 0; i < rounds; ++i) all_s += played(shots, play).a_shot_s;
  first.a_shot_s = all_s / rounds;
  return first;
}

struct Rival {
  std::string name;
  Stepper play;
  int finest = 0;  ///< its converged answer is that of steps of 2^-finest s
};

double share_within(const std::vector<double>& apart, double near) {
  const auto within = std::ranges::count_if(apart, [&](double m) { return m <= near; });
  return static_cast<double>(within) / static_cast<double>(apart.size());
}

/// The coarsest step that is good, with all finer ones; nothing when not even the second finest is.
struct Good {
  int halvings = 0;
  double a_shot_s = 0;
};

/// Prints the whole ladder of steps, from fine to coarse, down to a few below the first that fails.
std::optional<Good> coarsest_good(const Rival& rival, const std::vector<Start>& shots,
                                  const Played& our) {
  const auto with_step = [&](int halvings) {
    return played(shots,
                  [&](const Start& shot) { return rival.play(shot, std::ldexp(1, -halvings)); });
  };
  const Played converged = with_step(rival.finest);
  const auto from_ours = apart_m(converged, our);
  fmt::print("\n{}, steps of {:.4f} ms taken as converged; {:.0f} mm (median) from our answer\n\n",
             rival.name, 1e3 * std::ldexp(1, -rival.finest), 1e3 * quantile(from_ours, 0.5));
  fmt::print("| step, ms | within 5 mm | median, mm | 9 in 10 within, mm | ms a shot |\n");
  fmt::print("| ---: | ---: | ---: | ---: | ---: |\n");
  std::optional<Good> good;
  int fails = 0;
  for (int halvings = rival.finest - 1; halvings >= coarsest && fails < 3; --halvings) {
    const Played tried = with_step(halvings);
    const auto off = apart_m(tried, converged);
    const double share = share_within(off, near_m);
    fmt::print("| {:.4f} | {:.0f}% | {:.2f} | {:.1f} | {:.3f} |\n", 1e3 * std::ldexp(1, -halvings),
               100 * share, 1e3 * quantile(off, 0.5), 1e3 * quantile(off, 0.9),
               1e3 * tried.a_shot_s);
    std::fflush(stdout);
    fails += share < share_wanted ? 1 : 0;
    if (fails == 0) good = {halvings, tried.a_shot_s};
  }
  return good;
}

int run() {
  const engine::Playfield field(closed_table());
  const engine::Table& table = field.table();
  const auto shots = simple_shots(field);
  const Played first = ours(field, shots);
  fmt::print("{} shots with four balls, one after another on one core.\n", shots.size());

  // A name, the answer taken as converged, and the coarsest good step of each.
  const std::array rivals{Rival{"ODE", ode_stepper(table), 14},
                          Rival{"Bullet", bullet_stepper(table), 14},
                          Rival{"MuJoCo", mujoco_stepper(table), 16}};
  std::vector<std::optional<Good>> good;
  for (const Rival& rival : rivals) good.push_back(coarsest_good(rival, shots, first));

  // Timed before and after the others, so that a machine that slowed down meanwhile shows.
  const Played last = ours(field, shots);
  const double our_s = 0.5 * (first.a_shot_s + last.a_shot_s);
  fmt::print("\n| engine | step, ms | ms a shot | times ours |\n| --- | ---: | ---: | ---: |\n");
  fmt::print("| ours, before and after the others | none | {:.4f}, {:.4f} | 1 |\n",
             1e3 * first.a_shot_s, 1e3 * last.a_shot_s);
  for (std::size_t i = 0; i < rivals.size(); ++i) {
    if (good[i]) {
      fmt::print("| {} | {:.4f} | {:.2f} | {:.0f} |\n", rivals[i].name,
                 1e3 * std::ldexp(1, -good[i]->halvings), 1e3 * good[i]->a_shot_s,
                 good[i]->a_shot_s / our_s);
    } else {
      fmt::print("| {} | no step tried is good | | |\n", rivals[i].name);
    }
  }
  return 0;
}

}  // namespace
}  // namespace ahead::bench

int main() { return ahead::bench::run(); }
