#pragma once

#include <memory>
#include <span>

#include "coach/plan/plan.h"
#include "lesson/film/encoder.h"
#include "lesson/film/planes.h"
#include "lesson/film/timeline.h"
#include "lesson/house_look.h"
#include "lesson/told/lesson_words.h"

namespace ahead::lesson {

/// A frame, and what of it differs from the one before.
struct Painted {
  std::span<const unsigned char> pixels;  ///< rows from the top: blue, green, red, unused
  std::span<const Region> changed;
};

/// Paints the frames of a film, one after another.
///
/// What stays the same during a part (table, lines, words) is drawn once by librsvg and kept as
/// pixels; a frame then is a copy of them with the balls on top. It keeps the pixels of one shot at
/// a time, so a long film needs no more memory than a short one.
class Painter {
 public:
  /// What it is given must outlive it. Requires even width and height.
  Painter(const coach::Plan& plan, const LessonWords& words, const Look& look,
          const Timeline& timeline, const FilmShape& shape);
  ~Painter();
  Painter(const Painter&) = delete;
  Painter& operator=(const Painter&) = delete;

  /// Frame `number`; valid until the next call. The first that is asked for has changed everywhere.
  [[nodiscard]] Painted frame(long number);

 private:
  struct Canvas;
  std::unique_ptr<Canvas> canvas_;
};

}  // namespace ahead::lesson
