#pragma once

#include <functional>
#include <string>

#include "coach/plan/plan_clearance.h"
#include "server/request.h"

/// Work of the coach that takes long, told as it goes on, and stopped when nobody waits for it.
///
/// The one place that knows how the coach is watched and stopped.
namespace ahead::server {

/// What `work` may do while it works.
struct Telling {
  coach::PlanSettings settings;  ///< to be passed on to the coach
  /// Sends an event now. Nothing when nobody waits for it any more.
  std::function<void(const std::string& event, const std::string& data)> send;
};

/// Thrown by work that cannot be done: its reply is sent as the `problem`.
struct RefusedWork {
  Reply reply;
};

/// Runs `work` on a thread of its own, sends `progress` and what the work tells, and at the end the
/// `done` that the work returns, or a `problem`. Returns as soon as the client has gone; `finished`
/// is called when the thread has really ended.
void tell_work(EventSink& sink, std::function<std::string(const Telling&)> work,
               std::function<void()> finished);

}  // namespace ahead::server
