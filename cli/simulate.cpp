#include "engine/simulate/simulate.h"

#include <memory>
#include <numbers>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "cli/given.h"
#include "cli/raised_cue.h"
#include "cli/shot_in_words.h"
#include "cli/verbs.h"
#include "formats/shot.h"
#include "formats/text_file.h"
#include "formats/trace.h"

namespace ahead::cli {
namespace {

struct Options {
  Common common;
  std::string layout;
  std::string strike;
  std::optional<std::string> table;
  std::optional<std::string> trace;
  std::string replay;
};

Given<formats::Trace> given_shot(const Options& options) {
  const auto layout = given_layout(options.layout, options.table);
  if (!layout) return std::unexpected(layout.error());
  const auto strike = given_strike(options.strike, layout->table.cue);
  if (!strike) return std::unexpected(strike.error());
  return formats::Trace{.layout = *layout, .strike = *strike};
}

engine::Shot played(const formats::Trace& given) {
  std::vector<engine::Vec2> centres;
  for (const coach::LayoutBall& ball : given.layout.balls) centres.push_back(ball.at);
  return engine::simulate(engine::Playfield(given.layout.table), centres, given.strike);
}

formats::InputError stuck(const engine::Shot& shot, const coach::Layout& layout,
                          const std::string& file) {
  std::vector<std::string_view> ids;
  for (std::size_t i = 0; i < layout.balls.size(); ++i) {
    if ((shot.stuck >> i & 1U) != 0) ids.push_back(layout.balls[i].id);
  }
  return formats::stuck_shot(file, ids, shot.settled_s);
}

/// Plays the shot, keeps its trace if that was asked for, and tells what happened.
Outcome play(const Options& options, const formats::Trace& given, const std::string& file) {
  const engine::Shot shot = played(given);
  if (options.trace) {
    const auto unwritten = formats::write_file(*options.trace, formats::write_trace(given, shot));
    if (unwritten) return std::unexpected(*unwritten);
  }
  if (shot.stuck != 0) return std::unexpected(stuck(shot, given.layout, file));

  const std::string caution = raised_cue_caution(given.strike.elevation_rad);
  if (options.common.json)
    return Answer{.out = formats::write_shot(shot, given.layout), .note = caution};
  const std::string words = shot_in_words(shot, given.layout);
  return Answer{.out = caution.empty() ? words : words + '\n' + caution + '\n'};
}

/// Plays the shot of a trace again, and says whether it is still the shot that was recorded.
Outcome play_again(const Options& options) {
  const auto text = formats::read_file(options.replay);
  if (!text) return std::unexpected(text.error());
  const auto given = formats::read_trace(*text, options.replay);
  if (!given) return std::unexpected(given.error());
  Outcome outcome = play(options, *given, options.replay);
  if (!outcome) return outcome;

  const auto differs = formats::first_difference(*text, played(*given));
  if (!outcome->note.empty()) outcome->note += '\n';
  outcome->note +=
      differs
          ? fmt::format("Played again, it differs from the trace from event {} on.", *differs + 1)
          : "Played again, it is the shot of the trace to the last digit.";
  if (differs) outcome->exit = Exit::no;
  return outcome;
}

Outcome run(const Options& options) {
  if (!options.replay.empty()) return play_again(options);
  if (options.layout.empty() || options.strike.empty()) {
    return std::unexpected(
        formats::bad_usage("a LAYOUT and --strike, or --replay, are needed", "simulate"));
  }
  const auto given = given_shot(options);
  if (!given) return std::unexpected(given.error());
  return play(options, *given, options.layout);
}

}  // namespace

Run simulate_verb(CLI::App& app) {
  auto options = std::make_shared<Options>();
  auto* layout = app.add_option("LAYOUT", options->layout, "Layout file: where the balls lie");
  auto* strike =
      app.add_option("--strike", options->strike, "Strike file: how the cue meets the cue ball")
          ->type_name("FILE");
  auto* table =
      app.add_option("--table", options->table, "Another table for these balls: a name or a file")
          ->type_name("ID or FILE");
  app.add_option("--trace", options->trace,
                 "Write layout, strike and every event to a file that --replay plays again")
      ->type_name("FILE");
  app.add_option("--replay", options->replay, "Play the shot of such a file, and compare")
      ->type_name("FILE")
      ->excludes(layout)
      ->excludes(strike)
      ->excludes(table);
  add_common(app, options->common);
  app.footer(R"(Example:
  ahead simulate examples/evening-class.json --strike examples/stun.json
    plays that strike once, exactly as the file says and without any error of the player.

The output says what happened in order of time (s after the strike), then where each ball ended.
Places are centres, x to the right and y up the table from the bottom-left corner of the playing
area, in millimetres. With --json it is the shot as a file, with every ball's path
("ahead schema shot" explains the keys).

To look into a shot, or to hand it to somebody who can, keep it with --trace shot.json. Then
  ahead simulate --replay shot.json
plays it again and says on standard error whether it is the same to the last digit (exit status 1
when not: another version of the program, or a changed file).)");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
