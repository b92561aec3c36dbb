#pragma once

#include <expected>
#include <string>
#include <string_view>

#include "coach/player/player.h"
#include "formats/input_error.h"

/// A player as a file, `three-ahead.player/1`. Its keys: formats/schema/player.schema.json.
namespace ahead::formats {

[[nodiscard]] std::expected<coach::Player, InputError> read_player(std::string_view text,
                                                                   std::string_view file);

[[nodiscard]] std::string write_player(const coach::Player& player);

}  // namespace ahead::formats
