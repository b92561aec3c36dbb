#include "coach/pots/pot_chance.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>

#include <gtest/gtest.h>

#include "coach/pots/prospect.h"
#include "engine/equipment/presets.h"
#include "tests/support/dice.h"

// The computed chance of a pot against the share of thousands of played tries.
namespace ahead::coach {
namespace {

using test::Dice;

struct RandomPot {
  Scene scene;
  Position position;
  Prospect prospect;
  double exact = 0;  ///< chance
};

/// A pot drawn from one number: up to five other balls anywhere, any ball and pocket that go, any
/// touch that the player reaches.
std::optional<RandomPot> random_pot(std::uint64_t seed, std::string_view player) {
  Dice dice(seed);
  Layout layout{.table = *engine::table_preset("english-7ft"), .to_play = ToPlay::red};
  const int count = dice.whole(2, 7);
  for (int i = 0; i < count; ++i) {
    const double x = dice.between(0.03, layout.table.width_m - 0.03);
    const double y = dice.between(0.03, layout.table.length_m - 0.03);
    const std::string id = i == 0 ? "cue" : i == 1 ? "red-1" : "yellow-" + std::to_string(i);
    layout.balls.push_back({.id = id, .colour = *colour_of_id(id), .at = {x, y}});
  }
  const double side = dice.whole(0, 1) == 0 ? 0.0 : dice.between(-0.36, 0.36);
  const double height = dice.between(-0.44, 0.40);
  const double speed_mps = std::exp(dice.between(std::log(0.5), std::log(3.2)));
  const int pick = dice.whole(0, 5);
  constexpr double apart_m = 0.056;
  for (std::size_t i = 0; i < layout.balls.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      if (engine::norm(layout.balls[i].at - layout.balls[k].at) < apart_m) return std::nullopt;
    }
  }
  Scene scene = scene_of(layout, ToPlay::red, *player_preset(player));
  Position position = position_of(layout);
  const auto way = way_to(scene, position, 1, pick);
  if (!way) return std::nullopt;
  auto prospect = prospect_of(scene, position, *way,
                              {.side = side, .height = height, .cue_speed_mps = speed_mps});
  if (!prospect) return std::nullopt;
  const auto aimed =
      aim_through(layout.table, position.at[0], position.at[1], way->gates, prospect->strike);
  if (!aimed) return std::nullopt;
  const double exact = pot_chance(scene, position, *way, aimed->aim, prospect->access.error_factor,
                                  ChanceCare::exact);
  // What is played is what was computed.
  prospect->strike = aimed->aim.strike;
  return RandomPot{std::move(scene), std::move(position), *std::move(prospect), exact};
}

/// How many pots: AHEAD_POTS, or few. `./dev pots` asks for 500.
constexpr int few_pots = 24;
int pots_asked_for() {
  const char* asked = std::getenv("AHEAD_POTS");
  return asked ? std::atoi(asked) : few_pots;
}

/// Share of tries, with the player's errors, through the whole engine. Independent ones: the
/// computed chance owes its evenly spread errors nothing here.
double played_out(const Scene& scene, const Position& position, const Prospect& prospect,
                  int count) {
  int potted = 0;
  for (int i = 0; i < count; ++i) {
    const Try one = try_once(scene, position, call_of(prospect), 9, static_cast<std::uint64_t>(i));
    if (one.potted) ++potted;
  }
  return static_cast<double>(potted) / count;
}

/// How far computed chances lie from played shares.
struct Agreement {
  int within_two_points = 0;
  int within_noise_of_that = 0;  ///< two sigmas of the tries more
  double squares = 0;
  double noise = 0;

  void add(double computed, double share, int tries, int of) {
    const double off = std::abs(computed - share);
    const double sigma = std::sqrt(share * (1 - share) / tries);
    within_two_points += off <= 0.02 ? 1 : 0;
    within_noise_of_that += off <= 0.02 + 2 * sigma ? 1 : 0;
    squares += off * off / of;
    noise += sigma * sigma / of;
  }
  /// Root mean square, the noise of the tries taken off.
  [[nodiscard]] double rms() const { return std::sqrt(std::max(0.0, squares - noise)); }
  void print(const char* care, int of) const {
    std::printf("%s: %d of %d within 2 points, %d with the noise of the tries; rms %.4f\n", care,
                within_two_points, of, within_noise_of_that, rms());
  }
};

// 4,000 tries give a share to 0.8 points (one sigma) at most, 20,000 to 0.35. The quick chance, by
// which strikes are ranked, knows nothing of a second kiss: docs/leaves.md says how far it lies
// off.
TEST(ThePotChance, AgreesWithPlayingOut) {
  const int asked = pots_asked_for();
  const int count = asked <= few_pots ? 4000 : 20000;
  Agreement exact;
  Agreement quick;
  std::uint64_t seed = 1;
  for (int pot = 0; pot < asked; ++pot) {
    const std::string_view player = player_preset_ids()[static_cast<std::size_t>(pot) % 4];
    auto drawn = random_pot(seed++, player);
    while (!drawn) drawn = random_pot(seed++, player);
    const double share = played_out(drawn->scene, drawn->position, drawn->prospect, count);
    exact.add(drawn->exact, share, count, asked);
    quick.add(drawn->prospect.pot, share, count, asked);
    if (std::abs(drawn->exact - share) > 0.02) {
      std::printf("pot %llu (%s): computed %.3f, played %.3f\n",
                  static_cast<unsigned long long>(seed - 1), std::string(player).c_str(),
                  drawn->exact, share);
    }
  }
  exact.print("exact", asked);
  quick.print("quick", asked);
  EXPECT_EQ(exact.within_noise_of_that, asked);
  EXPECT_LT(exact.rms(), 0.01);
  EXPECT_LT(quick.rms(), 0.03);
}

}  // namespace
}  // namespace ahead::coach
