#include "coach/threads.h"

#include <cstddef>

#include <tbb/global_control.h>
#include <tbb/info.h>

namespace ahead::coach {

struct ThreadLimit::Hold {
  tbb::global_control control;
};

ThreadLimit::ThreadLimit(int threads)
    : hold_(new Hold{tbb::global_control(
          tbb::global_control::max_allowed_parallelism,
          static_cast<std::size_t>(threads > 0 ? threads : tbb::info::default_concurrency()))}) {}

ThreadLimit::~ThreadLimit() = default;

}  // namespace ahead::coach
