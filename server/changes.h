#pragma once

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <mutex>
#include <optional>
#include <string>

/// What has changed in the library, told to every page that listens.
namespace ahead::server {

class Changes {
 public:
  /// `data` is the event's JSON.
  void tell(std::string data);

  /// The number of the change that comes next.
  [[nodiscard]] std::uint64_t next() const;

  /// Change number `number`, waiting for it so long. A listener that is far behind misses some.
  [[nodiscard]] std::optional<std::string> wait_for(std::uint64_t number,
                                                    std::chrono::milliseconds patience) const;

 private:
  static constexpr std::size_t most_kept = 1000;

  mutable std::mutex mutex_;
  mutable std::condition_variable told_;
  std::deque<std::string> kept_;
  std::uint64_t first_ = 0;  ///< number of the first that is kept
};

}  // namespace ahead::server
