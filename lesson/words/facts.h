#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coach/plan/plan.h"
#include "lesson/words/access_words.h"
#include "lesson/words/strike_words.h"

/// What is true of a planned shot, before anyone makes a sentence of it. Every fact is read off the
/// plan; the sentences in shot_words.h say nothing else.
namespace ahead::lesson {

/// A way to play: ball, pocket, strike and what comes of it.
struct OptionFacts {
  std::string ball;       ///< "red 3"
  std::string pocket;     ///< "the middle-left"
  std::string by;         ///< "by a plant from red 2"; empty for a direct pot
  std::string hit_first;  ///< "red 2" when it is not the ball to pot, else empty
  std::string thickness;  ///< at the ball that is hit first
  bool straight = false;
  bool cut_to_left = false;
  double to_ball_m = 0;
  double to_pocket_m = 0;
  StrikeFacts strike;
  coach::Chance pot;
  coach::Chance clear;
  double next_pot = 0;
  double fouls = 0;  ///< in-off, wrong ball first, black too early
};

/// What can go wrong, as it is said, with its chance.
struct Risk {
  std::string_view words;
  double chance = 0;
};

/// Where the cue ball stops, in places that a player can point at.
struct StopFacts {
  std::string_view cushion;  ///< the nearest
  double gap_m = 0;          ///< between ball and that cushion
  std::string_view area;     ///< "level with the middle pockets"
  std::string next_ball;     ///< empty after the last shot
  double to_next_m = 0;      ///< between the two balls' surfaces
};

/// Of a cue ball that stops at `rest`; the next ball is left out.
[[nodiscard]] StopFacts stop_facts(const engine::Table& table, engine::Vec2 rest);

struct NextFacts {
  std::string ball;
  std::string pocket;
  std::string thickness;
};

/// What the shot means for the whole clearance.
struct MomentFacts {
  bool key_ball = false;
  bool problem = false;  ///< the ball goes from few places
  double goes_from = 1;
  std::string cover;               ///< the ball that stays as insurance, if one does
  std::vector<std::string> frees;  ///< balls that went nowhere before it
};

struct ShotFacts {
  std::size_t order = 0;  ///< 1 for the first shot
  OptionFacts best;
  AccessFacts access;  ///< of the best
  double roll_at_contact = 0;
  double speed_at_contact_mps = 0;
  std::vector<std::string> cushions;  ///< after the contact, in order: "left", "top"
  bool running_side = false;
  bool check_side = false;
  double travel_after_m = 0;
  double table_length_m = 0;
  bool ends_clearance = true;      ///< of the plan: its last shot takes the last ball
  std::vector<std::string> meets;  ///< other balls that the cue ball touches
  StopFacts stop;
  std::optional<NextFacts> next;  ///< nothing after the last shot
  std::vector<Risk> risks;        ///< largest first, those under 1 in 200 left out
  double missed_thick = 0;
  double missed_thin = 0;
  std::optional<OptionFacts> runner_up;
  bool runner_up_same_pot = false;
  bool runner_up_is_better = false;  ///< clearly, by the tries: the choice was somebody's own
  coach::WhyLost why_lost{};
  MomentFacts moment;
};

/// `intended` is the strike played without error: the cue ball's speed off the tip is read off it.
[[nodiscard]] StrikeFacts strike_facts(const engine::Strike& strike, const engine::Shot& intended,
                                       const engine::Table& table);

/// Requires shot < plan.shots.size().
[[nodiscard]] ShotFacts shot_facts(const coach::Plan& plan, std::size_t shot);

}  // namespace ahead::lesson
