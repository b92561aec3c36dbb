#include "coach/pots/shot_option.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "coach/aim/contact.h"
#include "coach/pots/cut.h"
#include "engine/motion/motion.h"

namespace ahead::coach {
namespace {

using engine::Event;
using engine::EventKind;
using engine::Vec2;

bool is_cushion_of_cue_ball(const Event& event) {
  return event.kind == EventKind::cushion && event.ball == 0;
}

/// Side that turns the ball the way the cushion's push along it would speed it up: running.
void note_side(CueBallPath& path, const engine::BallState& before, Vec2 at,
               const engine::Table& t) {
  constexpr double plain_mps = 0.05;  // surface speed below which side does nothing to see
  const double surface = t.cue_ball.radius_m * before.spin.z;
  if (std::abs(surface) < plain_mps) return;
  // The cushion lies on the side of the nearest edge of the playing area.
  const std::array gaps{at.x, t.width_m - at.x, at.y, t.length_m - at.y};
  constexpr std::array normals{Vec2{-1, 0}, Vec2{1, 0}, Vec2{0, -1}, Vec2{0, 1}};
  const auto nearest = std::ranges::min_element(gaps) - gaps.begin();
  const Vec2 n = normals[static_cast<std::size_t>(nearest)];
  // At the contact point R n the spin moves the surface along z x n at R w_z.
  const double along = engine::dot(engine::plan(before.velocity), engine::left_of(n));
  if (along * surface < 0) {
    path.running_side = true;
  } else {
    path.check_side = true;
  }
}

CueBallPath cue_ball_path(const Scene& scene, const engine::Shot& shot, int ball) {
  const engine::Table& table = scene.field.table();
  CueBallPath path;
  double contact_s = -1;
  for (const Event& event : shot.events) {
    const bool meets =
        (event.kind == EventKind::ball_ball || event.kind == EventKind::group) && event.ball == 0;
    if (meets && contact_s < 0 && event.other == ball) {
      contact_s = event.t_s;
    } else if (meets && contact_s >= 0) {
      if (std::ranges::find(path.meets, event.other) == path.meets.end()) {
        path.meets.push_back(event.other);
      }
    } else if (is_cushion_of_cue_ball(event)) {
      ++(contact_s < 0 ? path.cushions_before : path.cushions_after);
    }
  }
  bool side_noted = false;
  for (const engine::Stretch& stretch : shot.stretches) {
    if (stretch.ball != 0) continue;
    const engine::BallState end = engine::advance(stretch.phase, stretch.start, table.cue_ball,
                                                  table.cloth, stretch.t1_s - stretch.t0_s);
    if (stretch.t1_s <= contact_s) {
      path.speed_at_contact_mps = engine::norm(engine::plan(end.velocity));
      if (path.speed_at_contact_mps > 0) {
        path.roll_at_contact = roll_of(end, table.cue_ball);
        path.side_at_contact = table.cue_ball.radius_m * end.spin.z / path.speed_at_contact_mps;
      }
      continue;
    }
    path.travel_after_m += engine::norm(engine::plan(end.position - stretch.start.position));
    const bool at_cushion = std::ranges::any_of(shot.events, [&](const Event& event) {
      return is_cushion_of_cue_ball(event) && event.t_s == stretch.t1_s;
    });
    if (at_cushion && !side_noted) {
      note_side(path, end, engine::plan(end.position), table);
      side_noted = true;
    }
  }
  path.rest = engine::plan(shot.endings[0].position);
  return path;
}

/// Layout balls become shot balls, as everywhere in an option.
Access counted_among(Access access, const std::vector<int>& indices) {
  const auto recount = [&](int& ball) {
    ball = static_cast<int>(std::ranges::find(indices, ball) - indices.begin());
  };
  recount(access.raised_by_ball);
  if (access.blocked) recount(access.blocked->ball);
  if (access.not_own_hand) recount(access.not_own_hand->ball);
  return access;
}

/// The balls of a shot from here, in its order.
std::vector<int> balls_of(const Position& position) {
  std::vector<int> balls;
  for (int i = 0; i < static_cast<int>(position.at.size()); ++i) {
    if (has(position.present, i)) balls.push_back(i);
  }
  return balls;
}

}  // namespace

double roll_of(const engine::BallState& state, const engine::Ball& ball) {
  const Vec2 v = engine::plan(state.velocity);
  const double speed = engine::norm(v);
  if (speed == 0) return 0;
  // R (w x z) is the velocity that the spin would roll at.
  const Vec2 roll = ball.radius_m * Vec2{state.spin.y, -state.spin.x};
  return engine::dot(roll, v) / (speed * speed);
}

ShotOption described(const Scene& scene, const Position& position, const Call& call) {
  ShotOption option = described_but_face(scene, position, call);
  const std::vector<int> balls = balls_of(position);
  option.face = face_of(scene, position, call.strike.aim_rad);
  for (FacePlace& place : option.face.places) place.access = counted_among(place.access, balls);
  return option;
}

ShotOption described_but_face(const Scene& scene, const Position& position, const Call& call) {
  const engine::Table& table = scene.field.table();
  const Vec2 cue = position.at[0];
  Played as_meant = play(scene.field, position, call.strike);
  const auto ball = std::ranges::find(as_meant.indices, call.ball) - as_meant.indices.begin();
  ShotOption option{.ball = static_cast<int>(ball), .pocket = call.pocket, .strike = call.strike};
  option.access = counted_among(call.access, as_meant.indices);
  option.intended = std::move(as_meant.shot);
  std::vector<Vec2> balls;
  for (const int index : as_meant.indices) {
    balls.push_back(position.at[static_cast<std::size_t>(index)]);
  }
  option.indirect = indirect_of(option, table, balls);
  const Vec2 object = balls[static_cast<std::size_t>(hit_first(option))];
  if (const auto contact = first_contact(table, cue, object, call.strike)) {
    const Cut cut = cut_of(table, *contact, object);
    option.cut_rad = cut.rad;
    option.cut_to_left = cut.to_left;
    option.thickness = cut.thickness;
    option.to_ball_m = engine::norm(engine::plan(contact->cue_before.position) - cue);
  }
  option.to_pocket_m = engine::norm(table.pockets[static_cast<std::size_t>(call.pocket)].centre -
                                    balls[static_cast<std::size_t>(option.ball)]);
  option.cue_path = cue_ball_path(scene, option.intended, hit_first(option));
  return option;
}

int hit_first(const ShotOption& option) {
  return option.indirect ? option.indirect->first : option.ball;
}

std::optional<Indirect> indirect_of(const ShotOption& option, const engine::Table& table,
                                    std::span<const Vec2> at) {
  const engine::Ending& ending = option.intended.endings[static_cast<std::size_t>(option.ball)];
  if (ending.pocket != option.pocket) return std::nullopt;
  return indirect_of(option.intended, option.ball, table, at);
}

void add_tries(ShotOption& option, std::span<const Try> tries) {
  option.fates = fates_of(tries);
  int potted = 0;
  for (const Try& one : tries) {
    potted += one.potted ? 1 : 0;
    if (succeeded(one)) option.landings.push_back(one.leaves.at[0]);
  }
  option.pot = chance_of(potted, static_cast<int>(tries.size()));
}

}  // namespace ahead::coach
