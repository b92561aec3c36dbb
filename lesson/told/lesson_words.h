#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "coach/after/played.h"
#include "coach/read/reading.h"
#include "lesson/told/fact.h"
#include "lesson/told/voice.h"

/// A whole lesson in sentences: what every other output says.
namespace ahead::lesson {

struct LessonWords {
  Voice voice;
  std::vector<Sentence> clearance;                     ///< title first
  std::vector<std::vector<Sentence>> shots;            ///< one list a shot, what to do first
  std::vector<std::optional<coach::ShotResult>> came;  ///< one a shot: what came of those played

  /// Of the topic ("strike") among a shot's or the clearance's sentences; empty when it was not
  /// said.
  [[nodiscard]] static std::string_view text_of(const std::vector<Sentence>& sentences,
                                                std::string_view topic);
  /// "Red 2 to the bottom-right": the heading of a shot. Requires shot < plan.shots.size().
  [[nodiscard]] std::string heading_of(const coach::Plan& plan, std::size_t shot) const;
  /// All of them, one after another.
  [[nodiscard]] static std::string all_of(const std::vector<Sentence>& sentences);
};

/// `balls` are read of the plan's layout: they say which are problems. The same input gives
/// the same words.
[[nodiscard]] LessonWords lesson_words(const coach::Plan& plan,
                                       std::span<const coach::BallReading> balls,
                                       const Voice& voice);

/// The same of a clearance that was played: each shot is told as it was planned, then what came of
/// it. `balls` are those of its first layout.
[[nodiscard]] LessonWords lesson_words(const coach::AsPlayed& played,
                                       std::span<const coach::BallReading> balls,
                                       const Voice& voice);

}  // namespace ahead::lesson
