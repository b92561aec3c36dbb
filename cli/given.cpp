#include "cli/given.h"

#include <filesystem>

#include "engine/equipment/presets.h"
#include "formats/layout.h"
#include "formats/player.h"
#include "formats/strike.h"
#include "formats/table.h"
#include "formats/text_file.h"

namespace ahead::cli {
namespace {

/// A word without a point or a slash that names no file was meant as a preset.
bool is_a_mistyped_preset(const std::string& name) {
  std::error_code ignored;
  return name.find_first_of("./") == std::string::npos && !std::filesystem::exists(name, ignored);
}

}  // namespace

Given<engine::Table> given_table(const std::string& name_or_path) {
  if (auto preset = engine::table_preset(name_or_path)) return *std::move(preset);
  if (is_a_mistyped_preset(name_or_path)) {
    return std::unexpected(
        formats::unknown_preset("table", name_or_path, engine::table_preset_ids()));
  }
  const auto text = formats::read_file(name_or_path);
  if (!text) return std::unexpected(text.error());
  return formats::read_table(*text, name_or_path);
}

Given<coach::Player> given_player(const std::string& name_or_path) {
  if (auto preset = coach::player_preset(name_or_path)) return *std::move(preset);
  if (is_a_mistyped_preset(name_or_path)) {
    return std::unexpected(
        formats::unknown_preset("player", name_or_path, coach::player_preset_ids()));
  }
  const auto text = formats::read_file(name_or_path);
  if (!text) return std::unexpected(text.error());
  return formats::read_player(*text, name_or_path);
}

Given<coach::Layout> given_layout(const std::string& path,
                                  const std::optional<std::string>& table) {
  std::optional<engine::Table> instead;
  if (table) {
    auto given = given_table(*table);
    if (!given) return std::unexpected(given.error());
    instead = *std::move(given);
  }
  const auto text = formats::read_file(path);
  if (!text) return std::unexpected(text.error());
  return formats::read_layout(*text, path, instead);
}

Given<engine::Strike> given_strike(const std::string& path, const engine::Cue& cue) {
  const auto text = formats::read_file(path);
  if (!text) return std::unexpected(text.error());
  return formats::read_strike(*text, path, cue);
}

}  // namespace ahead::cli
