#pragma once

#include <nlohmann/json_fwd.hpp>

#include "coach/layout.h"
#include "coach/pots/shot_option.h"

/// A way to play, as plans and pot analyses hold it. Private to this room.
namespace ahead::formats {

[[nodiscard]] nlohmann::ordered_json json_of(const coach::Chance& chance);

/// `before` is the layout that the option's balls are counted in.
[[nodiscard]] nlohmann::ordered_json json_of(const coach::ShotOption& option,
                                             const coach::Layout& before);

}  // namespace ahead::formats
