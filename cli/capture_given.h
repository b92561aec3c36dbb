#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "capture/camera/fit_camera.h"
#include "cli/given.h"
#include "cli/verb.h"
#include "coach/plan/plan.h"
#include "engine/equipment/table.h"

/// What `ahead capture` is given.
namespace ahead::cli {

struct CaptureOptions {
  Common common;
  std::string photograph;
  std::string table = "english-7ft";
  std::vector<std::string> corners;
  std::vector<std::string> points;
  std::optional<std::string> out;
  std::optional<std::string> plan;
  std::size_t shot = 1;
};

/// The corners and the other points that a person marked.
[[nodiscard]] Given<std::vector<capture::SeenPoint>> given_points(const CaptureOptions& options,
                                                                  const engine::Table& table);

/// The shot that is to be drawn, if one is.
[[nodiscard]] Given<std::optional<coach::PlannedShot>> given_shot(const CaptureOptions& options);

}  // namespace ahead::cli
