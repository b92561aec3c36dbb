#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// How a lesson is asked for, in the words of the command line, of the page and of the manifest.
namespace ahead::formats {

inline constexpr std::array<std::string_view, 6> lesson_outputs{"words", "pictures", "sheet",
                                                                "page",  "captions", "animation"};
inline constexpr std::array<std::string_view, 3> lesson_readers{"viewer", "pupil", "self"};
inline constexpr std::array<std::string_view, 2> lesson_units{"mm", "in"};
inline constexpr std::array<std::string_view, 2> lesson_vocabularies{"uk", "us"};
inline constexpr std::array<std::string_view, 6> lesson_layers{"aim",    "construction", "contours",
                                                               "rivals", "zone",         "numbers"};
inline constexpr std::array<std::string_view, 4> lesson_films{"wide-mp4", "wide-webm", "tall-mp4",
                                                              "tall-webm"};
inline constexpr int least_png_width = 100;
inline constexpr int most_png_width = 4096;

/// Every text is one of the lists above.
struct LessonSettings {
  std::vector<std::string> what{"words", "pictures", "sheet", "page", "captions"};
  std::string reader = "pupil";
  std::string units = "mm";
  std::string vocabulary = "uk";
  std::vector<std::string> layers{"aim", "contours", "numbers"};
  bool transparent = false;
  int png_width = 1600;  ///< pixels
  std::vector<std::string> films{"wide-mp4", "tall-mp4"};
  std::size_t clip = 1;  ///< the shot of which the animation adds a short GIF, from 1
};

}  // namespace ahead::formats
