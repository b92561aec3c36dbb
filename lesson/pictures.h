#pragma once

#include <string>
#include <vector>

#include "coach/plan/plan.h"
#include "lesson/figure/shot_layers.h"
#include "lesson/figure/svg.h"
#include "lesson/house_look.h"
#include "lesson/told/lesson_words.h"

/// The pictures of a lesson, one by one, to be laid into whatever the teacher makes.
namespace ahead::lesson {

struct Picture {
  std::string name;  ///< "overview", "shot-01", "strike-01"
  std::string svg;
};

/// The strike figure of one shot. Requires shot < plan.shots.size().
[[nodiscard]] Drawing strike_drawing(const coach::Plan& plan, std::size_t shot);

/// The order of play, then each shot's table and strike. Their text alternatives are the lesson's
/// own words.
[[nodiscard]] std::vector<Picture> lesson_pictures(const coach::Plan& plan,
                                                   const LessonWords& words, const Look& look,
                                                   const ShotLayers& layers, Ground ground);

}  // namespace ahead::lesson
