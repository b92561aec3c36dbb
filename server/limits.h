#pragma once

#include <chrono>
#include <cstddef>
#include <map>
#include <mutex>
#include <string>

/// How much the server takes on. A page that works as it should never meets a limit.
namespace ahead::server {

struct Limits {
  std::size_t most_body_bytes = 3'000'000;  ///< a plan is about 300 kB
  int plans = 2;                            ///< plans, comparisons and other long work, at once
  int event_streams = 32;
  int connections = 120;
  double requests_per_s = 3000;                     ///< from one address, in the long run
  double burst = 6000;                              ///< ... at once
  std::chrono::milliseconds whole_request{10'000};  ///< from its first byte to its last
  std::chrono::milliseconds idle{60'000};           ///< between two requests of a connection
};

/// So many at once and no more.
class Slots {
 public:
  explicit Slots(int count) : free_(count) {}

  /// Held while it lives; empty when none was free.
  class Held {
   public:
    Held() = default;
    explicit Held(Slots* slots) : slots_(slots) {}
    Held(Held&& other) noexcept : slots_(other.slots_) { other.slots_ = nullptr; }
    Held& operator=(Held&& other) noexcept;
    Held(const Held&) = delete;
    Held& operator=(const Held&) = delete;
    ~Held();
    [[nodiscard]] explicit operator bool() const { return slots_ != nullptr; }

   private:
    Slots* slots_ = nullptr;
  };
  [[nodiscard]] Held take();

 private:
  std::mutex mutex_;
  int free_;
};

/// A bucket of tokens for each address, which fills steadily (token bucket).
class Pace {
 public:
  using Clock = std::chrono::steady_clock;

  Pace(double per_s, double burst) : per_s_(per_s), burst_(burst) {}

  /// Whether `address` may ask once more at `now`.
  [[nodiscard]] bool allows(const std::string& address, Clock::time_point now);

 private:
  struct Bucket {
    double tokens = 0;
    Clock::time_point filled;
  };
  std::mutex mutex_;
  double per_s_;
  double burst_;
  std::map<std::string, Bucket> buckets_;
};

}  // namespace ahead::server
