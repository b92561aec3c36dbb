#include <array>
#include <memory>

#include "coach/after/aftermath.h"
#include "coach/doubt/first_choice.h"
#include "formats/after.h"
#include "formats/workbench/answers.h"
#include "formats/workbench/json_object.h"
#include "formats/workbench/questions.h"
#include "lesson/words/after_words.h"
#include "server/long_work.h"
#include "server/plan_view.h"
#include "server/problems.h"
#include "server/workbench.h"

// What the coach works on for seconds, as Server-Sent Events.
namespace ahead::server {
namespace {

using formats::JsonObject;

std::string plan_done(const formats::PlanQuestion& question, const Telling& telling) {
  const formats::TableQuestion& table = question.table;
  coach::PlanSettings settings = telling.settings;
  settings.seed = table.seed;
  settings.first = question.first;
  settings.on_plan = [&](const coach::Plan& plan) {
    telling.send("best", JsonObject().add("view", plan_view_text(plan)).text());
  };
  const auto plan = coach::plan_clearance(table.layout, table.player, settings);
  if (!plan) {
    return JsonObject()
        .add("view", "null")
        .add_words("doubt", "")
        .add_words("detail", "No ball that is on can be potted directly from here by this player.")
        .text();
  }
  const std::string view = plan_view_text(*plan);
  // Whose first shot is given has chosen it: there is nothing to doubt.
  if (plan->partial || question.first) {
    return JsonObject().add("view", view).add_words("doubt", "").add_words("detail", "").text();
  }
  const std::string doubt = lesson::doubt_words(
      *plan, coach::steadiness_of(*plan, coach::assumed_sigma_m, table.seed, 0));
  return JsonObject().add("view", view).add_words("doubt", doubt).add_words("detail", "").text();
}

std::string list_text(const std::vector<std::string>& lines) {
  formats::JsonList list;
  for (const std::string& line : lines) list.add_words(line);
  return list.text();
}

std::string after_done(const formats::AfterQuestion& question, const Telling& telling) {
  coach::PlanSettings settings = telling.settings;
  settings.seed = question.seed;
  const coach::Aftermath after =
      coach::aftermath_of(question.plan, question.shot, question.actual, question.player, settings);
  const coach::PlannedShot& shot = question.plan.shots[question.shot];
  const lesson::AfterWords words = lesson::after_words(question.plan, after);
  return JsonObject()
      .add("after", on_one_line(formats::write_after(question.plan, after)))
      .add_truth("explained", coach::is_explained(after.strike))
      .add("words", JsonObject()
                        .add_words("title", words.title)
                        .add("ends", list_text(words.ends))
                        .add("strike", list_text(words.strike))
                        .add_words("next", words.next)
                        .add_words("from_here", words.from_here)
                        .text())
      .add("meant", formats::moves_text(shot.best.intended, shot.before))
      .add("likely", after.likely ? formats::moves_text(*after.likely, shot.before) : "null")
      .add("view", after.plan ? plan_view_text(*after.plan) : "null")
      .text();
}

/// The stream of a question, if there is room for its work.
template <class Question>
Reply streamed(Workbench& workbench, const formats::Asked<Question>& question,
               std::string (*work)(const Question&, const Telling&)) {
  if (!question) return bad_input(question.error());
  // Held until the work has ended, not only until its client has gone.
  auto slot = std::make_shared<Slots::Held>(workbench.plans.take());
  if (!*slot) return busy("other plans and searches");
  auto asked = std::make_shared<const Question>(*question);
  return {.type = "text/event-stream", .events = [asked, slot, work](EventSink& sink) {
            tell_work(
                sink, [asked, work](const Telling& telling) { return work(*asked, telling); },
                [slot] { *slot = Slots::Held(); });
          }};
}

Reply plan(Workbench& workbench, const Request& request) {
  return streamed<formats::PlanQuestion>(workbench, formats::read_plan_question(request.body),
                                         plan_done);
}

Reply after(Workbench& workbench, const Request& request) {
  return streamed<formats::AfterQuestion>(workbench, formats::read_after_question(request.body),
                                          after_done);
}

}  // namespace

std::span<const Route> stream_routes() {
  static constexpr std::array routes{Route{"POST", "/api/plan", plan},
                                     Route{"POST", "/api/after", after}};
  return routes;
}

}  // namespace ahead::server
