#include "engine/simulate/simulate.h"

#include <memory>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

#include "cli/given.h"
#include "cli/raised_cue.h"
#include "cli/shot_in_words.h"
#include "cli/verbs.h"
#include "formats/shot.h"

namespace ahead::cli {
namespace {

struct Options {
  Common common;
  std::string layout;
  std::string strike;
  std::optional<std::string> table;
};

Outcome run(const Options& options) {
  const auto layout = given_layout(options.layout, options.table);
  if (!layout) return std::unexpected(layout.error());
  const auto strike = given_strike(options.strike, layout->table.cue);
  if (!strike) return std::unexpected(strike.error());

  std::vector<engine::Vec2> centres;
  for (const coach::LayoutBall& ball : layout->balls) centres.push_back(ball.at);
  const engine::Shot shot = engine::simulate(engine::Playfield(layout->table), centres, *strike);

  const std::string caution = raised_cue_caution(strike->elevation_rad);
  if (options.common.json)
    return Answer{.out = formats::write_shot(shot, *layout), .note = caution};
  const std::string words = shot_in_words(shot, *layout);
  return Answer{.out = caution.empty() ? words : words + '\n' + caution + '\n'};
}

}  // namespace

Run simulate_verb(CLI::App& app) {
  auto options = std::make_shared<Options>();
  app.add_option("LAYOUT", options->layout, "Layout file: where the balls lie")->required();
  app.add_option("--strike", options->strike, "Strike file: how the cue meets the cue ball")
      ->required()
      ->type_name("FILE");
  app.add_option("--table", options->table, "Another table for these balls: a name or a file")
      ->type_name("ID or FILE");
  add_common(app, options->common);
  app.footer(R"(Example:
  ahead simulate examples/evening-class.json --strike examples/stun.json
    plays that strike once, exactly as the file says and without any error of the player.

The output says what happened in order of time (s after the strike), then where each ball ended.
Places are centres, x to the right and y up the table from the bottom-left corner of the playing
area, in millimetres. With --json it is the shot as a file, with every ball's path
("ahead schema shot" explains the keys).)");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
