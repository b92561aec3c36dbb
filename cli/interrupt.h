#pragma once

#include <stop_token>
#include <thread>

namespace ahead::cli {

/// While it lives, the first Ctrl-C asks for a stop instead of ending the program; the second ends
/// it. Make it before any other thread.
class Interrupt {
 public:
  Interrupt();
  ~Interrupt();
  Interrupt(const Interrupt&) = delete;
  Interrupt& operator=(const Interrupt&) = delete;

  [[nodiscard]] std::stop_token token() const { return source_.get_token(); }

 private:
  std::stop_source source_;
  std::jthread listener_;
};

}  // namespace ahead::cli
