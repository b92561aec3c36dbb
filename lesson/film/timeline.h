#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "coach/plan/plan.h"
#include "lesson/told/lesson_words.h"

/// When the animation shows what. Film, captions and transcript are all made from this one list.
namespace ahead::lesson {

/// What happens during a part. Before each shot the film stands still while its lines are drawn one
/// by one; then it plays at true speed.
enum class Beat {
  whole,    ///< the layout with the order of play
  aim,      ///< the line of aim
  contact,  ///< the cue ball where it meets the ball
  tangent,  ///< the tangent line
  path,     ///< the paths of all balls
  leave,    ///< where the cue ball will probably stop
  play,     ///< the shot itself
  rest      ///< a moment to look at what it left, and what came of it if it was played
};

struct Part {
  Beat beat{};
  std::size_t shot = 0;  ///< without meaning for `whole`
  double from_s = 0;
  double to_s = 0;
  std::string words;  ///< shown and captioned meanwhile; may be empty

  [[nodiscard]] bool still() const { return beat != Beat::play; }
};

/// Every part begins and ends on a frame at this many a second.
inline constexpr int frames_per_second = 30;

struct Timeline {
  std::vector<Part> parts;

  [[nodiscard]] double length_s() const { return parts.empty() ? 0 : parts.back().to_s; }
  /// Of a film with `rate` frames a second.
  [[nodiscard]] long frames(int rate = frames_per_second) const;
  /// The part at a time; the last one at the end. Requires a part.
  [[nodiscard]] const Part& at(double t_s) const;
};

/// The whole lesson. Words stay long enough to be read: two seconds and a half, or a third of a
/// second a word and half a second more (about 160 words a minute, as subtitlers advise; from
/// memory, no source at hand).
[[nodiscard]] Timeline timeline(const coach::Plan& plan, const LessonWords& words);

/// One shot as it is played, with a moment before and after. Requires shot < plan.shots.size().
[[nodiscard]] Timeline clip_timeline(const coach::Plan& plan, std::size_t shot);

/// How long words stay.
[[nodiscard]] double reading_s(std::string_view words);

}  // namespace ahead::lesson
