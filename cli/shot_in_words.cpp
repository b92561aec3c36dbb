#include "cli/shot_in_words.h"

#include <algorithm>
#include <cstddef>

#include <fmt/format.h>

#include "formats/names.h"
#include "formats/units.h"

namespace ahead::cli {
namespace {

using engine::Event;
using engine::EventKind;

std::string name(const coach::Layout& layout, int ball) {
  const std::string& id = layout.balls[static_cast<std::size_t>(ball)].id;
  return id == "cue" ? "cue ball" : id;
}

std::string_view pocket(const coach::Layout& layout, int index) {
  return formats::name_of(layout.table.pockets[static_cast<std::size_t>(index)].name);
}

std::string place(engine::Vec2 at) {
  return fmt::format("({:.1f}, {:.1f})", formats::mm(at.x), formats::mm(at.y));
}

std::string what(const Event& event, const coach::Layout& layout) {
  std::string ball = name(layout, event.ball);
  switch (event.kind) {
    case EventKind::strike:
      return fmt::format("{} is struck", ball);
    case EventKind::ball_ball:
      return fmt::format("{} meets {}", ball, name(layout, event.other));
    case EventKind::group:
      return fmt::format("{} and the balls that touch it collide", ball);
    case EventKind::cushion:
      return fmt::format("{} meets a cushion", ball);
    case EventKind::bed:
      return fmt::format("{} lands on the bed", ball);
    case EventKind::slide_to_roll:
      return fmt::format("{} begins to roll", ball);
    case EventKind::stop:
      return fmt::format("{} stops", ball);
    case EventKind::pot:
      return fmt::format("{} drops into {}", ball, pocket(layout, event.place));
    case EventKind::off_table:
      return fmt::format("{} leaves the table", ball);
  }
  return ball;
}

std::string end(const engine::Ending& ending, engine::Vec2 start, const coach::Layout& layout) {
  if (ending.off_table) return "off the table";
  if (ending.pocket >= 0) return fmt::format("potted, {}", pocket(layout, ending.pocket));
  const engine::Vec2 at = plan(ending.position);
  const double moved_mm = formats::mm(norm(at - start));
  if (moved_mm < 0.05) return fmt::format("{}, not moved", place(at));
  return fmt::format("{}, {:.1f} from where it lay", place(at), moved_mm);
}

}  // namespace

std::string shot_in_words(const engine::Shot& shot, const coach::Layout& layout) {
  std::string text = "What happened (s, mm):\n";
  for (const Event& event : shot.events) {
    text +=
        fmt::format("{:8.3f}  {} at {}\n", event.t_s, what(event, layout), place(plan(event.at)));
  }
  std::size_t width = 0;
  for (std::size_t i = 0; i < layout.balls.size(); ++i) {
    width = std::max(width, name(layout, static_cast<int>(i)).size());
  }
  text += "\nWhere each ball ended (mm):\n";
  for (std::size_t i = 0; i < shot.endings.size(); ++i) {
    text += fmt::format("  {:<{}}  {}\n", name(layout, static_cast<int>(i)), width,
                        end(shot.endings[i], layout.balls[i].at, layout));
  }
  text += fmt::format("\nEverything was still after {:.2f} s.\n", shot.settled_s);
  return text;
}

}  // namespace ahead::cli
