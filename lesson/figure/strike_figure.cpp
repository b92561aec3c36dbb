#include "lesson/figure/strike_figure.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lesson/figure/wrap.h"

namespace ahead::lesson {
namespace {

using engine::Vec2;

/// Width of the patch in which a tip and a ball touch, m. Coaches' measurements say 3 to 4 mm.
constexpr double patch_m = 0.0035;
constexpr double labels_x = face_radius + 22;

std::string grid() {
  std::string marks;
  for (const double f : {-0.75, -0.5, -0.25, 0.25, 0.5, 0.75}) {
    const double half = std::sqrt(1 - f * f);
    marks += line(on_face(f, -half), on_face(f, half), "grid");
    marks += line(on_face(-half, f), on_face(half, f), "grid");
  }
  return marks + line(on_face(0, -1.06), on_face(0, 1.06), "axis") +
         line(on_face(-1.06, 0), on_face(1.06, 0), "axis");
}

std::string ellipse(Point centre, double half_width, double half_height,
                    std::string_view css_class) {
  return fmt::format("<ellipse class=\"{}\" cx=\"{}\" cy=\"{}\" rx=\"{}\" ry=\"{}\"/>\n", css_class,
                     number(centre.x), number(centre.y), number(half_width), number(half_height));
}

std::string scatter(Point touch, const coach::Player& player, double per_m, double factor) {
  const double wider = per_m * factor;
  std::string marks;
  for (const int sigmas : {2, 1}) {
    marks += ellipse(touch, sigmas * player.tip_side_m.sigma * wider,
                     sigmas * player.tip_height_m.sigma * wider,
                     sigmas == 1 ? "scatter-one" : "scatter-two");
  }
  return marks;
}

/// Slanting strokes over the places of the face that are not recommended.
std::string hatch(const coach::Face& face, double limit) {
  constexpr double apart = 8;
  constexpr double step = 1.5;
  const double radius = limit * face_radius;
  const Point along{std::sqrt(0.5), -std::sqrt(0.5)};
  const auto lost = [&](Point at) {
    const coach::FacePlace* place = face.nearest(at.x / face_radius, -at.y / face_radius);
    return place != nullptr && !coach::recommended(place->access);
  };
  std::string marks;
  const int strokes = static_cast<int>(2 * radius / apart);
  for (int i = 0; i < strokes; ++i) {
    const double off = apart * (i - 0.5 * (strokes - 1));
    const double half = std::sqrt(radius * radius - off * off);
    const int steps = static_cast<int>(2 * half / step);
    const auto at = [&](int s) { return off * engine::left_of(along) + (s * step - half) * along; };
    int from = -1;  // where the stroke being drawn began
    for (int s = 0; s <= steps + 1; ++s) {
      const bool inside = s <= steps && lost(at(s));
      if (inside && from < 0) from = s;
      if (inside || from < 0) continue;
      if (s - 1 > from) marks += line(at(from), at(s - 1), "hatch");
      from = -1;
    }
  }
  return marks;
}

std::string cross(Point at) {
  constexpr double arm = 5;
  return line(at - Point{arm, 0}, at + Point{arm, 0}, "leader") +
         line(at - Point{0, arm}, at + Point{0, arm}, "leader");
}

struct Label {
  Point of;
  double clear = 0;  ///< the leader begins this far from the place, outside its mark
  std::string words;
  double y = 0;
};

/// Names to the right of the face, a leader to each, none above another.
std::string labels(std::vector<Label> all) {
  constexpr double line_height = 24;
  std::ranges::stable_sort(all, {}, [](const Label& label) { return label.of.y; });
  double free_y = -face_radius;
  for (Label& label : all) {
    label.y = std::max(free_y, label.of.y);
    free_y = label.y + line_height;
  }
  std::string marks;
  for (const Label& label : all) {
    const Point end{labels_x - 6, label.y};
    marks += line(label.of + label.clear * engine::unit(end - label.of), end, "leader");
    marks += text({labels_x, label.y + 5}, label.words, "strong-words");
  }
  return marks;
}

}  // namespace

Point on_face(double side, double height) { return {face_radius * side, -face_radius * height}; }

Vec2 cue_points_at(const engine::Strike& strike, const engine::Table& table) {
  const double R = table.cue_ball.radius_m;
  const double further = (R + table.cue.tip_radius_m) / R;
  return further * Vec2{strike.side, strike.height};
}

Drawing strike_figure(const engine::Strike& strike, const coach::Player& player,
                      const engine::Table& table, const StrikeReach& reach) {
  const double per_m = face_radius / table.cue_ball.radius_m;
  const Point touch = on_face(strike.side, strike.height);
  const Vec2 axis = cue_points_at(strike, table);
  const Point aim = on_face(axis.x, axis.y);
  const double limit = table.cue.miscue_offset;
  // The name of the limit leaves the circle on the side that the strike does not use.
  const Point limit_edge =
      on_face(limit * 0.707, strike.height > 0 ? -limit * 0.707 : limit * 0.707);

  Drawing drawing{.left = -face_radius - 18,
                  .top = -face_radius - 14,
                  .width = 2 * face_radius + 178,
                  .height = 2 * face_radius + 50};
  drawing.body =
      circle({0, 0}, face_radius, "face-edge") + grid() + circle({0, 0}, face_radius, "disc-edge") +
      hatch(reach.face, limit) + circle({0, 0}, limit * face_radius, "miscue") +
      circle(aim, table.cue.tip_width_m / 2 * per_m, "tip-outline") + cross(aim) +
      circle(touch, patch_m / 2 * per_m, "touch") +
      scatter(touch, player, per_m, reach.error_factor) +
      labels({{touch, patch_m / 2 * per_m + 2, "tip touches here"},
              {aim, 0, "cue points here"},
              {limit_edge, 0, "miscue limit"}}) +
      text({-face_radius, face_radius + 28},
           fmt::format("squares {:.0f} mm, tip {:.0f} mm; ellipses: where your tip lands",
                       250 * table.cue_ball.radius_m, 1000 * table.cue.tip_width_m),
           "small-words");
  if (!reach.because.empty()) {
    constexpr double line_height = 22;
    constexpr std::size_t letters = 48;
    const auto lines = wrapped("hatched, not playable: " + reach.because, letters);
    drawing.body += paragraph({-face_radius, face_radius + 28 + line_height}, line_height, lines,
                              "small-words");
    drawing.height += line_height * static_cast<double>(lines.size());
  }
  drawing.body = group("strike-face", drawing.body);
  return drawing;
}

}  // namespace ahead::lesson
