#include "lesson/film/captions.h"

#include <cmath>

#include <fmt/format.h>

#include "lesson/told/glossary.h"
#include "lesson/told/measure.h"
#include "lesson/words/names.h"

namespace ahead::lesson {
namespace {

/// In WebVTT these three mean something else.
std::string escaped_cue(std::string_view words) {
  std::string out;
  for (const char c : words) {
    out += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '>' ? "&gt;" : std::string(1, c);
  }
  return out;
}

/// Minutes and seconds, for a reader.
std::string minute_words(double t_s) {
  const long seconds = static_cast<long>(t_s);
  return fmt::format("{}:{:02}", seconds / 60, seconds % 60);
}

std::string place_words(const coach::Layout& layout, engine::Vec2 at, Units units) {
  return fmt::format("{} from the left cushion and {} from baulk", length_words(at.x, units),
                     length_words(std::min(at.y, layout.table.length_m), units));
}

/// What is seen to happen, event by event.
std::string events_words(const coach::PlannedShot& shot) {
  const engine::Table& table = shot.before.table;
  const auto name = [&](int ball) {
    return ball_name(shot.before.balls[static_cast<std::size_t>(ball)].id);
  };
  std::string words;
  for (const engine::Event& event : shot.best.intended.events) {
    std::string seen;
    switch (event.kind) {
      case engine::EventKind::ball_ball:
        seen = fmt::format("{} meets {}", name(event.ball), name(event.other));
        break;
      case engine::EventKind::cushion:
        seen = fmt::format("{} comes off the {} cushion", name(event.ball),
                           nearest_cushion(table, engine::plan(event.at)));
        break;
      case engine::EventKind::pot:
        seen = fmt::format("{} drops in {}", name(event.ball), pocket_name(table, event.place));
        break;
      default:
        break;
    }
    if (seen.empty()) continue;
    words += fmt::format(" After {:.1f} seconds {}.", event.t_s, seen);
  }
  return words;
}

}  // namespace

std::string clock_words(double t_s) {
  const long ms = std::lround(1000 * t_s);
  return fmt::format("{:02}:{:02}:{:02}.{:03}", ms / 3'600'000, ms / 60'000 % 60, ms / 1000 % 60,
                     ms % 1000);
}

std::string captions(const Timeline& timeline) {
  std::string out = "WEBVTT\n";
  int number = 0;
  for (const Part& part : timeline.parts) {
    if (part.words.empty()) continue;
    if (part.beat == Beat::aim) out += fmt::format("\nNOTE Shot {}\n", part.shot + 1);
    out += fmt::format("\n{}\n{} --> {}\n{}\n", ++number, clock_words(part.from_s),
                       clock_words(part.to_s), escaped_cue(part.words));
  }
  return out;
}

std::string transcript(const coach::Plan& plan, const Timeline& timeline,
                       const LessonWords& words) {
  std::string out;
  for (const Part& part : timeline.parts) {
    if (part.beat == Beat::aim) {
      out += fmt::format("\nShot {}: {}\n", part.shot + 1, words.heading_of(plan, part.shot));
    }
    if (!part.words.empty()) out += fmt::format("{}  {}\n", minute_words(part.from_s), part.words);
    if (part.beat == Beat::play) {
      out += fmt::format("{}  (The shot is played.)\n", minute_words(part.from_s));
    }
  }
  return out;
}

std::string audio_description(const coach::Plan& plan, const Timeline& timeline,
                              const LessonWords& words) {
  const Units units = words.voice.units;
  std::string out;
  const auto say = [&](double t_s, const std::string& seen) {
    out += fmt::format("{}  {}\n", minute_words(t_s), in_vocabulary(seen, words.voice.vocabulary));
  };
  for (const Part& part : timeline.parts) {
    const auto& shots = plan.shots;
    switch (part.beat) {
      case Beat::whole: {
        std::string seen = "The table is seen from above, the baulk end at the bottom.";
        for (const coach::LayoutBall& ball : plan.layout.balls) {
          seen += fmt::format(" {} lies {}.", capitalised(ball_name(ball.id)),
                              place_words(plan.layout, ball.at, units));
        }
        say(part.from_s, seen + " Numbers show the order of play.");
        break;
      }
      case Beat::aim:
        say(part.from_s,
            fmt::format("Shot {}. The pocket is ringed: {}. A dashed line shows the "
                        "line of aim.",
                        part.shot + 1,
                        pocket_name(shots[part.shot].before.table, shots[part.shot].best.pocket)));
        break;
      case Beat::contact:
        say(part.from_s,
            "A dashed ring shows the cue ball where it meets the ball; beside the table stands the "
            "cue ball's face with the tip's place.");
        break;
      case Beat::tangent:
        say(part.from_s, "A dashed line shows the tangent line.");
        break;
      case Beat::path:
        say(part.from_s, "Ribbons show the paths of the balls, wider where they are faster.");
        break;
      case Beat::leave:
        say(part.from_s, "A full and a dotted outline show where the cue ball will probably stop.");
        break;
      case Beat::play:
        say(part.from_s, "The shot is played." + events_words(shots[part.shot]));
        break;
      case Beat::rest: {
        const engine::Vec2 rest = shots[part.shot].best.cue_path.rest;
        say(part.from_s,
            fmt::format("The cue ball lies {}.", place_words(plan.layout, rest, units)));
        break;
      }
    }
  }
  return out;
}

}  // namespace ahead::lesson
