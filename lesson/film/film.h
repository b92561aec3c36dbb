#pragma once

#include <expected>
#include <filesystem>
#include <functional>

#include "coach/plan/plan.h"
#include "lesson/film/encoder.h"
#include "lesson/film/timeline.h"
#include "lesson/house_look.h"
#include "lesson/told/lesson_words.h"

namespace ahead::lesson {

inline constexpr FilmShape wide_film{1920, 1080, frames_per_second};
inline constexpr FilmShape tall_film{1080, 1920, frames_per_second};
/// Small enough to send: half the height and half the frames.
inline constexpr FilmShape clip_film{404, 720, frames_per_second / 2};

/// Told how far the film is (0 to 1); false stops it.
using OnFrame = std::function<bool(double)>;

/// Makes the film and writes it under a temporary name first, so that no one ever sees half of it.
/// True when it is there; false when `on_frame` stopped it.
[[nodiscard]] std::expected<bool, FilmFailure> make_film(const std::filesystem::path& file,
                                                         FilmKind kind, const FilmShape& shape,
                                                         const coach::Plan& plan,
                                                         const LessonWords& words, const Look& look,
                                                         const Timeline& timeline,
                                                         const OnFrame& on_frame);

}  // namespace ahead::lesson
