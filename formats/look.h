#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "coach/layout.h"

/// Colours, letters, patterns and line widths, so that everything that draws agrees.
///
/// The values stand in look/look.json and nowhere else. The file is ours and is compiled into the
/// program, so a mistake in it is a mistake of the build: a test reads it, no user ever meets it.
namespace ahead::formats {

/// Colours as "#rrggbb".
struct Theme {
  std::string paper;   ///< the ground
  std::string card;    ///< a raised piece of paper
  std::string ink;     ///< lines and words
  std::string soft;    ///< quieter words and scales
  std::string rule;    ///< lines that only part things
  std::string bed;     ///< the cloth
  std::string mark;    ///< marks on the cloth
  std::string accent;  ///< the cue ball's doings
};

/// A ball is told by letter and pattern as well as by colour.
enum class Pattern { ring, plain, dots, band };

struct BallLook {
  std::string letter;
  Pattern pattern{};
  std::string fill;
  std::string text;  ///< colour of the letter
};

/// Widths in millimetres on the table.
struct Lines {
  double nose_mm = 0;
  double rule_mm = 0;
  double pocket_mm = 0;
  double ball_mm = 0;
  double cue_ball_mm = 0;
  double hairline_mm = 0;
  double contour_mm = 0;
  double tick_mm = 0;
};

/// How a path's width tells speed: least + speed * per_mps, and at most `most`.
struct RibbonLook {
  double least_mm = 0;
  double per_mps_mm = 0;
  double most_mm = 0;
  double tick_every_s = 0;
};

struct Look {
  Theme light;
  Theme dark;
  std::string body_font;
  std::string heading_font;
  Lines lines;
  RibbonLook ribbon;
  std::array<BallLook, 10> balls;  ///< in the order of coach::Colour

  [[nodiscard]] const BallLook& ball(coach::Colour colour) const {
    return balls[static_cast<std::size_t>(colour)];
  }
};

/// Nothing when the text is not a whole look.
[[nodiscard]] std::optional<Look> read_look(std::string_view text);

}  // namespace ahead::formats
