#include "server/changes.h"

#include <algorithm>
#include <utility>

namespace ahead::server {

void Changes::tell(std::string data) {
  {
    const std::scoped_lock lock(mutex_);
    kept_.push_back(std::move(data));
    if (kept_.size() > most_kept) {
      kept_.pop_front();
      ++first_;
    }
  }
  told_.notify_all();
}

std::uint64_t Changes::next() const {
  const std::scoped_lock lock(mutex_);
  return first_ + kept_.size();
}

std::optional<std::string> Changes::wait_for(std::uint64_t number,
                                             std::chrono::milliseconds patience) const {
  std::unique_lock lock(mutex_);
  if (!told_.wait_for(lock, patience, [&] { return number < first_ + kept_.size(); })) {
    return std::nullopt;
  }
  return kept_[std::max(number, first_) - first_];
}

}  // namespace ahead::server
