#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <iterator>
#include <limits>
#include <span>
#include <string>
#include <vector>

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
/// A step is good for a shot when every ball ends this near to the converged answer.
constexpr double near_m = 0.005;

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

/// How a rival did with one step.
struct Tried {
  double step_s = 0;
  double a_shot_s = 0;
  double share_near = 0;
};

/// Prints the ladder of steps, from twice the finest up to the first at which less than half of
/// the shots end near the converged answer. (At twice the finest step half the error shows, since
/// these engines' errors go down with the step.)
std::vector<Tried> ladder(const Rival& rival, const std::vector<Start>& shots, const Played& our) {
  const auto with_step = [&](double step_s) {
    return played(shots, [&](const Start& shot) { return rival.play(shot, step_s); });
  };
  double step_s = std::ldexp(1, -rival.finest);
  const Played converged = with_step(step_s);
  fmt::print("\n{}, steps of {:.4f} ms taken as converged; {:.0f} mm (median) from our answer\n\n",
             rival.name, 1e3 * step_s, 1e3 * quantile(apart_m(converged, our), 0.5));
  fmt::print("| step, ms | within 5 mm | median, mm | 9 in 10 within, mm | ms a shot |\n");
  fmt::print("| ---: | ---: | ---: | ---: | ---: |\n");
  std::vector<Tried> steps;
  do {
    step_s *= 2;
    const Played shown = with_step(step_s);
    const auto off = apart_m(shown, converged);
    steps.push_back({step_s, shown.a_shot_s, share_within(off, near_m)});
    fmt::print("| {:.4f} | {:.0f}% | {:.2f} | {:.1f} | {:.2f} |\n", 1e3 * step_s,
               100 * steps.back().share_near, 1e3 * quantile(off, 0.5), 1e3 * quantile(off, 0.9),
               1e3 * shown.a_shot_s);
    std::fflush(stdout);
  } while (steps.back().share_near >= 0.5);
  return steps;
}

/// The coarsest step that is good, with all finer ones, by this share of the shots. Where none is,
/// the finest that was tried, as a bound.
void print_verdict(const std::string& name, const std::vector<Tried>& steps, double share,
                   double our_s) {
  const auto fails =
      std::ranges::find_if(steps, [share](const Tried& tried) { return tried.share_near < share; });
  const bool good = fails != steps.begin();
  const Tried& tried = good ? *std::prev(fails) : steps.front();
  fmt::print("| {} | {:.0f}% | {}{:.4f} | {}{:.1f} | {}{:.0f} |\n", name, 100 * share,
             good ? "" : "below ", 1e3 * tried.step_s, good ? "" : "above ", 1e3 * tried.a_shot_s,
             good ? "" : "above ", tried.a_shot_s / our_s);
}

/// Far from cushions, where all have the same model: how far each engine ends from our answer.
void print_agreement(const engine::Playfield& field, std::span<const Rival> rivals) {
  const engine::Table& table = field.table();
  const double R = table.cue_ball.radius_m;
  struct Case {
    const char* name = nullptr;
    BallState cue;
    Vec2 object;
  };
  constexpr Vec2 aside{0.10, 0.10};
  const std::array cases{
      Case{"roll", {.velocity = {0.2, 0.4}, .spin = {-0.4 / R, 0.2 / R}}, aside},
      Case{"slide into a roll", {.velocity = {0, 0.6}}, aside},
      Case{"swerve", {.velocity = {0, 0.9}, .spin = {0.5 / R, 0.5 / R, 10}}, aside},
      Case{"full contact", {.velocity = {0, 0.8}}, {0.45, 0.50}},
      Case{"half-ball contact", {.velocity = {0, 0.8}, .spin = {-0.8 / R, 0}}, {0.475, 0.50}}};
  fmt::print("\nAway from our answer with steps of 0.24 ms, mm\n\n| case |");
  for (const Rival& rival : rivals) fmt::print(" {} |", rival.name);
  fmt::print("\n| --- | ---: | ---: | ---: |\n");
  for (const Case& one : cases) {
    const std::array<Vec2, 4> at{{{0.45, 0.30}, one.object, {0.80, 0.10}, {0.10, 1.70}}};
    Start start(at.size());
    start[0] = one.cue;
    for (std::size_t i = 0; i < at.size(); ++i) {
      start[i].position = lift(at[i], ball_at(table, i).radius_m);
    }
    const auto our = simulate_from(field, start).endings;
    fmt::print("| {} |", one.name);
    for (const Rival& rival : rivals) {
      const Places places = rival.play(start, std::ldexp(1, -12));
      double most = 0;
      for (std::size_t i = 0; i < places.size(); ++i) {
        most = std::max(most, norm(places[i] - plan(our[i].position)));
      }
      fmt::print(" {:.1f} |", 1e3 * most);
    }
    fmt::print("\n");
  }
}

int run() {
  const engine::Playfield field(closed_table());
  const engine::Table& table = field.table();
  const auto shots = simple_shots(field);
  const Played first = ours(field, shots);
  fmt::print("{} shots with four balls, one after another on one core.\n", shots.size());

  // With steps finer than these Bullet's answers scatter, and MuJoCo takes many minutes.
  const std::array rivals{Rival{"ODE", ode_stepper(table), 16},
                          Rival{"Bullet", bullet_stepper(table), 15},
                          Rival{"MuJoCo", mujoco_stepper(table), 16}};
  print_agreement(field, rivals);
  std::vector<std::vector<Tried>> ladders;
  for (const Rival& rival : rivals) ladders.push_back(ladder(rival, shots, first));

  // Timed before and after the others, so that a machine that slowed down meanwhile shows.
  const Played last = ours(field, shots);
  const double our_s = 0.5 * (first.a_shot_s + last.a_shot_s);
  fmt::print("\n| engine | shots within 5 mm | step, ms | ms a shot | times ours |\n");
  fmt::print("| --- | ---: | ---: | ---: | ---: |\n");
  fmt::print("| ours, before and after the others | | none | {:.4f}, {:.4f} | 1 |\n",
             1e3 * first.a_shot_s, 1e3 * last.a_shot_s);
  for (std::size_t i = 0; i < rivals.size(); ++i) {
    for (const double share : {0.5, 0.9}) {
      print_verdict(rivals[i].name, ladders[i], share, our_s);
    }
  }
  return 0;
}

}  // namespace
}  // namespace ahead::bench

int main() { return ahead::bench::run(); }
