#include "lesson/told/clearance_known.h"

#include <algorithm>
#include <array>
#include <numbers>
#include <optional>

#include <fmt/format.h>

#include "coach/rules/visit.h"
#include "lesson/told/measure.h"
#include "lesson/words/chance.h"
#include "lesson/words/names.h"
#include "lesson/words/strike_words.h"

namespace ahead::lesson {
namespace {

using coach::LayoutBall;
using coach::Plan;
using coach::PlannedShot;

const LayoutBall& target(const PlannedShot& shot) {
  return shot.before.balls[static_cast<std::size_t>(shot.best.ball)];
}

std::string group_words(coach::ToPlay colour) { return "the " + std::string(group_name(colour)); }

std::string count_words(std::size_t count) {
  return count == 1 ? "1 shot" : fmt::format("{} shots", count);
}

/// The group as a ball of its own: a snooker player's colours include the black.
bool black_follows(const Plan& plan) {
  return plan.colour != coach::ToPlay::black && plan.colour != coach::ToPlay::colours;
}

void say_colour(const Plan& plan, Known& known) {
  for (std::size_t i = 0; i < plan.weighed.size(); ++i) {
    const coach::ColourChoice& each = plan.weighed[i];
    const std::string field = fmt::format("/weighed/{}/clear/value", i);
    if (each.colour == plan.colour) {
      known.say("group odds", odds_words(each.clear.value), field);
      continue;
    }
    known.say("other group", group_words(each.colour), fmt::format("/weighed/{}/colour", i));
    known.say("other odds", odds_words(each.clear.value), field);
  }
  if (plan.weighed.size() != 2) return;
  const coach::Chance& a = plan.weighed[0].clear;
  const coach::Chance& b = plan.weighed[1].clear;
  known.when(a.low <= b.high && b.low <= a.high, "toss-up");
}

void say_key(const Plan& plan, Known& known) {
  const std::size_t count = plan.shots.size();
  if (!plan.complete || count < 2 || target(plan.shots.back()).colour != coach::Colour::black)
    return;
  const PlannedShot& key = plan.shots[count - 2];
  const PlannedShot& last = plan.shots[count - 1];
  const std::string at = fmt::format("/shots/{}", count - 2);
  const std::string end = fmt::format("/shots/{}", count - 1);
  known.say("key", ball_name(target(key).id), at + "/ball");
  known.say("key pocket", pocket_name(key.before.table, key.best.pocket), at + "/pocket");
  known.say("the last", ball_name(target(last).id), end + "/ball");
  known.say("last pocket", pocket_name(last.before.table, last.best.pocket), end + "/pocket");
  known.say("last thickness", thickness_words(last.best.thickness, last.best.cut_rad),
            end + "/thickness");
}

std::string order_words(const Plan& plan) {
  std::vector<std::string> names;
  for (const PlannedShot& shot : plan.shots) names.push_back(ball_name(target(shot).id));
  return listed(names);
}

std::string turn_words(std::size_t index, std::size_t count) {
  constexpr std::array<std::string_view, 10> turns{"first", "second",  "third",  "fourth", "fifth",
                                                   "sixth", "seventh", "eighth", "ninth",  "tenth"};
  if (index + 1 == count && count > 1) return "last";
  return std::string(index < turns.size() ? turns[index] : "later");
}

std::optional<std::size_t> shot_on(const Plan& plan, std::string_view id) {
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    if (target(plan.shots[i]).id == id) return i;
  }
  return std::nullopt;
}

/// The shot that moves the ball before its own turn.
std::optional<std::size_t> mover_of(const Plan& plan, const LayoutBall& ball, std::size_t turn) {
  constexpr double moved_m = 0.005;
  for (std::size_t i = 1; i <= turn; ++i) {
    for (const LayoutBall& then : plan.shots[i].before.balls) {
      if (then.id == ball.id && engine::norm(then.at - ball.at) > moved_m) return i - 1;
    }
  }
  return std::nullopt;
}

Known problem_known(const Plan& plan, const coach::BallReading& reading) {
  const std::vector<LayoutBall>& balls = plan.layout.balls;
  const auto index = static_cast<std::size_t>(reading.ball);
  const LayoutBall& ball = balls[index];
  const std::string field = fmt::format("/layout/balls/{}/id", index);
  Known known;
  known.say("problem", ball_name(ball.id), field);

  constexpr double tight_m = 0.010;
  std::vector<std::string> neighbours;
  for (const int each : reading.neighbours) {
    neighbours.push_back(ball_name(balls[static_cast<std::size_t>(each)].id));
  }
  const bool nowhere = reading.ways() == 0;
  const bool tight = !nowhere && reading.cushion_room_m < tight_m;
  const bool hampered = !nowhere && !tight && !neighbours.empty();
  known.when(nowhere, "goes nowhere");
  known.when(tight, "tight ball");
  known.when(hampered, "hampered");
  known.when(!nowhere && !tight && !hampered, "few places");
  known.say("neighbours", listed(neighbours), field);
  known.say("its cushion",
            fmt::format("the {} cushion", nearest_cushion(plan.layout.table, ball.at)), field);

  const auto turn = shot_on(plan, ball.id);
  if (!turn) return known;
  const std::string at = fmt::format("/shots/{}", *turn);
  known.say("turn", turn_words(*turn, plan.shots.size()), at + "/ball");
  known.say("its pocket", pocket_name(plan.layout.table, plan.shots[*turn].best.pocket),
            at + "/pocket");
  if (const auto mover = mover_of(plan, ball, *turn)) {
    known.say("moved by", ball_name(target(plan.shots[*mover]).id),
              fmt::format("/shots/{}/ball", *mover));
    return known;
  }
  std::vector<std::string> gone;
  for (const int each : reading.neighbours) {
    const auto earlier = shot_on(plan, balls[static_cast<std::size_t>(each)].id);
    if (earlier && *earlier < *turn) {
      gone.push_back(ball_name(balls[static_cast<std::size_t>(each)].id));
    }
  }
  known.say("freed by", listed(gone), at + "/balls_before");
  return known;
}

}  // namespace

Known clearance_known(const Plan& plan, Units units) {
  Known known;
  known.when(plan.complete, "complete");
  known.say("group", group_words(plan.colour), "/colour");
  if (black_follows(plan)) known.say("the black", "the black", "/layout/rules");
  known.say("count", count_words(plan.shots.size()), "/shots");
  say_colour(plan, known);
  say_key(plan, known);
  known.say("order", order_words(plan), "/shots");
  known.say("whole odds", odds_words(plan.clear.value), "/chance/value");
  known.say("whole figure",
            fmt::format("{} ({:.0f} to {:.0f})", percent_words(plan.clear.value),
                        100 * plan.clear.low, 100 * plan.clear.high),
            "/chance");
  const coach::Player& player = plan.player;
  known.say("direction",
            fmt::format("{:.2f}°", player.direction_rad.sigma * 180 / std::numbers::pi),
            "/player/errors/direction_deg/sigma");
  known.say("pace error", fmt::format("{:.0f}%", 100 * player.pace.sigma),
            "/player/errors/pace/sigma");
  known.say("tip error",
            units == Units::in ? fmt::format("{:.2f} in", player.tip_height_m.sigma / 0.0254)
                               : fmt::format("{:.1f} mm", 1000 * player.tip_height_m.sigma),
            "/player/errors/tip_height_mm/sigma");
  return known;
}

std::vector<ProblemKnown> problems_known(const Plan& plan,
                                         std::span<const coach::BallReading> balls) {
  const coach::Task task = coach::task_of(plan.layout, plan.colour);
  std::vector<ProblemKnown> all;
  for (const coach::BallReading& ball : balls) {
    if (!ball.problem || !coach::has(task.own | task.black, ball.ball)) continue;
    all.push_back(
        {plan.layout.balls[static_cast<std::size_t>(ball.ball)].id, problem_known(plan, ball)});
  }
  return all;
}

}  // namespace ahead::lesson
