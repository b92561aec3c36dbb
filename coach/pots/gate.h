#pragma once

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "engine/simulate/simulate.h"

/// The gate: the directions of an object ball that drop into a pocket.
///
/// Found by rolling the ball alone at the true jaws, among the balls that stand in its way: a scan
/// over the pocket's mouth, then bisection of the edges of the widest stretch that drops. It
/// narrows with pace, since jaws forgive a slow ball and reject a firm one, and with the angle to
/// the mouth.
namespace ahead::coach {

struct Gate {
  double from_rad = 0;  ///< edges, counter-clockwise; from_rad < to_rad
  double to_rad = 0;

  [[nodiscard]] double middle_rad() const { return 0.5 * (from_rad + to_rad); }
  [[nodiscard]] double half_width_rad() const { return 0.5 * (to_rad - from_rad); }
};

/// Object-ball speeds just after contact at which gates are shown, m/s: slow, medium, firm.
inline constexpr std::array<double, 3> gate_paces_mps{0.7, 1.5, 3.0};

/// Gates of one ball and one pocket at each of gate_paces_mps; nothing where no direction drops.
using PacedGates = std::array<std::optional<Gate>, gate_paces_mps.size()>;

/// The gates of one ball and one pocket at every pace, from the slowest that reaches the pocket.
/// Between that and half as much again the gate opens from a single line to its full width, so it
/// is measured most closely there.
struct PotGates {
  static constexpr std::size_t count = 10;
  using Lane = std::array<std::optional<Gate>, count>;
  std::array<double, count> speeds_mps{};  ///< rising
  Lane gates;                              ///< the widest stretch
  /// Stretches beside it: a ball near a cushion may drop straight and off the cushion, and meet a
  /// jaw in between.
  std::vector<Lane> beside;

  [[nodiscard]] bool none() const;
  /// The middle of the widest gate. Requires that there is one.
  [[nodiscard]] double middle_rad() const;
};

/// How closely a gate is measured: over how many directions the mouth is scanned, and to what angle
/// the edges are found.
struct GateCare {
  int scan_steps = 0;
  double edge_rad = 0;
};
/// Edges to 0.02 mm at 2 m.
inline constexpr GateCare exact_gate{.scan_steps = 25, .edge_rad = 1e-5};
/// For choices made in passing: edges to 2 mm at 1 m.
inline constexpr GateCare quick_gate{.scan_steps = 9, .edge_rad = 2e-3};

/// The gate of a ball at `ball` into `pocket`, at `speed_mps` just after contact, past `obstacles`
/// (object balls). A direction counts when the ball drops without touching any of them. Nothing
/// when no direction drops, or the mouth is out of sight of the ball.
[[nodiscard]] std::optional<Gate> find_gate(const engine::Playfield& field, engine::Vec2 ball,
                                            int pocket, double speed_mps,
                                            std::span<const engine::Vec2> obstacles,
                                            const GateCare& care);

/// The gates at every pace. Each is looked for from the edges of its neighbour.
[[nodiscard]] PotGates find_gates(const engine::Playfield& field, engine::Vec2 ball, int pocket,
                                  std::span<const engine::Vec2> obstacles);

/// For choices made in passing: one quick gate for every pace that reaches the pocket.
[[nodiscard]] PotGates quick_gates(const engine::Playfield& field, engine::Vec2 ball, int pocket,
                                   std::span<const engine::Vec2> obstacles);

/// The widest gate at a pace between the measured ones: edges in proportion. Nothing for a ball too
/// slow to reach the pocket; the last for a faster one.
[[nodiscard]] std::optional<Gate> gate_at(const PotGates& gates, double speed_mps);
/// The same of one lane of `gates`.
[[nodiscard]] std::optional<Gate> gate_at(const PotGates& gates, const PotGates::Lane& lane,
                                          double speed_mps);

/// At gate_paces_mps.
[[nodiscard]] PacedGates shown(const PotGates& gates);

}  // namespace ahead::coach
