#pragma once

#include <nlohmann/json_fwd.hpp>

#include "coach/access/face.h"
#include "coach/layout.h"

/// How a strike is reached, as plans and pot analyses hold it. Private to this room.
namespace ahead::formats {

/// `before` is the layout that the access counts balls in.
[[nodiscard]] nlohmann::ordered_json json_of(const coach::Access& access,
                                             const coach::Layout& before);

/// Each place with its access.
[[nodiscard]] nlohmann::ordered_json json_of(const coach::Face& face, const coach::Layout& before);

}  // namespace ahead::formats
