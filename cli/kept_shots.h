#pragma once

#include <filesystem>
#include <optional>

#include "coach/trial/trial.h"
#include "formats/input_error.h"

namespace ahead::cli {

/// Writes every shot of the trial under `folder`: run-001/shot-01.layout.json is the table before
/// it, .strike.json the strike as it came off the tip, .shot.json all paths. A miscue has no paths.
[[nodiscard]] std::optional<formats::InputError> keep_shots(const coach::Layout& layout,
                                                            const coach::LayoutTrial& trial,
                                                            const std::filesystem::path& folder);

}  // namespace ahead::cli
