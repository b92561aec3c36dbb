#include "server/long_work.h"

#include <chrono>
#include <condition_variable>
#include <deque>
#include <exception>
#include <memory>
#include <mutex>
#include <stop_token>
#include <thread>
#include <utility>

#include <fmt/format.h>

#include "formats/workbench/json_object.h"
#include "server/problems.h"

namespace ahead::server {
namespace {

using namespace std::chrono_literals;

struct Event {
  std::string name;
  std::string data;
};

/// What the two threads share. The worker may outlive the connection by a moment.
class Shared {
 public:
  void tell(Event event) {
    {
      const std::scoped_lock lock(mutex_);
      events_.push_back(std::move(event));
    }
    told_.notify_one();
  }

  void end() {
    {
      const std::scoped_lock lock(mutex_);
      ended_ = true;
    }
    told_.notify_one();
  }

  void stop() { stop_.request_stop(); }
  [[nodiscard]] std::stop_token stopped() const { return stop_.get_token(); }

  /// What has been told since, after a short wait if nothing was; true when there is more to come.
  bool wait(std::deque<Event>& events) {
    std::unique_lock lock(mutex_);
    told_.wait_for(lock, 20ms, [&] { return !events_.empty() || ended_; });
    events.swap(events_);
    return !ended_ || !events.empty();
  }

 private:
  std::mutex mutex_;
  std::condition_variable told_;
  std::deque<Event> events_;
  std::stop_source stop_;
  bool ended_ = false;
};

Telling telling(const std::shared_ptr<Shared>& shared) {
  Telling telling;
  telling.settings.stop = shared->stopped();
  telling.settings.on_progress = [shared](const coach::Progress& progress) {
    shared->tell({"progress", formats::JsonObject()
                                  .add_words("stage", progress.stage)
                                  .add("fraction", fmt::format("{:.4f}", progress.fraction))
                                  .text()});
  };
  telling.send = [shared](const std::string& event, const std::string& data) {
    shared->tell({event, data});
  };
  return telling;
}

void run(const std::shared_ptr<Shared>& shared,
         const std::function<std::string(const Telling&)>& work) {
  try {
    shared->tell({"done", work(telling(shared))});
  } catch (const RefusedWork& refused) {
    shared->tell({"problem", *refused.reply.body});
  } catch (const std::exception& fault) {
    fmt::print(stderr, "ahead serve: {}\n", fault.what());
    shared->tell({"problem", *internal().body});
  }
  shared->end();
}

}  // namespace

void tell_work(EventSink& sink, std::function<std::string(const Telling&)> work,
               std::function<void()> finished) {
  const auto shared = std::make_shared<Shared>();
  std::thread([shared, work = std::move(work), finished = std::move(finished)] {
    run(shared, work);
    finished();
  }).detach();

  auto last_sent = std::chrono::steady_clock::now();
  std::deque<Event> events;
  bool open = true;
  bool more = true;
  while (open && more) {
    events.clear();
    more = shared->wait(events);
    for (const Event& event : events) open = open && sink.send(event.name, event.data);
    const auto now = std::chrono::steady_clock::now();
    if (!events.empty()) last_sent = now;
    if (open && now - last_sent > 2s) {
      open = sink.send_nothing();
      last_sent = now;
    }
    open = open && !sink.gone();
  }
  shared->stop();
}

}  // namespace ahead::server
