#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "coach/read/opening.h"

/// From where can the cue ball pot this ball into this pocket?
///
/// A place counts when the cue ball may stand there, reaches the ghost ball in a straight line past
/// every other ball, may stand at the ghost, and the cut is no finer than `finest_cut_rad`. How
/// well a player pots it from there is another question (pots/pot_chance.h), and so is how the cue
/// gets there (access/). SI.
namespace ahead::coach {

/// Finest cut that counts as a pot, rad: 75 degrees (common practice, no source).
inline constexpr double finest_cut_rad = 1.309;

/// A square grid of places of the cue ball, row by row from the baulk end.
struct Places {
  engine::Vec2 first;
  double spacing_m = 0;
  int columns = 0;
  int rows = 0;
  std::vector<bool> free;  ///< no ball stands there

  [[nodiscard]] std::size_t size() const { return free.size(); }
  [[nodiscard]] engine::Vec2 at(std::size_t place) const;
};

/// Every 50 mm over the bed, inside the cushions.
[[nodiscard]] Places places_of(const engine::Playfield& field, const Position& position);

enum class NotFrom {
  cut,    ///< finer than the finest cut, or from behind
  ghost,  ///< no room for the cue ball where it must meet the ball
  in_way  ///< a ball on the line of aim
};

/// The line of a pot: where the cue ball must be at contact, and what keeps it from there.
struct PotLine {
  int ball = 0;
  engine::Vec2 along;  ///< unit, the ball's way
  engine::Vec2 ghost;
  bool room = true;               ///< for the cue ball at the ghost
  std::vector<Blocker> at_ghost;  ///< balls that take that room, the worst first
};

/// Through the middle of a gate.
[[nodiscard]] PotLine pot_line(const engine::Playfield& field, const Position& position, int ball,
                               const Gate& gate);

/// The cue ball at one place, for one pot line.
struct LineUp {
  double cut_rad = 0;  ///< 0 to pi
  std::optional<NotFrom> not_from;
  std::vector<Blocker> in_way;  ///< of the cue ball or its ghost, the worst first
};

[[nodiscard]] LineUp line_up(const engine::Table& table, const Position& position,
                             const PotLine& line, engine::Vec2 cue);

/// The places from which the ball goes, one flag a place.
[[nodiscard]] std::vector<bool> region_of(const engine::Playfield& field, const Position& position,
                                          int ball, const Opening& opening, const Places& places);

/// Share of the free places that are in the region.
[[nodiscard]] double share_of(const std::vector<bool>& region, const Places& places);

}  // namespace ahead::coach
