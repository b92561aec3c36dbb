#pragma once

#include <expected>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "coach/plan/plan.h"
#include "formats/input_error.h"
#include "formats/lesson_settings.h"
#include "formats/manifest.h"
#include "lesson/figure/shot_layers.h"
#include "lesson/told/edits.h"

/// A whole lesson, from words to film, as files in a folder.
namespace ahead::lesson {

[[nodiscard]] Voice voice_of(const formats::LessonSettings& settings);
[[nodiscard]] ShotLayers layers_of(const formats::LessonSettings& settings);

/// What the manifest says of where a lesson comes from.
struct Origin {
  std::string program;  ///< and its version
  std::string plan;     ///< name of the plan's file
  std::string_view plan_text;
};

/// Told which file is being made and how far it is (0 to 1); false stops.
using OnStep = std::function<bool(const std::string& file, double done)>;

struct Pack {
  std::vector<formats::OutputFile> files;  ///< in the order in which they were made
  std::string manifest;                    ///< text of manifest.json, which is written last
  bool stopped = false;                    ///< films that were not finished are left out
};

/// Writes what the settings ask for into `folder`, which is there. A file is there whole or not at
/// all. Requires settings.clip <= plan.shots.size().
[[nodiscard]] std::expected<Pack, formats::InputError> make_pack(
    const coach::Plan& plan, const Origin& origin, const Edited& told,
    const formats::LessonSettings& settings, const std::filesystem::path& folder,
    const OnStep& on_step);

}  // namespace ahead::lesson
