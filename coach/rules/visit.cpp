#include "coach/rules/visit.h"

#include <algorithm>
#include <array>

namespace ahead::coach {
namespace {

bool belongs(ToPlay colour, Colour ball) {
  switch (colour) {
    case ToPlay::red:
      return ball == Colour::red;
    case ToPlay::yellow:
      return ball == Colour::yellow;
    case ToPlay::solid:
      return ball == Colour::solid;
    case ToPlay::stripe:
      return ball == Colour::stripe;
    case ToPlay::colours:
      return ball != Colour::cue && ball != Colour::red;
    case ToPlay::black:
    case ToPlay::open:
      break;
  }
  return false;
}

/// Order in which the colours of a snooker table are cleared.
int rank(Colour colour) {
  static constexpr std::array order{Colour::yellow, Colour::green, Colour::brown,
                                    Colour::blue,   Colour::pink,  Colour::black};
  return static_cast<int>(std::ranges::find(order, colour) - std::begin(order));
}

/// The ball that the cue ball met first, or -1.
int first_met(const engine::Shot& shot) {
  for (const engine::Event& event : shot.events) {
    const bool meets =
        event.kind == engine::EventKind::ball_ball || event.kind == engine::EventKind::group;
    if (meets && event.ball == 0) return event.other;
  }
  return -1;
}

/// Whether an opponent's ball may fall together with one's own.
bool forgives_opponents_ball(Rules rules) {
  return rules == Rules::international || rules == Rules::blackball ||
         rules == Rules::american_8ball;
}

}  // namespace

ToPlay colour_played(const Layout& layout, int ball) {
  if (layout.to_play != ToPlay::open) return layout.to_play;
  switch (layout.balls[static_cast<std::size_t>(ball)].colour) {
    case Colour::yellow:
      return ToPlay::yellow;
    case Colour::solid:
      return ToPlay::solid;
    case Colour::stripe:
      return ToPlay::stripe;
    case Colour::black:
      return ToPlay::black;
    default:
      return ToPlay::red;
  }
}

ToPlay left_to_play(const Layout& layout, ToPlay colour) {
  if (colour == ToPlay::open || colour == ToPlay::colours) return colour;
  const bool some = std::ranges::any_of(
      layout.balls, [&](const LayoutBall& ball) { return belongs(colour, ball.colour); });
  return some ? colour : ToPlay::black;
}

Task task_of(const Layout& layout, ToPlay colour) {
  Task task{.rules = layout.rules, .colour = colour};
  for (std::size_t i = 0; i < layout.balls.size(); ++i) {
    const Colour of = layout.balls[i].colour;
    const int index = static_cast<int>(i);
    task.colours.push_back(of);
    if (belongs(colour, of)) {
      task.own |= bit(index);
    } else if (of == Colour::black) {
      task.black = bit(index);
    }
  }
  return task;
}

BallSet balls_on(const Task& task, BallSet present) {
  const BallSet own = task.own & present;
  if (own == 0) return task.black & present;
  if (task.colour != ToPlay::colours) return own;
  int lowest = -1;
  for (int i = 0; i < static_cast<int>(task.colours.size()); ++i) {
    if (!has(own, i)) continue;
    const auto of = [&](int ball) { return rank(task.colours[static_cast<std::size_t>(ball)]); };
    if (lowest < 0 || of(i) < of(lowest)) lowest = i;
  }
  return lowest < 0 ? 0 : bit(lowest);
}

Verdict judge(const Task& task, const engine::Shot& shot, const std::vector<int>& indices,
              BallSet present, int ball, int pocket) {
  const BallSet on = balls_on(task, present);
  BallSet potted = 0;
  bool flew = false;
  bool called = false;
  for (std::size_t i = 1; i < shot.endings.size(); ++i) {
    const engine::Ending& ending = shot.endings[i];
    flew = flew || ending.off_table;
    if (ending.pocket < 0) continue;
    potted |= bit(indices[i]);
    called = called || (indices[i] == ball && ending.pocket == pocket);
  }
  if (!shot.endings[0].on_table()) return Verdict::in_off;
  const int first = first_met(shot);
  if (first < 0 || !has(on, indices[static_cast<std::size_t>(first)])) return Verdict::wrong_first;

  const bool on_black = on == (task.black & present) && on != 0;
  if (flew || (!on_black && (potted & task.black) != 0)) return Verdict::wrong_potted;
  if ((potted & on) == 0) return Verdict::missed;
  const BallSet others = potted & ~on;
  if (others != 0 && !forgives_opponents_ball(task.rules)) return Verdict::wrong_potted;
  if (task.rules == Rules::american_8ball && !called) {
    return on_black ? Verdict::wrong_potted : Verdict::missed;
  }
  const BallSet left = (task.own | task.black) & present & ~potted;
  return left == 0 ? Verdict::cleared : Verdict::goes_on;
}

}  // namespace ahead::coach
