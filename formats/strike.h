#pragma once

#include <expected>
#include <string>
#include <string_view>

#include "engine/contact/strike.h"
#include "engine/equipment/surfaces.h"
#include "formats/input_error.h"

/// A strike as a file, `three-ahead.strike/1`. Its keys: formats/schema/strike.schema.json.
namespace ahead::formats {

/// A strike that `cue` can make: a touch beyond its limit is refused as a miscue.
[[nodiscard]] std::expected<engine::Strike, InputError> read_strike(std::string_view text,
                                                                    std::string_view file,
                                                                    const engine::Cue& cue);

[[nodiscard]] std::string write_strike(const engine::Strike& strike);

}  // namespace ahead::formats
