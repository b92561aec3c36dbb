#pragma once

#include <optional>

#include "capture/refusal.h"
#include "engine/equipment/table.h"

/// Tables of every size have one shape, and so a camera is found on the wrong one as well; but the
/// balls are then too large or too small. Private to this room.
namespace ahead::capture {

/// Balls whose radius is nearer than this share to the table's may be that table's. On rendered
/// photographs the size was seen within 5%: docs/capture.md.
inline constexpr double alike_size = 0.06;

/// Why balls of this size, as a share of the table's, cannot be this table's, and which they could
/// be. Nothing when they can.
[[nodiscard]] std::optional<Refusal> wrong_table(double ball_size, const engine::Table& table);

}  // namespace ahead::capture
