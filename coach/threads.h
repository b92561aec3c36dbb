#pragma once

#include <memory>

/// How many threads the coach may use. No answer depends on it.
namespace ahead::coach {

/// Holds the limit while it lives. 0: as many as the machine has.
class ThreadLimit {
 public:
  explicit ThreadLimit(int threads);
  ~ThreadLimit();
  ThreadLimit(const ThreadLimit&) = delete;
  ThreadLimit& operator=(const ThreadLimit&) = delete;

 private:
  struct Hold;
  std::unique_ptr<Hold> hold_;
};

}  // namespace ahead::coach
