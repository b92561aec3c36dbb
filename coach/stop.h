#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <stop_token>

/// Ending long work early: all parallel loops inside it stop handing out their parts.
namespace ahead::coach {

/// Runs `work`. When `stop` is asked to stop, the parallel loops of `work` skip what they have not
/// begun, so that it runs to its end at once; what it answers is then worth nothing. True when it
/// ran to its end undisturbed.
bool ran_unstopped(const std::stop_token& stop, const std::function<void()>& work);

/// Asks for a stop when another does, or when so many seconds have gone.
class StopAfter {
 public:
  StopAfter(std::stop_token other, std::optional<double> seconds);
  ~StopAfter();
  StopAfter(const StopAfter&) = delete;
  StopAfter& operator=(const StopAfter&) = delete;

  [[nodiscard]] std::stop_token token() const;

 private:
  struct Clock;
  std::stop_source source_;
  std::stop_callback<std::function<void()>> forward_;
  std::unique_ptr<Clock> clock_;
};

}  // namespace ahead::coach
