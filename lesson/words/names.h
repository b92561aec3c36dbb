#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "coach/layout.h"

/// What things are called in a sentence.
namespace ahead::lesson {

/// "red 3", "the black", "the cue ball".
[[nodiscard]] std::string ball_name(std::string_view id);

/// "the middle-left pocket" is said as "the middle-left".
[[nodiscard]] std::string pocket_name(const engine::Table& table, int pocket);

/// "reds", "yellows", "solids", "stripes".
[[nodiscard]] std::string_view group_name(coach::ToPlay colour);

/// The cushion nearest to a place: "left", "right", "top" or "baulk".
[[nodiscard]] std::string_view nearest_cushion(const engine::Table& table, engine::Vec2 place);

/// With a capital.
[[nodiscard]] std::string capitalised(std::string words);

/// "a", "a and b", "a, b and c".
[[nodiscard]] std::string listed(const std::vector<std::string>& items);

}  // namespace ahead::lesson
