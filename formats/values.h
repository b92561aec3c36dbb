#pragma once

#include <optional>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include "coach/layout.h"
#include "coach/plan/plan.h"
#include "coach/player/player.h"
#include "engine/contact/strike.h"
#include "engine/equipment/table.h"
#include "formats/capture.h"
#include "formats/field.h"
#include "formats/teacher_words.h"

/// Values that occur inside other files, to and from JSON. Private to this room.
namespace ahead::formats {

inline constexpr std::string_view table_format = "three-ahead.table/1";
inline constexpr std::string_view layout_format = "three-ahead.layout/1";
inline constexpr std::string_view strike_format = "three-ahead.strike/1";
inline constexpr std::string_view player_format = "three-ahead.player/1";
inline constexpr std::string_view shot_format = "three-ahead.shot/1";
inline constexpr std::string_view plan_format = "three-ahead.plan/1";
inline constexpr std::string_view teacher_words_format = "three-ahead.words/1";
inline constexpr std::string_view manifest_format = "three-ahead.lesson/1";
inline constexpr std::string_view reading_format = "three-ahead.reading/1";
inline constexpr std::string_view trace_format = "three-ahead.trace/1";
inline constexpr std::string_view after_format = "three-ahead.after/1";
inline constexpr std::string_view trial_format = "three-ahead.trial/1";
inline constexpr std::string_view capture_format = "three-ahead.capture/1";
inline constexpr std::string_view footage_format = "three-ahead.footage/1";

[[nodiscard]] engine::Table table_of(const Field& field);
[[nodiscard]] nlohmann::ordered_json json_of(const engine::Table& table);
/// The preset's name when `table` is that preset, else the whole table.
[[nodiscard]] nlohmann::ordered_json short_json_of(const engine::Table& table);

/// A strike with its `format` key.
[[nodiscard]] engine::Strike strike_of(const Field& field, const engine::Cue& cue);
/// Without the `format` key, as plans hold it.
[[nodiscard]] engine::Strike bare_strike_of(const Field& field, const engine::Cue& cue);
[[nodiscard]] nlohmann::ordered_json json_of(const engine::Strike& strike);
/// With it.
[[nodiscard]] nlohmann::ordered_json whole_json_of(const engine::Strike& strike);

/// A layout with its `format` key. With `instead`, on that table.
[[nodiscard]] coach::Layout layout_of(const Field& field,
                                      const std::optional<engine::Table>& instead = std::nullopt);
/// The same without asking whether it can be played; the balls stay in the file's order.
[[nodiscard]] coach::Layout bare_layout_of(
    const Field& field, const std::optional<engine::Table>& instead = std::nullopt);
[[nodiscard]] nlohmann::ordered_json json_of(const coach::Layout& layout);
[[nodiscard]] coach::LayoutBall layout_ball_of(const Field& field);
[[nodiscard]] nlohmann::ordered_json json_of(const coach::LayoutBall& ball);
/// A player with its `format` key.
[[nodiscard]] coach::Player player_of(const Field& field);
[[nodiscard]] coach::Plan plan_of(const Field& field);
[[nodiscard]] TeacherWords teacher_words_of(const Field& field);
[[nodiscard]] nlohmann::ordered_json json_of(const TeacherWords& words);
[[nodiscard]] nlohmann::ordered_json json_of(const coach::Player& player);

/// A capture with its `format` key.
[[nodiscard]] nlohmann::ordered_json json_of(const CaptureRecord& capture);

/// [x, y] in mm.
[[nodiscard]] nlohmann::ordered_json json_of(engine::Vec2 point, int decimals = 3);

}  // namespace ahead::formats
