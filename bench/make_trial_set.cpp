#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "bench/english.h"
#include "bench/number.h"
#include "coach/layout.h"
#include "coach/pots/way.h"
#include "coach/random.h"
#include "coach/scene.h"
#include "formats/layout.h"
#include "formats/text_file.h"

// Makes the layouts of examples/trial: where the balls lie after simulated breaks.
//
// Break N is drawn from seed N. Breaks are taken in order, from 1 or FIRST_SEED on, until both
// kinds are full; nothing else chooses among them. A break counts when it is legal by the
// international rules (a ball potted, or two wholly past the middle pockets' line), the cue ball
// and the black are on the table, and six or more of the colour to play are left.
namespace ahead::bench {
namespace {

using coach::Colour;
using engine::Vec2;

constexpr int open_layouts = 40;
constexpr int problem_layouts = 20;
constexpr int least_own_balls = 6;
constexpr std::uint64_t most_breaks = 10'000;

/// Apex first, black in the middle of the third row (common practice, no source).
constexpr std::string_view rack = "RYRRBYYRYRRYYRY";

struct Break {
  std::vector<coach::LayoutBall> balls;
  engine::Strike strike;
};

/// Balls of a rack stand a tenth of a millimetre apart, give or take a third of that; the cue ball
/// lies in the middle of baulk, give or take; the cue is aimed at the apex ball within 3 mm.
Break break_of(std::uint64_t seed) {
  const engine::Table& table = english().table();
  coach::Random random(seed, 0);
  const auto within = [&random](double most) { return most * (2 * random.uniform() - 1); };
  Break made;
  const double cue_x = table.width_m / 2 + within(0.25);
  const double cue_y = table.markings.baulk_line_m - 0.05 + within(0.04);
  made.balls.push_back({.id = "cue", .colour = Colour::cue, .at = {cue_x, cue_y}});
  const double apart_m = 2 * table.object_ball.radius_m + 1e-4;
  int reds = 0;
  int yellows = 0;
  std::size_t next = 0;
  for (int row = 0; row < 5; ++row) {
    for (int i = 0; i <= row; ++i) {
      constexpr double half_root_three = 0.8660254037844386;
      const double x = table.width_m / 2 + apart_m * (i - 0.5 * row) + within(3e-5);
      const double y = table.markings.spot.y + apart_m * (row - 2) * half_root_three + within(3e-5);
      const char letter = rack[next++];
      const std::string id = letter == 'B'   ? "black"
                             : letter == 'R' ? fmt::format("red-{}", ++reds)
                                             : fmt::format("yellow-{}", ++yellows);
      made.balls.push_back({.id = id, .colour = *coach::colour_of_id(id), .at = {x, y}});
    }
  }
  const double aim_rad =
      engine::angle_rad(made.balls[1].at + Vec2{within(0.003), 0.0} - made.balls[0].at);
  const double speed_mps = 6.5 + within(1.0);
  made.strike = {.aim_rad = aim_rad, .cue_speed_mps = speed_mps};
  return made;
}

struct AfterBreak {
  std::vector<coach::LayoutBall> balls;
  double speed_mps = 0;
};

/// Nothing when the break does not count.
std::optional<AfterBreak> after_break(std::uint64_t seed) {
  const Break made = break_of(seed);
  std::vector<Vec2> centres;
  for (const coach::LayoutBall& ball : made.balls) centres.push_back(ball.at);
  const engine::Shot shot = engine::simulate(english(), centres, made.strike);
  const engine::Table& table = english().table();
  AfterBreak after{.speed_mps = made.strike.cue_speed_mps};
  int potted = 0;
  int past_the_middle = 0;
  for (std::size_t i = 0; i < made.balls.size(); ++i) {
    const engine::Ending& ending = shot.endings[i];
    const Colour colour = made.balls[i].colour;
    if (ending.off_table) return std::nullopt;
    if (!ending.on_table()) {
      if (colour == Colour::cue || colour == Colour::black) return std::nullopt;
      ++potted;
      continue;
    }
    after.balls.push_back(made.balls[i]);
    after.balls.back().at = engine::plan(ending.position);
    const double top_y = ending.position.y + table.object_ball.radius_m;
    if (i > 0 && top_y < table.length_m / 2) ++past_the_middle;
  }
  if (potted == 0 && past_the_middle < 2) return std::nullopt;
  return after;
}

/// Balls to clear that no pocket is open to as the balls stand, or that lie within 3 mm of a
/// cushion.
std::vector<std::string> problem_balls(const coach::Layout& layout) {
  const auto scene = coach::scene_of(layout, layout.to_play, *coach::player_preset("county"));
  const coach::Position position = coach::position_of(layout);
  const engine::Table& table = layout.table;
  std::vector<std::string> ids;
  for (int ball = 1; ball < static_cast<int>(layout.balls.size()); ++ball) {
    if (!coach::has(scene.task.own | scene.task.black, ball)) continue;
    const auto ways = coach::ways_of(scene, position, ball);
    const bool open = std::ranges::any_of(ways, [](auto& way) { return way.blockers == 0; });
    const Vec2 at = position.at[static_cast<std::size_t>(ball)];
    const double to_cushion_m =
        std::min({at.x, table.width_m - at.x, at.y, table.length_m - at.y}) -
        table.object_ball.radius_m;
    if (!open || to_cushion_m < 0.003)
      ids.push_back(layout.balls[static_cast<std::size_t>(ball)].id);
  }
  return ids;
}

struct Made {
  coach::Layout layout;
  bool problem = false;
};

/// The colour with more balls potted is played, reds when equal. A layout has problem balls when
/// two or more of the balls to clear are such, or the black is.
std::optional<Made> made_from(std::uint64_t seed) {
  auto after = after_break(seed);
  if (!after) return std::nullopt;
  const auto count = [&](Colour colour) {
    return std::ranges::count(after->balls, colour, &coach::LayoutBall::colour);
  };
  const bool reds = count(Colour::red) <= count(Colour::yellow);
  if (std::min(count(Colour::red), count(Colour::yellow)) < least_own_balls) return std::nullopt;
  Made made;
  made.layout = {.table = english().table(),
                 .to_play = reds ? coach::ToPlay::red : coach::ToPlay::yellow,
                 .balls = std::move(after->balls)};
  const auto problems = problem_balls(made.layout);
  made.problem = problems.size() >= 2 || std::ranges::find(problems, "black") != problems.end();
  std::string named;
  for (const std::string& id : problems) named += (named.empty() ? "" : ", ") + id;
  made.layout.note = fmt::format(
      "After the simulated break of seed {}, cue speed {:.2f} m/s. Balls to clear with no open "
      "pocket "
      "or within 3 mm of a cushion: {}.",
      seed, after->speed_mps, named.empty() ? "none" : named);
  return made;
}

int run(const std::filesystem::path& folder, std::uint64_t first_seed) {
  int open = 0;
  int problem = 0;
  for (std::uint64_t seed = first_seed; seed < first_seed + most_breaks; ++seed) {
    if (open == open_layouts && problem == problem_layouts) return 0;
    const auto made = made_from(seed);
    if (!made) continue;
    int& count = made->problem ? problem : open;
    if (count == (made->problem ? problem_layouts : open_layouts)) continue;
    const std::string text = formats::write_layout(made->layout);
    // A ball may come to rest where a file may not put one: in the jaws, over the edge.
    if (!formats::read_layout(text, "")) continue;
    ++count;
    const auto name = fmt::format("{}-{:02}.json", made->problem ? "problem" : "open", count);
    if (const auto error = formats::write_file(folder / name, text)) {
      std::fprintf(stderr, "%s\n", formats::one_line(*error).c_str());
      return 2;
    }
  }
  std::fprintf(stderr, "too few of %d breaks count\n", static_cast<int>(most_breaks));
  return 1;
}

}  // namespace
}  // namespace ahead::bench

int main(int argc, char** argv) {
  using ahead::bench::number;
  const auto first_seed = argc == 3 ? number<std::uint64_t>(argv[2]) : std::uint64_t{1};
  if (argc < 2 || argc > 3 || !first_seed) {
    std::fprintf(stderr, "usage: ahead_make_trial_set FOLDER [FIRST_SEED]\n");
    return 2;
  }
  return ahead::bench::run(argv[1], *first_seed);
}
