#pragma once

#include <expected>
#include <optional>
#include <string>

#include "coach/layout.h"
#include "coach/player/player.h"
#include "engine/contact/strike.h"
#include "engine/equipment/table.h"
#include "formats/input_error.h"

/// Arguments that name a file, or a preset, turned into values.
namespace ahead::cli {

template <class Value>
using Given = std::expected<Value, formats::InputError>;

/// A preset's name or a table file.
[[nodiscard]] Given<engine::Table> given_table(const std::string& name_or_path);

/// A preset's name or a player file.
[[nodiscard]] Given<coach::Player> given_player(const std::string& name_or_path);

/// A layout file; with `table` (a name or file) its balls lie on that table.
[[nodiscard]] Given<coach::Layout> given_layout(const std::string& path,
                                                const std::optional<std::string>& table);

/// A strike file for the cue of that table.
[[nodiscard]] Given<engine::Strike> given_strike(const std::string& path, const engine::Cue& cue);

}  // namespace ahead::cli
