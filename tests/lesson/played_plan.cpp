#include "tests/lesson/played_plan.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "coach/player/scatter.h"
#include "engine/equipment/presets.h"
#include "engine/simulate/simulate.h"
#include "engine/simulate/stretch.h"

namespace ahead::lesson::played {
namespace {

using coach::Layout;
using coach::PlannedShot;
using coach::ShotOption;
using engine::Shot;
using engine::Table;
using engine::Vec2;

constexpr double pi = std::numbers::pi;

std::vector<Vec2> centres(const Layout& layout) {
  std::vector<Vec2> all;
  for (const coach::LayoutBall& ball : layout.balls) all.push_back(ball.at);
  return all;
}

Shot play(const Layout& layout, const engine::Strike& strike) {
  static const engine::Playfield field(layout.table);
  return engine::simulate(field, centres(layout), strike);
}

bool pots(const Shot& shot, const ShotOption& option) {
  return shot.endings[static_cast<std::size_t>(option.ball)].pocket == option.pocket;
}

bool fouls(const Shot& shot) { return !shot.endings[0].on_table(); }

int first_met(const Shot& shot) {
  for (const engine::Event& event : shot.events) {
    if (event.kind == engine::EventKind::ball_ball && event.ball == 0) return event.other;
  }
  return -1;
}

coach::Chance chance_of(int good, int trials) {
  // Wilson (1927): never certain, however few or many succeed.
  constexpr double z = 1.96;
  const double p = static_cast<double>(good) / trials;
  const double scale = 1 / (1 + z * z / trials);
  const double middle = scale * (p + z * z / (2.0 * trials));
  const double half = scale * z * std::sqrt((p * (1 - p) + z * z / (4.0 * trials)) / trials);
  return {.value = p, .low = middle - half, .high = middle + half, .trials = trials};
}

/// The middle of the aims near the plain one that pot the ball; nothing when there are none.
bool aim(const Layout& layout, ShotOption& option) {
  const Table& table = layout.table;
  const Vec2 ball = layout.balls[static_cast<std::size_t>(option.ball)].at;
  const Vec2 cue = layout.balls[0].at;
  const Vec2 pocket = table.pockets[static_cast<std::size_t>(option.pocket)].centre;
  const Vec2 line = engine::unit(pocket - ball);
  const Vec2 ghost =
      ball - 2 * std::sqrt(table.cue_ball.radius_m * table.object_ball.radius_m) * line;
  const Vec2 towards = engine::unit(ghost - cue);
  option.cut_rad = std::acos(std::clamp(engine::dot(towards, line), -1.0, 1.0));
  if (option.cut_rad > 1.1) return false;
  option.cut_to_left = engine::cross(towards, line) > 0;
  option.thickness = 1 - std::sin(option.cut_rad);
  option.to_ball_m = engine::norm(ghost - cue);
  option.to_pocket_m = engine::norm(pocket - ball);

  const double plain_rad = engine::angle_rad(towards) -
                           engine::deflection_rad(option.strike.side, table.cue_ball, table.cue);
  std::vector<double> good;
  for (int i = -30; i <= 30; ++i) {
    option.strike.aim_rad = plain_rad + i * 0.001;
    const Shot shot = play(layout, option.strike);
    if (pots(shot, option) && !fouls(shot)) good.push_back(option.strike.aim_rad);
  }
  if (good.empty()) return false;
  option.strike.aim_rad = good[good.size() / 2];
  option.intended = play(layout, option.strike);
  return pots(option.intended, option) && !fouls(option.intended);
}

void describe_path(const Layout& layout, ShotOption& option) {
  coach::CueBallPath& path = option.cue_path;
  const double R = layout.table.cue_ball.radius_m;
  double contact_s = -1;
  for (const engine::Event& event : option.intended.events) {
    if (event.ball != 0) continue;
    if (event.kind == engine::EventKind::ball_ball) {
      if (contact_s < 0) {
        contact_s = event.t_s;
      } else {
        path.meets.push_back(event.other);
      }
    }
    if (event.kind == engine::EventKind::cushion) {
      ++(contact_s < 0 ? path.cushions_before : path.cushions_after);
    }
  }
  for (const engine::Stretch& stretch : engine::path_of(option.intended, 0)) {
    const engine::BallState end = engine::state_at(stretch, layout.table, stretch.t1_s);
    if (stretch.t1_s <= contact_s + 1e-9) {
      const Vec2 v = engine::plan(end.velocity);
      const Vec2 along = engine::unit(v);
      path.speed_at_contact_mps = engine::norm(v);
      path.roll_at_contact =
          R * engine::cross(along, engine::plan(end.spin)) / std::max(1e-9, engine::norm(v));
      path.side_at_contact = -R * end.spin.z / std::max(1e-9, engine::norm(v));
    } else {
      path.travel_after_m += engine::norm(engine::plan(end.position - stretch.start.position));
    }
  }
  path.rest = engine::plan(option.intended.endings[0].position);
}

void play_out(const Layout& layout, const coach::Player& player, int trials, ShotOption& option) {
  const Table& table = layout.table;
  int potted = 0;
  for (int i = 0; i < trials; ++i) {
    coach::Random random(1, static_cast<std::uint64_t>(i));
    const coach::Slip slip =
        coach::drawn(player, {.elevation_rad = option.strike.elevation_rad}, random);
    const engine::Strike strike = coach::played(option.strike, slip, table);
    const double share = 1.0 / trials;
    if (engine::miscues(strike, table.cue)) {
      option.fates.wrong_first += share;
      continue;
    }
    const Shot shot = play(layout, strike);
    if (fouls(shot)) {
      option.fates.in_off += share;
    } else if (first_met(shot) != option.ball) {
      option.fates.wrong_first += share;
    } else if (pots(shot, option)) {
      ++potted;
      option.fates.good += share;
      option.landings.push_back(engine::plan(shot.endings[0].position));
    } else {
      const bool left = slip.direction_rad > 0;
      (left == option.cut_to_left ? option.fates.missed_thick : option.fates.missed_thin) += share;
    }
  }
  option.pot = chance_of(potted, trials);
}

std::vector<ShotOption> options(const Layout& layout, const coach::Player& player) {
  std::vector<ShotOption> all;
  // The group of the second ball in the list; the black when it is alone.
  const auto grouped = std::ranges::find_if(layout.balls, [](const auto& ball) {
    return ball.colour != coach::Colour::cue && ball.colour != coach::Colour::black;
  });
  const bool reds_left = std::ranges::any_of(
      layout.balls, [](const auto& ball) { return ball.colour == coach::Colour::red; });
  const coach::Colour wanted =
      reds_left                                                               ? coach::Colour::red
      : layout.to_play == coach::ToPlay::red || grouped == layout.balls.end() ? coach::Colour::black
                                                                              : grouped->colour;
  for (int ball = 1; ball < static_cast<int>(layout.balls.size()); ++ball) {
    if (layout.balls[static_cast<std::size_t>(ball)].colour != wanted) continue;
    for (int pocket = 0; pocket < 6; ++pocket) {
      for (const engine::Strike strike :
           {engine::Strike{
                .elevation_rad = 0.08, .side = 0.15, .height = 0.2, .cue_speed_mps = 1.3},
            engine::Strike{
                .elevation_rad = 0.08, .side = -0.2, .height = -0.3, .cue_speed_mps = 1.8},
            engine::Strike{.elevation_rad = 0.30, .height = -0.4, .cue_speed_mps = 1.5},
            engine::Strike{.elevation_rad = 0.08, .height = 0.3, .cue_speed_mps = 0.8},
            engine::Strike{.elevation_rad = 0.08, .height = -0.12, .cue_speed_mps = 1.1}}) {
        ShotOption option{.ball = ball, .pocket = pocket, .strike = strike};
        if (!aim(layout, option)) continue;
        play_out(layout, player, 60, option);
        all.push_back(option);
      }
    }
  }
  std::ranges::stable_sort(all, std::greater{}, [](const auto& o) { return o.pot.value; });
  return all;
}

Layout after(const Layout& before, const Shot& shot) {
  Layout left = before;
  left.balls.clear();
  for (std::size_t i = 0; i < before.balls.size(); ++i) {
    if (!shot.endings[i].on_table()) continue;
    left.balls.push_back(before.balls[i]);
    left.balls.back().at = engine::plan(shot.endings[i].position);
  }
  return left;
}

PlannedShot planned(const Layout& layout, const coach::Player& player,
                    const std::vector<ShotOption>& found) {
  PlannedShot shot{.before = layout, .best = found.front()};
  shot.best.fates = {};
  shot.best.landings.clear();
  play_out(layout, player, 400, shot.best);
  describe_path(layout, shot.best);
  if (found.size() > 1) {
    shot.runner_up = found[1];
    shot.why_lost = found[1].pot.value < shot.best.pot.low ? coach::WhyLost::harder_pot
                                                           : coach::WhyLost::too_close_to_call;
  }
  return shot;
}

}  // namespace

Layout evening_class_layout() {
  using enum coach::Colour;
  return {.table = engine::table_preset("english-7ft").value(),
          .to_play = coach::ToPlay::open,
          .balls = {{"cue", cue, {0.430, 0.520}},
                    {"red-1", red, {0.700, 0.830}},
                    {"red-2", red, {0.250, 1.150}},
                    {"red-3", red, {0.620, 1.480}},
                    {"red-4", red, {0.150, 0.420}},
                    {"yellow-1", yellow, {0.330, 1.600}},
                    {"yellow-2", yellow, {0.780, 1.250}},
                    {"yellow-3", yellow, {0.540, 0.230}},
                    {"black", black, {0.480, 1.330}}}};
}

coach::Plan plan_of(const Layout& layout, int most_shots) {
  coach::Plan plan{
      .layout = layout,
      .player = coach::player_preset("professional").value(),
      .colour = layout.to_play == coach::ToPlay::open ? coach::ToPlay::red : layout.to_play};
  Layout now = layout;
  for (int i = 0; i < most_shots && now.balls.size() > 1; ++i) {
    const std::vector<ShotOption> found = options(now, plan.player);
    if (found.empty()) break;
    plan.shots.push_back(planned(now, plan.player, found));
    now = after(now, plan.shots.back().best.intended);
  }
  return plan;
}

const coach::Plan& plan() {
  static const coach::Plan once = [] {
    coach::Plan plan{.layout = evening_class_layout(),
                     .player = coach::player_preset("professional").value(),
                     .colour = coach::ToPlay::red};
    Layout layout = plan.layout;
    double all = 1;
    while (layout.balls.size() > 1) {
      const std::vector<ShotOption> found = options(layout, plan.player);
      if (found.empty()) break;
      plan.shots.push_back(planned(layout, plan.player, found));
      all *= plan.shots.back().best.pot.value;
      layout = after(layout, plan.shots.back().best.intended);
      const bool black_gone = std::ranges::none_of(
          layout.balls, [](const auto& ball) { return ball.colour == coach::Colour::black; });
      if (black_gone) break;
    }
    double from_here = 1;
    for (std::size_t i = plan.shots.size(); i-- > 0;) {
      PlannedShot& shot = plan.shots[i];
      shot.best.next_pot = i + 1 < plan.shots.size() ? plan.shots[i + 1].best.pot.value : 1;
      if (shot.runner_up) {
        shot.runner_up->clear = chance_of(
            static_cast<int>(std::lround(400 * shot.runner_up->pot.value * from_here)), 400);
        shot.runner_up->next_pot = shot.best.next_pot;
      }
      from_here *= shot.best.pot.value;
      shot.best.clear = chance_of(static_cast<int>(std::lround(400 * from_here)), 400);
    }
    plan.clear = chance_of(static_cast<int>(std::lround(400 * all)), 400);
    plan.weighed = {{coach::ToPlay::red, plan.clear}, {coach::ToPlay::yellow, chance_of(60, 400)}};
    return plan;
  }();
  return once;
}

}  // namespace ahead::lesson::played
