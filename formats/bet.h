#pragma once

#include <nlohmann/json_fwd.hpp>

#include "coach/plan/bet.h"
#include "coach/scene.h"
#include "formats/field.h"

/// A clearance weighed against playing safe, as plans hold it. Private to this room.
namespace ahead::formats {

[[nodiscard]] nlohmann::ordered_json json_of(const coach::Bet& bet, const coach::Layout& layout);

/// The safe shot is played again by the engine and its access worked out anew. `scene` is that of
/// `layout` with the player.
[[nodiscard]] coach::Bet bet_of(const Field& field, const coach::Layout& layout,
                                const coach::Scene& scene);

}  // namespace ahead::formats
