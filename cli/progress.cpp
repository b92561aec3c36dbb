#include "cli/progress.h"

#include <cstdio>

namespace ahead::cli {

void show_progress(const coach::Progress& progress) {
  std::fprintf(stderr, "\r%3.0f%%  %.*s", 100 * progress.fraction,
               static_cast<int>(progress.stage.size()), progress.stage.data());
  if (progress.fraction >= 1) std::fprintf(stderr, "\r\033[K");
}

}  // namespace ahead::cli
