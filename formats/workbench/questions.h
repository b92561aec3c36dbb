#pragma once

#include <cstddef>
#include <cstdint>
#include <expected>
#include <optional>
#include <string>
#include <string_view>

#include "coach/leaves/wanted.h"
#include "coach/live/live_shot.h"
#include "coach/plan/plan_clearance.h"
#include "formats/input_error.h"
#include "formats/lesson_settings.h"
#include "formats/teacher_words.h"

/// What the page asks, as values. The keys stand in server/openapi.json; places in errors are JSON
/// pointers into the request's body.
namespace ahead::formats {

template <class Question>
using Asked = std::expected<Question, InputError>;

/// A layout that can be played, on a table with this player's cue, and who plays.
struct TableQuestion {
  coach::Layout layout;
  coach::Player player;
  std::uint64_t seed = 1;
};

/// What to plan: from a table, with the first shot given or not.
struct PlanQuestion {
  TableQuestion table;
  std::optional<coach::FirstShot> first;
};

struct ShotQuestion {
  TableQuestion table;
  coach::LiveQuestion live;
  bool face = false;  ///< tell what of the cue ball's face can be reached
};

struct LeaveQuestion {
  TableQuestion table;
  coach::MeantPot pot;
  std::optional<coach::Wanted> wanted;
  bool quick = false;
};

struct AfterQuestion {
  coach::Plan plan;
  std::size_t shot = 0;  ///< index into the plan's shots
  coach::Layout actual;  ///< on the plan's table, with balls that were there
  coach::Player player;
  std::uint64_t seed = 1;
};

struct StrikeQuestion {
  coach::Layout layout;
  engine::Strike strike;
};

struct LessonQuestion {
  coach::Plan plan;
  std::string plan_text;  ///< the plan's file, as people read it
  LessonSettings settings;
  TeacherWords words;   ///< as the teacher left them; empty the first time
  std::string picture;  ///< "overview" or "shot-01", where a picture is asked for
};

/// Tries behind a live answer when the question does not say, and the most that it may ask for.
inline constexpr int live_tries = 48;
inline constexpr int most_tries = 2000;

[[nodiscard]] Asked<PlanQuestion> read_plan_question(std::string_view body);
/// `seed` may be given for reading, not for /api/pots.
[[nodiscard]] Asked<TableQuestion> read_table_question(std::string_view body);
[[nodiscard]] Asked<TableQuestion> read_pots_question(std::string_view body);
[[nodiscard]] Asked<ShotQuestion> read_shot_question(std::string_view body);
[[nodiscard]] Asked<LeaveQuestion> read_leave_question(std::string_view body);
[[nodiscard]] Asked<AfterQuestion> read_after_question(std::string_view body);
[[nodiscard]] Asked<LessonQuestion> read_lesson_question(std::string_view body);
[[nodiscard]] Asked<StrikeQuestion> read_strike_question(std::string_view body);

}  // namespace ahead::formats
