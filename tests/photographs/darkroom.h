#pragma once

#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

#include "tests/photographs/scene.h"

/// From a scene to a photograph: POV-Ray renders it through an ideal pinhole, then the lens bends
/// it and the sensor adds its noise.
namespace ahead::photographs {

/// How much wider and higher the ideal picture is than the photograph: as much as the bent lens
/// draws in at its corners.
[[nodiscard]] double margin_of(const Scene& scene);

struct Raster {
  int width = 0, height = 0;
  std::vector<unsigned char> rgb;

  [[nodiscard]] const unsigned char* at(int x, int y) const {
    x = std::clamp(x, 0, width - 1);
    y = std::clamp(y, 0, height - 1);
    return rgb.data() + 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                             static_cast<std::size_t>(x));
  }
};

/// Renders `text` (pov_scene() or pov_numbers()); stops the program when POV-Ray fails.
[[nodiscard]] Raster rendered(const std::string& text, const Scene& scene,
                              const std::filesystem::path& folder, bool smooth);

/// What the sensor sees: bent, darker to the corners, noisy. Rows from the top, red, green, blue.
/// Each exposure has noise of its own.
[[nodiscard]] std::vector<unsigned char> photographed(const Scene& scene, const Raster& ideal,
                                                      std::uint64_t exposure = 77);

}  // namespace ahead::photographs
