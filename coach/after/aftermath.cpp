#include "coach/after/aftermath.h"

#include <algorithm>

#include "coach/leaves/pot_analysis.h"
#include "coach/stop.h"
#include "coach/threads.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

/// Ends closer than this to where the ball was count as not moved, m.
constexpr double unmoved_m = 0.010;

std::optional<Vec2> found_at(const Layout& layout, const std::string& id) {
  const auto ball = std::ranges::find(layout.balls, id, &LayoutBall::id);
  return ball == layout.balls.end() ? std::nullopt : std::optional(ball->at);
}

std::vector<EndPair> ends_of(const PlannedShot& shot, const Layout& actual) {
  std::vector<EndPair> ends;
  for (std::size_t i = 0; i < shot.before.balls.size(); ++i) {
    const LayoutBall& ball = shot.before.balls[i];
    const engine::Ending& ending = shot.best.intended.endings[i];
    EndPair pair{.id = ball.id, .found = found_at(actual, ball.id)};
    if (ending.on_table()) pair.meant = engine::plan(ending.position);
    const auto stayed = [&](const std::optional<Vec2>& end) {
      return end && engine::norm(*end - ball.at) < unmoved_m;
    };
    if (i == 0 || !stayed(pair.meant) || !stayed(pair.found)) ends.push_back(std::move(pair));
  }
  return ends;
}

/// Direction of the cue ball's last run of some length, as meant.
Vec2 last_run(const engine::Shot& shot) {
  constexpr double too_short_m = 0.005;
  const Vec2 rest = engine::plan(shot.endings[0].position);
  Vec2 from = rest;
  for (const engine::Stretch& stretch : shot.stretches) {
    if (stretch.ball != 0) continue;
    const Vec2 start = engine::plan(stretch.start.position);
    if (engine::norm(rest - start) > too_short_m) from = start;
  }
  return engine::norm(rest - from) > 0 ? engine::unit(rest - from) : Vec2{1, 0};
}

std::optional<LeaveMiss> leave_of(const PlannedShot& shot, const Layout& actual) {
  if (!shot.best.intended.endings[0].on_table()) return std::nullopt;
  const Vec2 along = last_run(shot.best.intended);
  const Vec2 off = actual.balls[0].at - engine::plan(shot.best.intended.endings[0].position);
  return LeaveMiss{.along_m = engine::dot(off, along), .across_m = engine::cross(along, off)};
}

std::optional<FollowingPot> next_of(const Plan& plan, std::size_t shot, const Layout& actual,
                                    const Player& player, std::uint64_t seed) {
  if (shot + 1 >= plan.shots.size()) return std::nullopt;
  const PlannedShot& planned = plan.shots[shot + 1];
  const std::string& id = planned.before.balls[static_cast<std::size_t>(planned.best.ball)].id;
  FollowingPot next{.id = id, .pocket = planned.best.pocket, .meant = planned.best.pot.value};
  const auto ball = std::ranges::find(actual.balls, id, &LayoutBall::id);
  if (ball == actual.balls.end()) return next;
  const Scene scene = scene_of(actual, plan.colour, player);
  const Position position = position_of(actual);
  const auto index = static_cast<int>(ball - actual.balls.begin());
  if (!has(balls_on(scene.task, position.present), index)) return next;
  const PotAnalysis analysis =
      analyse_pot(scene, position, index, planned.best.pocket, std::nullopt, seed);
  if (!analysis.strikes.empty()) next.now = analysis.strikes.front().option.pot;
  return next;
}

/// Whether any of the player's balls, or the black, is left.
bool something_left(const Layout& actual, ToPlay colour) {
  const Task task = task_of(actual, colour);
  return ((task.own | task.black) & position_of(actual).present) != 0;
}

}  // namespace

std::optional<std::size_t> newcomer(const PlannedShot& shot, const Layout& actual) {
  for (std::size_t i = 0; i < actual.balls.size(); ++i) {
    if (!found_at(shot.before, actual.balls[i].id)) return i;
  }
  return std::nullopt;
}

Aftermath aftermath_of(const Plan& plan, std::size_t shot, const Layout& actual,
                       const Player& player, const PlanSettings& settings) {
  const ThreadLimit limit(settings.threads);
  const PlannedShot& planned = plan.shots[shot];
  const auto report = [&](std::string_view stage, double fraction) {
    if (settings.on_progress) settings.on_progress({.stage = stage, .fraction = fraction});
  };
  report("looking for the strike", 0);
  Aftermath after{.shot = shot, .actual = actual, .player = player};
  after.actual.to_play = left_to_play(actual, plan.colour);
  after.ends = ends_of(planned, actual);
  const LayoutBall& called = planned.before.balls[static_cast<std::size_t>(planned.best.ball)];
  after.potted = !found_at(actual, called.id);
  after.leave = leave_of(planned, actual);

  const Scene scene = scene_of(planned.before, plan.colour, player);
  const Position position = position_of(planned.before);
  const Call call{.ball = planned.best.ball,
                  .pocket = planned.best.pocket,
                  .strike = planned.best.strike,
                  .access = access(scene, position, planned.best.strike)};
  const bool ended = ran_unstopped(settings.stop, [&] {
    after.strike =
        strike_posterior(scene, position, call, seen_in(planned.before, actual), settings.seed);
  });
  if (!ended) return after;
  if (is_explained(after.strike)) {
    after.likely = play(scene.field, position,
                        played(call.strike, after.strike.likeliest, planned.before.table))
                       .shot;
  }
  report("weighing the next shot", 0.2);
  after.next = next_of(plan, shot, after.actual, player, settings.seed);

  if (something_left(after.actual, plan.colour)) {
    PlanSettings rest = settings;
    if (settings.on_progress) {
      rest.on_progress = [&](const Progress& progress) {
        report(progress.stage, 0.25 + 0.75 * progress.fraction);
      };
    }
    after.plan = plan_clearance(after.actual, player, rest);
  }
  report("done", 1);
  return after;
}

}  // namespace ahead::coach
