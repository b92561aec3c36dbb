#pragma once

#include <limits>

#include "engine/equipment/table.h"
#include "engine/simulate/nose_line.h"
#include "engine/simulate/path.h"

/// When a ball next meets something, in seconds from now; `never` when it does not within its
/// phase.
namespace ahead::engine {

inline constexpr double never = std::numeric_limits<double>::infinity();

/// A slow contact may sink by this much before it counts as an event, m. It keeps a ball that is
/// pressed against another or against a cushion from meeting it endlessly; it is far below the
/// overlap of 1e-6 m that the model allows.
inline constexpr double sink_m = 2.5e-7;

/// Meeting of two balls whose surfaces touch at `distance_m` between centres.
[[nodiscard]] double next_meeting(const Path& first, const Path& second, double distance_m);

/// The same with a ball that stands at `standing`.
[[nodiscard]] double next_meeting(const Path& mover, Vec3 standing, double distance_m);

/// A contact with the nose line: when, and the nearest point of the nose.
struct NoseContact {
  double t_s = never;
  Vec2 nose;
};

/// `reach_m` is the plan distance at which a ball on the bed touches the nose (contact/cushion.h).
[[nodiscard]] NoseContact next_nose(const Path& path, const NoseLine& nose, const Table& table,
                                    const Ball& ball, double reach_m);

/// Entry into a pocket: when, and which.
struct PocketEntry {
  double t_s = never;
  int pocket = -1;
};

[[nodiscard]] PocketEntry next_pocket(const Path& path, const Table& table, const Ball& ball);

/// When an airborne ball has left the table: it crosses the nose line above the nose, or is 0.3 m
/// outside.
[[nodiscard]] double next_exit(const Path& path, const NoseLine& nose, const Table& table);

}  // namespace ahead::engine
