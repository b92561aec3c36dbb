#include "cli/interrupt.h"

#include <csignal>
#include <ctime>

namespace ahead::cli {
namespace {

sigset_t interrupts() {
  sigset_t set;
  sigemptyset(&set);
  sigaddset(&set, SIGINT);
  return set;
}

}  // namespace

Interrupt::Interrupt() {
  // Threads made from here on leave the signal to the listener.
  const sigset_t set = interrupts();
  pthread_sigmask(SIG_BLOCK, &set, nullptr);
  listener_ = std::jthread([this, set](const std::stop_token& ended) {
    constexpr timespec moment{.tv_sec = 0, .tv_nsec = 20'000'000};
    while (!ended.stop_requested()) {
      if (sigtimedwait(&set, nullptr, &moment) != SIGINT) continue;
      if (source_.request_stop()) continue;
      // The second: nobody else takes it, so it ends the program here.
      pthread_sigmask(SIG_UNBLOCK, &set, nullptr);
      pthread_kill(pthread_self(), SIGINT);
    }
  });
}

Interrupt::~Interrupt() {
  listener_.request_stop();
  listener_.join();
  const sigset_t set = interrupts();
  pthread_sigmask(SIG_UNBLOCK, &set, nullptr);
}

}  // namespace ahead::cli
