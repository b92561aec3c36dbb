#include "bench/layouts.h"

#include <algorithm>
#include <cstdio>

#include "formats/layout.h"
#include "formats/text_file.h"

namespace ahead::bench {

std::optional<std::vector<Named>> layouts_in(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".json") paths.push_back(entry.path());
  }
  std::ranges::sort(paths);
  std::vector<Named> layouts;
  for (const auto& path : paths) {
    const auto text = formats::read_file(path);
    const auto layout =
        text ? formats::read_layout(*text, path.string()) : std::unexpected(text.error());
    if (!layout) {
      std::fprintf(stderr, "%s\n", formats::one_line(layout.error()).c_str());
      return std::nullopt;
    }
    layouts.push_back({.name = path.stem().string(), .layout = *layout});
  }
  return layouts;
}

}  // namespace ahead::bench
