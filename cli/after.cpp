#include "formats/after.h"

#include <cstdio>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include <fmt/format.h>
#include <unistd.h>

#include "cli/given.h"
#include "cli/paragraph.h"
#include "cli/progress.h"
#include "cli/verbs.h"
#include "coach/after/aftermath.h"
#include "formats/plan.h"
#include "formats/text_file.h"
#include "lesson/after_figure.h"
#include "lesson/house_look.h"
#include "lesson/words/after_words.h"

namespace ahead::cli {
namespace {

struct Options {
  Common common;
  std::string plan;
  std::string actual;
  std::size_t shot = 1;
  std::optional<std::string> player;
  std::optional<std::string> out;
};

Given<coach::Plan> given_plan(const std::string& path) {
  const auto text = formats::read_file(path);
  if (!text) return std::unexpected(text.error());
  return formats::read_plan(*text, path);
}

/// The layout that was found, on the plan's table and with balls that were there.
Given<coach::Layout> given_actual(const Options& options, const coach::PlannedShot& shot) {
  auto layout = given_layout(options.actual, std::nullopt);
  if (!layout) return layout;
  if (!(layout->table == shot.before.table)) {
    return std::unexpected(formats::other_table({.file = options.actual, .place = "/table"},
                                                layout->table.id, shot.before.table.id));
  }
  if (const auto ball = coach::newcomer(shot, *layout)) {
    return std::unexpected(formats::ball_not_there({.file = options.actual, .place = "/balls"},
                                                   layout->balls[*ball].id, options.shot));
  }
  return layout;
}

std::string in_words(const coach::Plan& plan, const coach::Aftermath& after) {
  const lesson::AfterWords words = lesson::after_words(plan, after);
  std::string out = paragraph(words.title, 0);
  for (const std::string& end : words.ends) out += paragraph(end, 3);
  out += "\nThe strike that was probably made, against the one that was meant\n";
  for (const std::string& sentence : words.strike) out += paragraph(sentence, 3);
  out += "\nFrom here\n";
  if (!words.next.empty()) out += paragraph(words.next, 3);
  return out + paragraph(words.from_here, 3);
}

std::optional<formats::InputError> write_pack(const coach::Plan& plan,
                                              const coach::Aftermath& after,
                                              const std::filesystem::path& folder) {
  if (auto error = formats::write_file(folder / "after.json", formats::write_after(plan, after))) {
    return error;
  }
  if (auto error = formats::write_file(folder / "after.svg",
                                       lesson::after_figure(plan, after, lesson::house_look()))) {
    return error;
  }
  if (!after.plan) return std::nullopt;
  return formats::write_file(folder / "plan.json", formats::write_plan(*after.plan));
}

Outcome run(const Options& options) {
  const auto plan = given_plan(options.plan);
  if (!plan) return std::unexpected(plan.error());
  if (options.shot < 1 || options.shot > plan->shots.size()) {
    return std::unexpected(formats::no_such_shot(options.shot, plan->shots.size()));
  }
  const std::size_t shot = options.shot - 1;
  const auto actual = given_actual(options, plan->shots[shot]);
  if (!actual) return std::unexpected(actual.error());
  coach::Player player = plan->player;
  if (options.player) {
    auto given = given_player(*options.player);
    if (!given) return std::unexpected(given.error());
    player = *std::move(given);
  }
  if (options.out) {
    if (auto error = formats::make_folder(*options.out)) return std::unexpected(*error);
  }
  coach::PlanSettings settings{.seed = options.common.seed, .threads = options.common.threads};
  if (isatty(STDERR_FILENO) != 0) settings.on_progress = show_progress;
  const coach::Aftermath after = coach::aftermath_of(*plan, shot, *actual, player, settings);
  if (options.out) {
    if (auto error = write_pack(*plan, after, *options.out)) return std::unexpected(*error);
  }
  return Answer{
      .out = options.common.json ? formats::write_after(*plan, after) : in_words(*plan, after),
      .exit = coach::is_explained(after.strike) ? Exit::done : Exit::no};
}

}  // namespace

Run after_verb(CLI::App& app) {
  auto options = std::make_shared<Options>();
  app.add_option("PLAN", options->plan, "Plan file: plan.json of \"ahead plan --out\"")->required();
  app.add_option("--actual", options->actual, "Layout file: where the balls lie after the shot")
      ->required()
      ->type_name("LAYOUT");
  app.add_option("--shot", options->shot, "Which shot of the plan was played")
      ->capture_default_str()
      ->check(CLI::Range(1, 32))
      ->type_name("K");
  app.add_option("--player", options->player, "Who played, if not the player of the plan")
      ->type_name("ID or FILE");
  app.add_option("--out", options->out,
                 "Folder for after.json, after.svg (meant and likely paths) and the new plan.json")
      ->type_name("DIR");
  add_common(app, options->common);
  app.footer(R"(Example:
  ahead after examples/after/plan.json --actual examples/after/actual.json --out out/after
    says how the leave differs from the plan, which strike probably made it, and what to play now;
    "ahead plan LAYOUT --out DIR" writes a plan.json of your own.

The strike is inferred, not seen: slips are drawn from the player's errors, played with the full
physics and kept as far as they leave the balls where they were found. An interval holds the truth
about 9 times in 10 if the player's errors and the table's figures are right. One resting place fits
many strikes; what it cannot tell apart is said. Leave potted balls out of the layout; after an in-
off there is no cue ball to compare. A ball without "sigma_mm" counts as measured to 3 mm. A later
shot is taken to have begun where the plan had it: plan again after each shot, and compare with that
plan.
Exit status 1 when no strike of this player explains the layout.)");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
