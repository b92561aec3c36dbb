#include "server/limits.h"

#include <algorithm>
#include <utility>

namespace ahead::server {

Slots::Held& Slots::Held::operator=(Held&& other) noexcept {
  std::swap(slots_, other.slots_);
  return *this;
}

Slots::Held::~Held() {
  if (slots_ == nullptr) return;
  const std::scoped_lock lock(slots_->mutex_);
  ++slots_->free_;
}

Slots::Held Slots::take() {
  const std::scoped_lock lock(mutex_);
  if (free_ == 0) return {};
  --free_;
  return Held(this);
}

bool Pace::allows(const std::string& address, Clock::time_point now) {
  constexpr std::size_t most_addresses = 10'000;
  const std::scoped_lock lock(mutex_);
  // Forgetting an address gives it a full bucket, which is why the map may grow so far.
  if (buckets_.size() > most_addresses) buckets_.clear();
  const auto [found, is_new] = buckets_.try_emplace(address, Bucket{burst_, now});
  Bucket& bucket = found->second;
  const double passed_s = std::chrono::duration<double>(now - bucket.filled).count();
  bucket.tokens = std::min(burst_, bucket.tokens + std::max(0.0, passed_s) * per_s_);
  bucket.filled = now;
  if (bucket.tokens < 1) return false;
  bucket.tokens -= 1;
  return true;
}

}  // namespace ahead::server
