#include "coach/stop.h"

#include <chrono>
#include <condition_variable>
#include <mutex>
#include <thread>
#include <utility>

#include <tbb/parallel_for.h>
#include <tbb/task_group.h>

namespace ahead::coach {

bool ran_unstopped(const std::stop_token& stop, const std::function<void()>& work) {
  tbb::task_group_context context;
  const std::stop_callback on_stop(stop, [&context] { context.cancel_group_execution(); });
  // Loops within the body belong to its context and end with it.
  tbb::parallel_for(0, 1, [&work](int) { work(); }, context);
  return !stop.stop_requested();
}

struct StopAfter::Clock {
  std::mutex mutex;
  std::condition_variable_any woken;
  std::jthread thread;
};

StopAfter::StopAfter(std::stop_token other, std::optional<double> seconds)
    : forward_(std::move(other), [this] { source_.request_stop(); }) {
  if (!seconds) return;
  clock_ = std::make_unique<Clock>();
  clock_->thread = std::jthread([this, lasts_s = *seconds](const std::stop_token& ended) {
    std::unique_lock lock(clock_->mutex);
    clock_->woken.wait_for(lock, ended, std::chrono::duration<double>(lasts_s),
                           [] { return false; });
    if (!ended.stop_requested()) source_.request_stop();
  });
}

StopAfter::~StopAfter() = default;

std::stop_token StopAfter::token() const { return source_.get_token(); }

}  // namespace ahead::coach
