#pragma once

#include <optional>

#include "coach/pots/prospect.h"

/// Which of two strikes is the plainer: where the tries cannot tell, a coach teaches that one.
namespace ahead::coach {

/// How much the strike asks of the arm: pace in m/s, side most, distance from the middle of the
/// ball, and a raised butt (weights: common practice, no source).
[[nodiscard]] double effort(const engine::Strike& strike);

/// The same strike for the same way without side; as prospect_of().
[[nodiscard]] std::optional<Prospect> without_side(const Scene& scene, const Position& position,
                                                   const Way& way, const engine::Strike& strike);

}  // namespace ahead::coach
