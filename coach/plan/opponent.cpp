#include "coach/plan/opponent.h"

#include <algorithm>
#include <cmath>

#include "coach/rules/colours.h"

namespace ahead::coach {
namespace {

bool any_of(const Layout& layout, const Position& position, Colour colour) {
  for (std::size_t i = 0; i < layout.balls.size(); ++i) {
    if (layout.balls[i].colour == colour && has(position.present, static_cast<int>(i))) return true;
  }
  return false;
}

/// The colours that the opponent of one who plays `colour` may play.
std::vector<ToPlay> against(const Layout& layout, const Position& position, ToPlay colour) {
  if (layout.to_play == ToPlay::open) return colours_to_take(layout);
  switch (colour) {
    case ToPlay::red:
      return {ToPlay::yellow};
    case ToPlay::yellow:
      return {ToPlay::red};
    case ToPlay::solid:
      return {ToPlay::stripe};
    case ToPlay::stripe:
      return {ToPlay::solid};
    case ToPlay::colours:
    case ToPlay::open:
      return {ToPlay::colours};
    case ToPlay::black:
      break;
  }
  // The player is on the black: the others on the table are the opponent's.
  if (any_of(layout, position, Colour::yellow)) return {ToPlay::yellow};
  if (any_of(layout, position, Colour::red)) return {ToPlay::red};
  if (any_of(layout, position, Colour::stripe)) return {ToPlay::stripe};
  if (any_of(layout, position, Colour::solid)) return {ToPlay::solid};
  return {ToPlay::black};
}

}  // namespace

Opponent::Opponent(const Layout& layout, const Scene& scene, const Position& position,
                   const std::shared_ptr<const Glance>& glance) {
  for (const ToPlay colour : against(layout, position, scene.task.colour)) {
    Scene theirs = scene;
    theirs.task = task_of(layout, colour);
    ValueField field(theirs, position, coarse_grid, glance);
    sides_.push_back({.scene = std::move(theirs), .field = std::move(field)});
  }
}

double Opponent::clears(const Position& position) const {
  double most = 0;
  for (const Side& side : sides_) most = std::max(most, side.field.value_of(side.scene, position));
  return most;
}

double Opponent::clears_after_foul(const Position& position, bool in_hand) const {
  double once = in_hand ? 0 : clears(position);
  if (in_hand) {
    const engine::Table& table = sides_.front().scene.field.table();
    constexpr int places = 5;
    Position placed = position;
    for (int i = 1; i <= places; ++i) {
      placed.at[0] = {table.width_m * i / (places + 1), 0.9 * table.markings.baulk_line_m};
      once = std::max(once, clears(placed));
    }
  }
  return 1 - std::pow(1 - once, 2);
}

double Opponent::best_pot(const Position& position) const {
  double most = 0;
  for (const Side& side : sides_) {
    const BallSet on = balls_on(side.scene.task, position.present);
    most = std::max(most, side.field.glance()->best_pot(side.scene, position, on, {}, on));
  }
  return most;
}

}  // namespace ahead::coach
