#pragma once

#include <expected>
#include <optional>
#include <string>
#include <string_view>

#include "coach/layout.h"
#include "formats/input_error.h"

/// A layout as a file, `three-ahead.layout/1`. Its keys: formats/schema/layout.schema.json.
namespace ahead::formats {

/// A layout that can be played: one cue ball (moved to the front), balls on the bed and clear of
/// each other, and something to play. With `instead`, the balls lie on that table and not on the
/// file's.
///
/// Places count to the micrometre. Balls that overlap by 0.05 mm or less count as touching and are
/// left where they are; so are balls 0.5 mm or less inside a cushion.
[[nodiscard]] std::expected<coach::Layout, InputError> read_layout(
    std::string_view text, std::string_view file,
    const std::optional<engine::Table>& instead = std::nullopt);

/// The table is written as its name when it is a preset, else as a whole.
[[nodiscard]] std::string write_layout(const coach::Layout& layout);

}  // namespace ahead::formats
