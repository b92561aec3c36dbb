#include "formats/plan.h"

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <unistd.h>

#include "cli/given.h"
#include "cli/interrupt.h"
#include "cli/paragraph.h"
#include "cli/plan_in_words.h"
#include "cli/progress.h"
#include "cli/verbs.h"
#include "coach/after/seen.h"
#include "coach/doubt/first_choice.h"
#include "coach/plan/plan_clearance.h"
#include "formats/text_file.h"
#include "lesson/house_look.h"
#include "lesson/page.h"
#include "lesson/shot_figure.h"
#include "lesson/words/after_words.h"
#include "lesson/words/bet_words.h"
#include "lesson/words/shot_words.h"

namespace ahead::cli {
namespace {

struct Options {
  Common common;
  std::string layout;
  std::string player = "club";
  std::optional<std::string> table;
  std::optional<std::string> out;
  coach::Effort effort = coach::Effort::normal;
  std::optional<double> seconds;
};

std::string plan_file(const coach::Plan& plan) {
  std::vector<std::string> words;
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    words.push_back(
        fmt::format("{}", fmt::join(lesson::sentences(lesson::shot_words(plan, i)), " ")));
  }
  return formats::write_plan(plan, words);
}

/// plan.json, the page, and one drawing a shot.
std::optional<formats::InputError> write_pack(const coach::Plan& plan,
                                              const std::filesystem::path& folder) {
  const formats::Look look = lesson::house_look();
  if (auto error = formats::write_file(folder / "plan.json", plan_file(plan))) return error;
  if (auto error = formats::write_file(folder / "index.html", lesson::plan_page(plan, look))) {
    return error;
  }
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    const auto path = folder / fmt::format("shot-{:02}.svg", i + 1);
    if (auto error = formats::write_file(path, lesson::shot_figure(plan, i, look))) return error;
  }
  return std::nullopt;
}

constexpr std::string_view partial_words =
    "Stopped early: this is the plan so far. Its figures rest on fewer tries than were asked for.";

std::string doubt_of(const coach::Plan& plan, const Options& options) {
  return lesson::doubt_words(plan,
                             coach::steadiness_of(plan, coach::assumed_sigma_m, options.common.seed,
                                                  options.common.threads));
}

/// What there is to play where nothing can be potted.
std::string safe_play_in_words(const coach::Layout& layout, const coach::Player& player,
                               const Options& options) {
  const auto safe =
      coach::only_safe_play(layout, player, options.common.seed, options.common.threads);
  if (!safe) return {};
  return paragraph("Play safe: " + lesson::safe_play_words(layout, *safe), 0);
}

Outcome run(const Options& options) {
  auto layout = given_layout(options.layout, options.table);
  if (!layout) return std::unexpected(layout.error());
  const auto player = given_player(options.player);
  if (!player) return std::unexpected(player.error());
  layout->table.cue = coach::cue_of(*player, layout->table.cue);
  // Ask for the folder before the work, not after it.
  if (options.out) {
    if (auto error = formats::make_folder(*options.out)) return std::unexpected(*error);
  }
  const Interrupt interrupt;
  coach::PlanSettings settings{.seed = options.common.seed,
                               .threads = options.common.threads,
                               .effort = options.effort,
                               .seconds = options.seconds,
                               .stop = interrupt.token()};
  if (isatty(STDERR_FILENO) != 0) settings.on_progress = show_progress;
  const auto plan = coach::plan_clearance(*layout, *player, settings);
  if (!plan && interrupt.token().stop_requested()) {
    return Answer{.out = options.common.json ? "null\n" : "",
                  .note = "stopped before there was a plan",
                  .exit = Exit::no};
  }
  if (!plan) {
    return Answer{
        .out = options.common.json ? "null\n" : safe_play_in_words(*layout, *player, options),
        .note = "no ball that is on can be potted directly from here by this player",
        .exit = Exit::no};
  }
  if (options.out) {
    if (auto error = write_pack(*plan, *options.out)) return std::unexpected(*error);
  }
  const std::string doubt = plan->partial ? std::string{partial_words} : doubt_of(*plan, options);
  if (options.common.json) return Answer{.out = plan_file(*plan), .note = doubt};
  return Answer{.out = plan_in_words(*plan) + (doubt.empty() ? "" : '\n' + paragraph(doubt, 0))};
}

}  // namespace

Run plan_verb(CLI::App& app) {
  auto options = std::make_shared<Options>();
  app.add_option("LAYOUT", options->layout, "Layout file: where the balls lie")->required();
  app.add_option("--player", options->player,
                 "Who plays: novice, club, county, professional, or a player file")
      ->capture_default_str()
      ->type_name("ID or FILE");
  app.add_option("--table", options->table, "Another table for these balls: a name or a file")
      ->type_name("ID or FILE");
  app.add_option("--out", options->out, "Folder for plan.json, index.html and one drawing a shot")
      ->type_name("DIR");
  app.add_option("--effort", options->effort, "How much is tried: quick, normal or deep")
      ->transform(CLI::CheckedTransformer(
          std::map<std::string, coach::Effort>{{"quick", coach::Effort::quick},
                                               {"normal", coach::Effort::normal},
                                               {"deep", coach::Effort::deep}}))
      ->default_str("normal")
      ->type_name("LEVEL");
  app.add_option("--seconds", options->seconds,
                 "Plan for so long instead, with ever more effort; not the same every time")
      ->check(CLI::Range(0.0, 3600.0))
      ->excludes("--effort");
  add_common(app, options->common);
  app.footer(R"(Example:
  ahead plan examples/evening-class.json --player club --out out/evening
    plans the clearance for a club player and writes the page out/evening/index.html.

Each shot is the ball, pocket and strike that gave this player the best chance of clearing, tried
out with the player's errors; the runner-up is the best other ball or pocket, with what it loses.
A later shot starts from where the one before it leaves the balls when it goes as meant.
"Pot" is the share of tries in which the ball dropped; "clear" the share of clearances played to the
end, choosing again after every shot. Both come with the interval that holds 95 times in 100.
When another first shot would be clearly better with the balls a few millimetres elsewhere, the plan
ends with a line that says so; with --json the line goes to standard error.
Ctrl-C ends the search with the plan so far.
Chances hold for the errors in the player's file and for this table's figures.)");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
