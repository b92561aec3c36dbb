#pragma once

#include <vector>

#include "coach/layout.h"
#include "coach/plan/plan.h"
#include "coach/trial/report.h"
#include "engine/simulate/simulate.h"
#include "formats/layout.h"
#include "tests/formats/evening.h"

/// Values that the writers are tried on.
namespace ahead::test {

inline coach::Layout evening() { return formats::read_layout(evening_text(), "f").value(); }

/// The evening's first red, hit with some side: meets balls and cushions.
inline engine::Strike first_strike() {
  return {
      .aim_rad = 2.063, .elevation_rad = 0.05, .side = -0.2, .height = -0.3, .cue_speed_mps = 2.5};
}

inline engine::Shot played(const coach::Layout& layout, const engine::Strike& strike) {
  std::vector<engine::Vec2> centres;
  for (const coach::LayoutBall& ball : layout.balls) centres.push_back(ball.at);
  return engine::simulate(engine::Playfield(layout.table), centres, strike);
}

/// A plan of two shots with every member set, one of them without a runner-up.
inline coach::Plan small_plan() {
  coach::ShotOption option{
      .ball = 1,
      .pocket = 4,
      .strike = first_strike(),
      .cut_rad = 0.4,
      .cut_to_left = true,
      .thickness = 0.61,
      .to_ball_m = 0.5,
      .to_pocket_m = 0.9,
      .pot = {.value = 0.7, .low = 0.66, .high = 0.74, .trials = 500},
      .clear = {.value = 0.3, .low = 0.26, .high = 0.34, .trials = 500},
      .fates = {.good = 0.68, .missed_thick = 0.2, .missed_thin = 0.1, .in_off = 0.02},
      .next_pot = 0.8,
      .cue_path = {.speed_at_contact_mps = 1.5,
                   .roll_at_contact = -0.2,
                   .cushions_after = 1,
                   .travel_after_m = 0.7,
                   .rest = {0.4, 0.6},
                   .meets = {3}},
      .landings = {{0.4, 0.6}, {0.41234567, 0.59}}};
  coach::Plan plan{.layout = evening(),
                   .player = coach::player_preset("club").value(),
                   .colour = coach::ToPlay::red};
  plan.weighed = {{coach::ToPlay::red, option.clear}, {coach::ToPlay::yellow, {}}};
  plan.clear = option.clear;
  plan.simulated_shots = 12345;
  plan.effort = coach::Effort::deep;
  plan.partial = true;
  plan.bet = coach::Bet{.after_failure = 0.35,
                        .safe = {.ball = 1,
                                 .pocket = 4,
                                 .strike = first_strike(),
                                 .thickness = 0.25,
                                 .cut_rad = 0.8,
                                 .cut_to_left = true,
                                 .intended = played(plan.layout, first_strike()),
                                 .pots = 0.3,
                                 .foul = 0.05,
                                 .clears = 0.02,
                                 .best_pot = 0.3,
                                 .tries = 200},
                        .attack = 0.4,
                        .defence = 0.49};
  plan.shots.push_back(
      {.before = plan.layout,
       .best = option,
       .runner_up = option,
       .why_lost = coach::WhyLost::worse_position,
       .moment = {.key_ball = true, .goes_from = 0.125, .cover = 2, .frees = {1}}});
  plan.shots.push_back(
      {.before = plan.layout, .best = option, .runner_up = {}, .why_lost = {}, .moment = {}});
  return plan;
}

/// A trial of two policies with every member set.
inline coach::TrialReport small_trial() {
  coach::PolicyReport plan{.policy = coach::Policy::plan};
  plan.tally = {.runs = 3,
                .cleared = 1,
                .shots = 4,
                .outcomes = {1, 1, 0, 1, 0, 0, 0},
                .ended_with = {1, 0, 2},
                .pots = {{0.7, true}, {0.72, false}, {0.95, true}, {1, true}},
                .clearances = {{0.3, true}, {0.3, false}, {0.3, false}},
                .worths = {{0.4, true}, {0.6, true}, {0.3, false}, {0.2, false}},
                .simulated_shots = 4321};
  plan.layouts.push_back({.name = "evening",
                          .colour = coach::ToPlay::red,
                          .runs = 3,
                          .cleared = 1,
                          .stated = coach::chance_of(90, 300)});
  coach::PolicyReport greedy{.policy = coach::Policy::greedy};
  greedy.tally = {.runs = 3, .outcomes = {0, 0, 0, 0, 0, 0, 3}, .ended_with = {0, 0, 3}};
  greedy.layouts.push_back({.name = "evening", .colour = coach::ToPlay::red, .runs = 3});
  return {.player = coach::player_preset("club").value(),
          .seed = 7,
          .runs = 3,
          .policies = {plan, greedy}};
}

}  // namespace ahead::test
