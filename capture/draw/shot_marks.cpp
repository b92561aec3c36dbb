#include "capture/draw/shot_marks.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numbers>
#include <optional>
#include <string_view>
#include <vector>

#include "capture/draw/cut_as_seen.h"
#include "engine/simulate/stretch.h"
#include "formats/units.h"

namespace ahead::capture {
namespace {

using Bgr = std::array<std::uint8_t, 3>;

/// "#rrggbb", as every look has it.
Bgr bgr_of(std::string_view hex) {
  const auto pair = [&](std::size_t at) {
    int value = 0;
    for (const char c : hex.substr(at, 2)) {
      value = 16 * value + (c <= '9' ? c - '0' : (c | 0x20) - 'a' + 10);
    }
    return static_cast<std::uint8_t>(value);
  };
  return {pair(5), pair(3), pair(1)};
}

/// A ribbon as wide as the ball is fast, so much wider on each side.
std::vector<std::vector<Vec2>> ribbon(const engine::Shot& shot, int ball,
                                      const engine::Table& table, const formats::RibbonLook& look,
                                      double wider_m) {
  constexpr double sample_s = 0.01;
  std::vector<std::vector<Vec2>> pieces;
  for (const engine::Stretch& stretch : engine::path_of(shot, ball)) {
    std::optional<std::array<Vec2, 2>> last;
    const int count =
        std::max(1, static_cast<int>(std::ceil((stretch.t1_s - stretch.t0_s) / sample_s)));
    for (int i = 0; i <= count; ++i) {
      const double t_s = stretch.t0_s + (stretch.t1_s - stretch.t0_s) * i / count;
      const engine::BallState state = engine::state_at(stretch, table, t_s);
      const Vec2 velocity = engine::plan(state.velocity);
      const double speed = norm(velocity);
      if (speed < 1e-3) continue;
      const double width_m =
          1e-3 * std::min(look.least_mm + look.per_mps_mm * speed, look.most_mm) + 2 * wider_m;
      const Vec2 side = width_m / 2 * left_of(velocity / speed);
      const Vec2 at = engine::plan(state.position);
      const std::array<Vec2, 2> edge{at + side, at - side};
      if (last) pieces.push_back({(*last)[0], edge[0], edge[1], (*last)[1]});
      last = edge;
    }
  }
  return pieces;
}

std::vector<std::vector<Vec2>> ring(Vec2 centre, double radius_m, double width_m) {
  std::vector<Vec2> round;
  for (int i = 0; i <= 48; ++i) {
    round.push_back(centre + radius_m * engine::direction(2 * std::numbers::pi * i / 48));
  }
  return line_pieces(round, width_m);
}

std::vector<engine::Event>::const_iterator first_contact(const engine::Shot& shot) {
  return std::ranges::find_if(shot.events, [](const engine::Event& event) {
    return event.kind == engine::EventKind::ball_ball && event.ball == 0;
  });
}

}  // namespace

std::vector<BedMark> shot_marks(const coach::PlannedShot& shot, const formats::Look& look) {
  constexpr double casing_m = 0.0025;
  constexpr double casing_opacity = 0.45;
  const engine::Table& table = shot.before.table;
  const engine::Shot& played = shot.best.intended;
  const Bgr ink = bgr_of(look.light.ink);
  const Bgr paper = bgr_of(look.light.paper);
  const Bgr accent = bgr_of(look.dark.accent);
  std::vector<BedMark> marks;

  // Hairlines first: from the cue ball to where it meets the object ball, and on to the pocket.
  const auto contact = first_contact(played);
  const double hair_m = 1e-3 * look.lines.hairline_mm;
  if (contact != played.events.end()) {
    const Vec2 meets = plan(contact->at);
    const Vec2 object = shot.before.balls[static_cast<std::size_t>(shot.best.ball)].at;
    const Vec2 pocket = table.pockets[static_cast<std::size_t>(shot.best.pocket)].centre;
    const std::array<Vec2, 2> aim{shot.before.balls[0].at, meets};
    const std::array<Vec2, 2> in{object, pocket};
    marks.push_back({line_pieces(aim, hair_m), paper, 0.8});
    marks.push_back({line_pieces(in, hair_m), paper, 0.8});
    marks.push_back({ring(meets, table.cue_ball.radius_m, hair_m), paper, 0.9});
  }
  // The cue ball's own ribbon comes last, above the others.
  for (int ball = static_cast<int>(shot.before.balls.size()) - 1; ball >= 0; --ball) {
    const auto body = ribbon(played, ball, table, look.ribbon, 0);
    if (body.empty()) continue;
    const auto colour = shot.before.balls[static_cast<std::size_t>(ball)].colour;
    const Bgr fill = ball == 0 ? accent : bgr_of(look.ball(colour).fill);
    marks.push_back({ribbon(played, ball, table, look.ribbon, casing_m), ink, casing_opacity});
    marks.push_back({body, fill, 0.9});
    const engine::Ending& ending = played.endings[static_cast<std::size_t>(ball)];
    if (ending.on_table()) {
      marks.push_back({ring(plan(ending.position), engine::ball_of(table, ball).radius_m,
                            1e-3 * look.lines.ball_mm),
                       fill, 0.9});
    }
  }
  return marks;
}

Overlay shot_overlay(const Camera& camera, const coach::PlannedShot& shot,
                     const coach::Layout& layout, const formats::Look& look) {
  std::vector<Standing> standing;
  for (const coach::LayoutBall& ball : layout.balls) {
    const bool cue = ball.colour == coach::Colour::cue;
    standing.push_back(
        {ball.at, (cue ? layout.table.cue_ball : layout.table.object_ball).radius_m});
  }
  return overlay_of(camera, shot_marks(shot, look), standing);
}

std::string cut_in_words(const Camera& camera, const coach::PlannedShot& shot) {
  const engine::Shot& played = shot.best.intended;
  const auto contact = first_contact(played);
  if (contact == played.events.end()) return {};
  const Vec2 object = shot.before.balls[static_cast<std::size_t>(shot.best.ball)].at;
  const Vec2 meets = plan(contact->at);
  const auto cut = cut_as_seen(camera, shot.before.balls[0].at, meets,
                               object + 10 * (object - meets), shot.before.table.cue_ball.radius_m);
  if (!cut) return {};
  const double is = formats::degrees(cut->true_rad);
  const double looks = formats::degrees(cut->seen_rad);
  const std::string_view so = std::abs(is - looks) < 2 ? "as thick as it is"
                              : looks < is             ? "thicker than it is"
                                                       : "thinner than it is";
  return "From this camera the cut looks " + std::string(so) + ": " +
         std::to_string(std::lround(looks)) + " degrees in the picture, " +
         std::to_string(std::lround(is)) + " on the table.";
}

}  // namespace ahead::capture
