#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "cli/given.h"
#include "cli/verbs.h"
#include "coach/pots/pot_analysis.h"
#include "coach/threads.h"
#include "formats/pot_analysis.h"
#include "lesson/words/names.h"
#include "lesson/words/pot_words.h"

namespace ahead::cli {
namespace {

struct Options {
  Common common;
  std::string layout;
  std::string player = "club";
  std::optional<std::string> table;
  std::string ball;
  std::string pocket;
  std::vector<double> leave;
};

Given<int> index_of_ball(const coach::Layout& layout, const std::string& id) {
  std::vector<std::string_view> ids;
  for (std::size_t i = 1; i < layout.balls.size(); ++i) {
    if (layout.balls[i].id == id) return static_cast<int>(i);
    ids.push_back(layout.balls[i].id);
  }
  return std::unexpected(formats::unknown_choice({.file = "ahead", .place = "--ball"}, id, ids));
}

Given<int> index_of_pocket(const engine::Table& table, const std::string& name) {
  for (std::size_t i = 0; i < table.pockets.size(); ++i) {
    if (engine::pocket_names[static_cast<std::size_t>(table.pockets[i].name)] == name) {
      return static_cast<int>(i);
    }
  }
  return std::unexpected(
      formats::unknown_choice({.file = "ahead", .place = "--pocket"}, name, engine::pocket_names));
}

Given<std::optional<coach::Leave>> leave_of(const std::vector<double>& numbers) {
  if (numbers.empty()) return std::optional<coach::Leave>{};
  const bool finite = std::ranges::all_of(numbers, [](double n) { return std::isfinite(n); });
  if (!finite || numbers[2] <= 0) {
    return std::unexpected(formats::bad_usage(
        "--leave wants three finite numbers, X,Y,RADIUS in mm, with a radius above 0", "shot"));
  }
  return coach::Leave{.at = {numbers[0] / 1000, numbers[1] / 1000}, .radius_m = numbers[2] / 1000};
}

/// The colour that is played: the layout's or, on an open table, that of the ball.
coach::ToPlay colour_played(const coach::Layout& layout, int ball) {
  if (layout.to_play != coach::ToPlay::open) return layout.to_play;
  switch (layout.balls[static_cast<std::size_t>(ball)].colour) {
    case coach::Colour::yellow:
      return coach::ToPlay::yellow;
    case coach::Colour::solid:
      return coach::ToPlay::solid;
    case coach::Colour::stripe:
      return coach::ToPlay::stripe;
    case coach::Colour::black:
      return coach::ToPlay::black;
    default:
      return coach::ToPlay::red;
  }
}

Outcome run(const Options& options) {
  auto layout = given_layout(options.layout, options.table);
  if (!layout) return std::unexpected(layout.error());
  const auto player = given_player(options.player);
  if (!player) return std::unexpected(player.error());
  layout->table.cue = coach::cue_of(*player, layout->table.cue);
  const auto ball = index_of_ball(*layout, options.ball);
  if (!ball) return std::unexpected(ball.error());
  const auto pocket = index_of_pocket(layout->table, options.pocket);
  if (!pocket) return std::unexpected(pocket.error());
  const auto leave = leave_of(options.leave);
  if (!leave) return std::unexpected(leave.error());

  const coach::ThreadLimit limit(options.common.threads);
  const coach::Scene scene = coach::scene_of(*layout, colour_played(*layout, *ball), *player);
  const coach::Position position = coach::position_of(*layout);
  if (!coach::has(coach::balls_on(scene.task, position.present), *ball)) {
    return Answer{.out = options.common.json ? "null\n" : "",
                  .note = fmt::format("{} is not on", lesson::ball_name(options.ball)),
                  .exit = Exit::no};
  }
  const coach::PotAnalysis analysis =
      coach::analyse_pot(scene, position, *ball, *pocket, *leave, options.common.seed);
  return Answer{.out = options.common.json ? formats::write_pot_analysis(analysis, *layout)
                                           : lesson::pot_words(analysis, *layout, *player),
                .exit = analysis.no_pot ? Exit::no : Exit::done};
}

}  // namespace

Run shot_verb(CLI::App& app) {
  auto options = std::make_shared<Options>();
  app.add_option("LAYOUT", options->layout, "Layout file: where the balls lie")->required();
  app.add_option("--ball", options->ball, "The ball to pot")->required()->type_name("ID");
  app.add_option("--pocket", options->pocket, "The pocket, such as middle-left")
      ->required()
      ->type_name("NAME");
  app.add_option("--leave", options->leave,
                 "Where the cue ball should stop: centre and radius of a circle, mm")
      ->delimiter(',')
      ->expected(3)
      ->type_name("X,Y,RADIUS");
  app.add_option("--player", options->player,
                 "Who plays: novice, club, county, professional, or a player file")
      ->capture_default_str()
      ->type_name("ID or FILE");
  app.add_option("--table", options->table, "Another table for these balls: a name or a file")
      ->type_name("ID or FILE");
  add_common(app, options->common);
  app.footer(R"(Example:
  ahead shot examples/evening-class.json --ball red-6 --pocket bottom-left --leave 300,900,150
    looks at one pot and ranks the strikes that leave the cue ball within 150 mm of 300, 900.

The gate is the span of object-ball directions that drop, from rolling the ball at the true jaws.
Each strike was tried with the player's errors: "pot" is the share of tries that potted the ball,
"leave" the share that also stopped in the circle. "arrives" is the cue ball's roll at contact;
"stops at" is where it rests when the shot goes as meant, x right and y up the table in mm.
"butt" is the least elevation that clears cushions and balls, "cue carried by" the bridge, rest or
hand that this player then needs; what it costs in accuracy is in the tries.
Exit status 1 when the ball does not go, with the reason.)");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
