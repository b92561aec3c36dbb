#include "coach/leaves/pot_analysis.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include <tbb/parallel_for.h>

#include "coach/leaves/leave_search.h"
#include "engine/contact/ball_ball.h"
#include "engine/contact/landing.h"
#include "engine/motion/motion.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

constexpr std::array heights{-0.40, -0.25, -0.10, 0.0, 0.15, 0.30};
constexpr std::array sides{0.0, -0.25, 0.25};
constexpr std::array speeds_mps{0.6, 0.9, 1.35, 2.0, 2.8};

/// Strikes that are played out, and how often.
constexpr std::size_t most_strikes = 12;
constexpr int tries_a_strike = 1000;

std::vector<Prospect> prospects_of(const Scene& scene, const Position& position, const Way& way) {
  constexpr std::size_t touches = heights.size() * sides.size() * speeds_mps.size();
  std::vector<std::optional<Prospect>> found(touches);
  tbb::parallel_for(std::size_t{0}, touches, [&](std::size_t i) {
    found[i] = prospect_of(scene, position, way,
                           {.side = sides[i / speeds_mps.size() % sides.size()],
                            .height = heights[i / (speeds_mps.size() * sides.size())],
                            .cue_speed_mps = speeds_mps[i % speeds_mps.size()]});
  });
  std::vector<Prospect> prospects;
  for (auto& one : found) {
    if (one) prospects.push_back(*std::move(one));
  }
  return prospects;
}

std::vector<Prospect> surest_prospects(const Scene& scene, const Position& position,
                                       const Way& way) {
  auto prospects = prospects_of(scene, position, way);
  std::ranges::stable_sort(prospects, std::ranges::greater{}, &Prospect::pot);
  prospects.resize(std::min(prospects.size(), most_strikes));
  return prospects;
}

std::vector<Prospect> prospects_for(const Scene& scene, const Position& position, const Way& way,
                                    const Worth& worth, std::uint64_t seed) {
  std::vector<Prospect> prospects;
  for (LeaveStrike& strike : search_leave(scene, position, way, worth, seed)) {
    prospects.push_back(std::move(strike.prospect));
  }
  return prospects;
}

LineOfPosition line_of_position(const Position& position, const Prospect& prospect,
                                const Worth& worth, int next_ball) {
  const Vec2 rest = prospect.leaves.at[0];
  const Vec2 to_ball = position.at[static_cast<std::size_t>(next_ball)] - rest;
  const double along = engine::dot(engine::unit(prospect.drift), engine::unit(to_ball));
  return {.angle_rad = std::acos(std::min(1.0, std::abs(along))),
          .as_meant = worth(rest),
          .short_of = worth(rest - prospect.drift),
          .past = worth(rest + prospect.drift)};
}

LeaveFacts leave_facts(const Scene& scene, const Position& position, const Prospect& prospect,
                       const std::vector<Try>& tries, const Worth& worth) {
  double landed = 0;
  for (const Try& one : tries) {
    if (succeeded(one)) landed += worth(one.leaves.at[0]);
  }
  const Call call = call_of(prospect);
  LeaveFacts facts{.lands = chance_of(static_cast<int>(std::lround(landed)), tries_a_strike),
                   .tolerances = tolerances_of(scene, position, call, worth),
                   .misses = misses_of(scene, position, call, worth)};
  if (const auto* next = std::get_if<NextPot>(&worth.wanted())) {
    facts.line = line_of_position(position, prospect, worth, next->ball);
  }
  return facts;
}

/// The line of a cue ball that rolls into the ghost ball along `aim`.
double natural_rad(const engine::Table& table, Vec2 aim, Vec2 ghost, Vec2 object) {
  constexpr double medium_mps = 1.0;
  const double radius_m = table.cue_ball.radius_m;
  const Vec2 v = medium_mps * engine::unit(aim);
  const engine::BallState rolling{.position = engine::lift(ghost, radius_m),
                                  .velocity = engine::lift(v),
                                  .spin = {-v.y / radius_m, v.x / radius_m, 0}};
  const engine::BallState resting{.position = engine::lift(object, table.object_ball.radius_m)};
  const auto [cue, other] =
      engine::collided(rolling, table.cue_ball, resting, table.object_ball, table.ball_contact);
  return engine::angle_rad(engine::rolling_velocity_to_come(
      engine::settled_on_bed(cue, table.cue_ball, table.cloth), table.cue_ball));
}

std::vector<ReachableLeave> reachable_leaves(const Scene& scene, const Position& position,
                                             const Way& way) {
  const engine::Table& table = scene.field.table();
  const Vec2 object = position.at[static_cast<std::size_t>(way.ball)];
  const std::vector<Touch> touches = leave_touches();
  std::vector<std::optional<ReachableLeave>> found(touches.size());
  tbb::parallel_for(std::size_t{0}, touches.size(), [&](std::size_t i) {
    const auto prospect = prospect_of(scene, position, way, touches[i]);
    if (!prospect) return;
    ReachableLeave& leave = found[i].emplace();
    leave = {.touch = touches[i],
             .pot = prospect->pot,
             .rest = prospect->leaves.at[0],
             .touched = prospect->touched};
    const auto contact = first_contact(table, position.at[0], object, prospect->strike);
    if (contact) leave.roll_at_contact = roll_of(contact->cue_before, table.cue_ball);
  });
  std::vector<ReachableLeave> leaves;
  for (const auto& one : found) {
    if (one) leaves.push_back(*one);
  }
  return leaves;
}

}  // namespace

PotAnalysis analyse_pot(const Scene& scene, const Position& position, int ball, int pocket,
                        const std::optional<Wanted>& wanted, std::uint64_t seed) {
  const engine::Table& table = scene.field.table();
  const Vec2 object = position.at[static_cast<std::size_t>(ball)];
  PotAnalysis analysis{.ball = ball, .pocket = pocket, .wanted = wanted};
  analysis.to_pocket_m =
      engine::norm(table.pockets[static_cast<std::size_t>(pocket)].centre - object);
  const auto ways = ways_of(scene, position, ball);
  const auto way = std::ranges::find(ways, pocket, &Way::pocket);
  if (way == ways.end()) {
    analysis.no_pot = NoPot::closed;
    return analysis;
  }
  analysis.gates = shown(way->gates);
  analysis.blockers = way->blockers & position.present;
  const Vec2 line = engine::direction(way->gates.middle_rad());
  analysis.ghost = ghost_ball(table, object, object + line);
  const Vec2 aim = analysis.ghost - position.at[0];
  const bool to_left = engine::cross(aim, line) > 0;
  // The cue ball leaves on the other side from the object ball.
  analysis.tangent_rad =
      engine::angle_rad(line) + (to_left ? -std::numbers::pi / 2 : std::numbers::pi / 2);
  if (analysis.blockers != 0) {
    analysis.no_pot = NoPot::blocked;
    return analysis;
  }
  if (engine::dot(aim, line) <= 0) {
    analysis.no_pot = NoPot::cut_too_fine;
    return analysis;
  }

  analysis.natural_rad = natural_rad(table, aim, analysis.ghost, object);
  analysis.face = face_of(scene, position, engine::angle_rad(aim));
  const auto worth =
      wanted ? std::optional<Worth>(std::in_place, scene, position, ball, *wanted) : std::nullopt;
  const auto prospects = worth ? prospects_for(scene, position, *way, *worth, seed)
                               : surest_prospects(scene, position, *way);
  if (prospects.empty()) {
    const bool reached = std::ranges::any_of(
        analysis.face.places, [](const FacePlace& place) { return recommended(place.access); });
    analysis.no_pot = reached ? NoPot::no_strike : NoPot::no_access;
    return analysis;
  }
  for (const Prospect& prospect : prospects) {
    const Call call = call_of(prospect);
    const auto tries = tries_of(scene, position, call, tries_a_strike, seed + 0x7a11);
    AnalysedStrike strike{.option = described(scene, position, call)};
    add_tries(strike.option, tries);
    if (worth) strike.leave = leave_facts(scene, position, prospect, tries, *worth);
    analysis.strikes.push_back(std::move(strike));
  }
  analysis.reachable = reachable_leaves(scene, position, *way);
  if (worth) {
    double likeliest = 0;
    for (const AnalysedStrike& strike : analysis.strikes) {
      likeliest = std::max(likeliest, strike.leave->lands.value);
    }
    analysis.price_of_plain = likeliest - analysis.strikes.front().leave->lands.value;
  } else {
    std::ranges::stable_sort(analysis.strikes, std::ranges::greater{},
                             [](const AnalysedStrike& strike) { return strike.option.pot.value; });
  }
  return analysis;
}

}  // namespace ahead::coach
