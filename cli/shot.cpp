#include <algorithm>
#include <charconv>
#include <cmath>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <vector>

#include <fmt/format.h>

#include "cli/given.h"
#include "cli/verbs.h"
#include "coach/leaves/pot_analysis.h"
#include "coach/threads.h"
#include "formats/pot_analysis.h"
#include "formats/text_file.h"
#include "lesson/house_look.h"
#include "lesson/pot_figure.h"
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
  std::string leave;
  std::optional<std::string> out;
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

formats::InputError bad_leave() {
  return formats::bad_usage(
      "--leave wants X,Y,RADIUS in mm (a radius above 0), three or more corners X,Y:X,Y:X,Y, or "
      "the "
      "next pot as BALL:POCKET",
      "shot");
}

/// The numbers of a list such as "300,900,150"; nothing when one is none.
std::optional<std::vector<double>> numbers_in(std::string_view text) {
  std::vector<double> numbers;
  while (true) {
    const std::size_t comma = std::min(text.find(','), text.size());
    double number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + comma, number);
    if (error != std::errc() || end != text.data() + comma || !std::isfinite(number)) {
      return std::nullopt;
    }
    numbers.push_back(number);
    if (comma == text.size()) return numbers;
    text.remove_prefix(comma + 1);
  }
}

std::vector<std::string_view> parts_of(std::string_view text) {
  std::vector<std::string_view> parts;
  while (true) {
    const std::size_t colon = std::min(text.find(':'), text.size());
    parts.push_back(text.substr(0, colon));
    if (colon == text.size()) return parts;
    text.remove_prefix(colon + 1);
  }
}

engine::Vec2 metres(double x_mm, double y_mm) { return {x_mm / 1000, y_mm / 1000}; }

Given<std::optional<coach::Wanted>> wanted_in(const std::string& text, const coach::Layout& layout,
                                              int ball) {
  if (text.empty()) return std::optional<coach::Wanted>{};
  const std::vector<std::string_view> parts = parts_of(text);
  if (parts.size() == 1) {
    const auto numbers = numbers_in(parts[0]);
    if (!numbers || numbers->size() != 3 || (*numbers)[2] <= 0) return std::unexpected(bad_leave());
    return coach::Leave{.at = metres((*numbers)[0], (*numbers)[1]),
                        .radius_m = (*numbers)[2] / 1000};
  }
  if (parts.size() == 2) {
    const auto next = index_of_ball(layout, std::string(parts[0]));
    if (!next) return std::unexpected(next.error());
    const auto pocket = index_of_pocket(layout.table, std::string(parts[1]));
    if (!pocket) return std::unexpected(pocket.error());
    if (*next == ball) return std::unexpected(bad_leave());
    return coach::NextPot{.ball = *next, .pocket = *pocket};
  }
  coach::Region region;
  for (const std::string_view part : parts) {
    const auto corner = numbers_in(part);
    if (!corner || corner->size() != 2) return std::unexpected(bad_leave());
    region.outline.push_back(metres((*corner)[0], (*corner)[1]));
  }
  return region;
}

/// pot.json, and when the ball goes the shot and the map of leaves.
std::optional<formats::InputError> write_pack(const coach::PotAnalysis& analysis,
                                              const coach::Layout& layout,
                                              const coach::Player& player,
                                              const std::filesystem::path& folder) {
  const formats::Look look = lesson::house_look();
  if (auto error =
          formats::write_file(folder / "pot.json", formats::write_pot_analysis(analysis, layout))) {
    return error;
  }
  if (analysis.no_pot) return std::nullopt;
  if (auto error = formats::write_file(folder / "shot.svg",
                                       lesson::pot_figure(analysis, layout, player, look))) {
    return error;
  }
  return formats::write_file(folder / "leaves.svg", lesson::leaves_figure(analysis, layout, look));
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
  const auto leave = wanted_in(options.leave, *layout, *ball);
  if (!leave) return std::unexpected(leave.error());

  // Ask for the folder before the work, not after it.
  if (options.out) {
    if (auto error = formats::make_folder(*options.out)) return std::unexpected(*error);
  }
  const coach::ThreadLimit limit(options.common.threads);
  const coach::Scene scene =
      coach::scene_of(*layout, coach::colour_played(*layout, *ball), *player);
  const coach::Position position = coach::position_of(*layout);
  if (!coach::has(coach::balls_on(scene.task, position.present), *ball)) {
    return Answer{.out = options.common.json ? "null\n" : "",
                  .note = fmt::format("{} is not on", lesson::ball_name(options.ball)),
                  .exit = Exit::no};
  }
  const coach::PotAnalysis analysis =
      coach::analyse_pot(scene, position, *ball, *pocket, *leave, options.common.seed);
  if (options.out) {
    if (auto error = write_pack(analysis, *layout, *player, *options.out)) {
      return std::unexpected(*error);
    }
  }
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
                 "Where the cue ball should stop: a circle X,Y,RADIUS or the corners of a region "
                 "X,Y:X,Y:X,Y, mm; or for which next pot, BALL:POCKET")
      ->type_name("PLACE");
  app.add_option("--player", options->player,
                 "Who plays: novice, club, county, professional, or a player file")
      ->capture_default_str()
      ->type_name("ID or FILE");
  app.add_option("--table", options->table, "Another table for these balls: a name or a file")
      ->type_name("ID or FILE");
  app.add_option("--out", options->out, "Folder for pot.json, shot.svg and leaves.svg")
      ->type_name("DIR");
  add_common(app, options->common);
  app.footer(R"(Example:
  ahead shot examples/evening-class.json --ball red-6 --pocket bottom-left --leave 300,900,150
    looks at one pot and ranks the strikes that leave the cue ball within 150 mm of 300, 900.
  ahead shot examples/evening-class.json --ball red-6 --pocket bottom-left --leave red-2:bottom-right
    ranks them by the chance that this pot and the next one both succeed.

The gate is the span of object-ball directions that drop, from rolling the ball at the true jaws.
Each strike was tried with the player's errors: "pot" is the share of tries that potted the ball,
"leave" the share that also stopped in the circle. "arrives" is the cue ball's roll at contact;
"stops at" is where it rests when the shot goes as meant, x right and y up the table in mm.
"butt" is the least elevation that clears cushions and balls, "cue carried by" the bridge, rest or
hand that this player then needs; what it costs in accuracy is in the tries.
"--out" draws the shot with its lines, contours and strike figure, and the map of the places at
which the cue ball can be left.
Exit status 1 when the ball does not go, with the reason.)");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
