#pragma once

#include <nlohmann/json_fwd.hpp>

#include "coach/layout.h"
#include "coach/plan/moment.h"
#include "formats/field.h"

/// What a shot means for the clearance, as a plan holds it. Private to this room.
namespace ahead::formats {

/// `before` is the layout before the shot.
[[nodiscard]] coach::Moment moment_of(const Field& field, const coach::Layout& before);
[[nodiscard]] nlohmann::ordered_json json_of(const coach::Moment& moment,
                                             const coach::Layout& before);

}  // namespace ahead::formats
