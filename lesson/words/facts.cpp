#include "lesson/words/facts.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "lesson/words/names.h"

namespace ahead::lesson {
namespace {

using coach::PlannedShot;
using coach::ShotOption;
using engine::Vec2;

std::string means_words(const PlannedShot& shot, const ShotOption& option) {
  if (!option.indirect) return {};
  std::vector<std::string> names;
  for (const int ball : option.indirect->by) {
    names.push_back(ball_name(shot.before.balls[static_cast<std::size_t>(ball)].id));
  }
  switch (option.indirect->means) {
    case coach::Means::plant:
      return "by a plant from " + listed(names);
    case coach::Means::set:
      return "by a set, touching, from " + listed(names);
    case coach::Means::cannon:
      return "by a cannon off " + listed(names);
    case coach::Means::off_ball:
      return "in off " + listed(names);
    case coach::Means::cross_double:
      return "by a cross-double";
    case coach::Means::double_off:
      break;
  }
  return option.indirect->cushions == 1 ? "by a double off one cushion"
                                        : "by a double off two cushions";
}

OptionFacts option_facts(const PlannedShot& shot, const ShotOption& option) {
  const engine::Table& table = shot.before.table;
  const std::string thickness = thickness_words(option.thickness, option.cut_rad);
  return {
      .ball = ball_name(shot.before.balls[static_cast<std::size_t>(option.ball)].id),
      .pocket = pocket_name(table, option.pocket),
      .by = means_words(shot, option),
      .hit_first =
          coach::hit_first(option) == option.ball
              ? ""
              : ball_name(shot.before.balls[static_cast<std::size_t>(coach::hit_first(option))].id),
      .thickness = thickness,
      .straight = thickness == "straight",
      .cut_to_left = option.cut_to_left,
      .to_ball_m = option.to_ball_m,
      .to_pocket_m = option.to_pocket_m,
      .strike = strike_facts(option.strike, option.intended, table),
      .pot = option.pot,
      .clear = option.clear,
      .next_pot = option.next_pot,
      .fouls = option.fates.in_off + option.fates.wrong_first + option.fates.black_early};
}

std::vector<std::string> cushions_after_contact(const ShotOption& option,
                                                const engine::Table& table) {
  std::vector<std::string> names;
  bool after = false;
  for (const engine::Event& event : option.intended.events) {
    if (event.kind == engine::EventKind::ball_ball && event.ball == 0) after = true;
    if (!after || event.kind != engine::EventKind::cushion || event.ball != 0) continue;
    const std::string name{nearest_cushion(table, engine::plan(event.at))};
    // Both jaws of a pocket, or a ball that runs along a cushion, are told once.
    if (names.empty() || names.back() != name) names.push_back(name);
  }
  return names;
}

std::string_view area_of(const engine::Table& table, double y_m) {
  if (y_m < table.markings.baulk_line_m) return "in baulk";
  const double up = y_m / table.length_m;
  if (up < 0.42) return "between baulk and the middle pockets";
  if (up < 0.58) return "level with the middle pockets";
  if (up < 0.72) return "between the middle pockets and the spot";
  return "beyond the spot";
}

StopFacts planned_stop(const PlannedShot& shot, const PlannedShot* next) {
  const engine::Table& table = shot.before.table;
  const Vec2 rest = shot.best.cue_path.rest;
  StopFacts facts = stop_facts(table, rest);
  if (next != nullptr) {
    const coach::LayoutBall& ball = next->before.balls[static_cast<std::size_t>(next->best.ball)];
    facts.next_ball = ball_name(ball.id);
    facts.to_next_m = std::max(
        0.0, engine::norm(ball.at - rest) - table.cue_ball.radius_m - table.object_ball.radius_m);
  }
  return facts;
}

std::vector<Risk> risks_of(const coach::Fates& fates) {
  constexpr double least = 0.005;
  std::vector<Risk> all{{"missed thick", fates.missed_thick},
                        {"missed thin", fates.missed_thin},
                        {"in-off", fates.in_off},
                        {"wrong ball first", fates.wrong_first},
                        {"wrong ball potted", fates.black_early},
                        {"miscue", fates.miscue}};
  std::erase_if(all, [](const Risk& risk) { return risk.chance < least; });
  std::ranges::stable_sort(all, std::greater{}, &Risk::chance);
  return all;
}

}  // namespace

StopFacts stop_facts(const engine::Table& table, Vec2 rest) {
  const double edge_m = std::min({rest.x, table.width_m - rest.x, rest.y, table.length_m - rest.y});
  return {.cushion = nearest_cushion(table, rest),
          .gap_m = std::max(0.0, edge_m - table.cue_ball.radius_m),
          .area = area_of(table, rest.y)};
}

StrikeFacts strike_facts(const engine::Strike& strike, const engine::Shot& intended,
                         const engine::Table& table) {
  // The cue's centre line lies on the tip's dome, its radius further out than the touch.
  const double out_m = table.cue_ball.radius_m + table.cue.tip_radius_m;
  StrikeFacts facts{.height = strike.height,
                    .side = strike.side,
                    .cue_tips_up = strike.height * out_m / table.cue.tip_width_m,
                    .cue_tips_right = strike.side * out_m / table.cue.tip_width_m,
                    .elevation_deg = strike.elevation_rad * 180 / std::numbers::pi};
  for (const engine::Stretch& stretch : intended.stretches) {
    if (stretch.ball != 0) continue;
    facts.cue_ball_speed_mps = engine::norm(stretch.start.velocity);
    break;
  }
  return facts;
}

ShotFacts shot_facts(const coach::Plan& plan, std::size_t index) {
  const PlannedShot& shot = plan.shots[index];
  const bool last = index + 1 == plan.shots.size();
  const PlannedShot* next = last ? nullptr : &plan.shots[index + 1];
  const coach::CueBallPath& path = shot.best.cue_path;
  const auto named = [&](int ball) {
    return ball_name(shot.before.balls[static_cast<std::size_t>(ball)].id);
  };

  ShotFacts facts{
      .order = index + 1,
      .best = option_facts(shot, shot.best),
      .access = access_facts(shot.best.access, shot.best.face, shot.before, plan.player),
      .roll_at_contact = path.roll_at_contact,
      .speed_at_contact_mps = path.speed_at_contact_mps,
      .cushions = cushions_after_contact(shot.best, shot.before.table),
      .running_side = path.running_side,
      .check_side = path.check_side,
      .travel_after_m = path.travel_after_m,
      .table_length_m = shot.before.table.length_m,
      .ends_clearance = plan.complete,
      .stop = planned_stop(shot, next),
      .risks = risks_of(shot.best.fates),
      .missed_thick = shot.best.fates.missed_thick,
      .missed_thin = shot.best.fates.missed_thin,
      .why_lost = shot.why_lost};
  for (const int ball : path.meets) facts.meets.push_back(named(ball));
  facts.moment = {.key_ball = shot.moment.key_ball,
                  .problem = coach::takes_problem(shot.moment),
                  .goes_from = shot.moment.goes_from};
  if (shot.moment.cover) facts.moment.cover = named(*shot.moment.cover);
  for (const int ball : shot.moment.frees) facts.moment.frees.push_back(named(ball));
  if (next != nullptr) {
    const OptionFacts then = option_facts(*next, next->best);
    facts.next = NextFacts{then.ball, then.by.empty() ? then.pocket : then.pocket + ' ' + then.by,
                           then.thickness};
  }
  if (shot.runner_up) {
    facts.runner_up = option_facts(shot, *shot.runner_up);
    facts.runner_up_same_pot =
        shot.runner_up->ball == shot.best.ball && shot.runner_up->pocket == shot.best.pocket;
    facts.runner_up_is_better = shot.runner_up->clear.low > shot.best.clear.high;
  }
  return facts;
}

}  // namespace ahead::lesson
