#include "coach/plan/safe_play.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <utility>
#include <vector>

#include <tbb/parallel_for.h>

#include "coach/aim/contact.h"
#include "coach/pots/cut.h"
#include "coach/pots/prospect.h"
#include "coach/pots/sight.h"
#include "coach/risk/tries.h"

namespace ahead::coach {
namespace {

using engine::EventKind;
using engine::Vec2;

constexpr int directions = 31;
constexpr std::array heights{-0.30, 0.0, 0.25};
constexpr std::array speeds_mps{0.35, 0.5, 0.7, 1.0, 1.4, 2.0};

/// Rivals of one ball that are played out at first, and the two rounds.
constexpr std::size_t rivals_a_ball = 8;
constexpr std::size_t first_rivals = 24;
constexpr std::size_t last_rivals = 5;
/// The chance of a shot to nothing: less is no attempt, more is a pot. It may leave so much more.
constexpr double least_pot = 0.1;
constexpr double most_pot = 0.9;
constexpr double as_little = 0.01;
constexpr int first_tries = 40;
constexpr int last_tries = 200;
constexpr std::uint64_t shown_salt = 0x5afe;  // what is shown comes from draws that chose nothing

/// A ball within this of a cushion lies against it; one that has moved less has not come off it, m.
constexpr double against_m = 0.001;
constexpr double came_off_m = 0.005;

/// Next to a clearance, a ball that the opponent can pot counts so much (an assumption): it tells
/// safe plays apart for players who seldom clear.
constexpr double pot_weight = 0.1;

struct Rival {
  Call call;
  double cost = 0;  ///< to the player, where the visit ends
  double pots = 0;  ///< share after which it goes on
};

/// What one shot leaves the opponent.
struct Left {
  bool plays_on = false;
  bool foul = false;
  double clears = 0;
  double best_pot = 0;

  /// After a foul there are two visits to pot something.
  [[nodiscard]] double cost() const { return clears + pot_weight * (foul ? 1 : best_pot); }
};

Left left_by(const Scene& scene, const Position& before, const Played& played, const Position& left,
             const Opponent& opponent) {
  const Verdict verdict = judge(scene.task, played.shot, played.indices, before.present, 0, 0);
  // Played on: the opponent has nothing yet.
  if (verdict == Verdict::goes_on || verdict == Verdict::cleared) return {.plays_on = true};
  if (lawful(scene, before, played)) {
    return {.clears = opponent.clears(left), .best_pot = opponent.best_pot(left)};
  }
  // The black early loses the frame.
  if (verdict == Verdict::wrong_potted) return {.foul = true, .clears = 1};
  return {.foul = true, .clears = opponent.clears_after_foul(left, verdict == Verdict::in_off)};
}

Left tried(const Scene& scene, const Position& position, const Call& call, const Opponent& opponent,
           std::uint64_t seed, std::uint64_t index) {
  const auto [from, strike] = spread_attempt(scene, position, call, seed, index);
  if (engine::miscues(strike, scene.field.table().cue)) {
    return {.foul = true, .clears = opponent.clears_after_foul(position, false)};
  }
  const Played played = play(scene.field, from, strike);
  return left_by(scene, position, played, after(from, played), opponent);
}

std::vector<Left> all_tried(const Scene& scene, const Position& position, const Call& call,
                            const Opponent& opponent, int tries, std::uint64_t seed) {
  std::vector<Left> all(static_cast<std::size_t>(tries));
  tbb::parallel_for(std::size_t{0}, all.size(), [&](std::size_t i) {
    all[i] = tried(scene, position, call, opponent, seed, i);
  });
  return all;
}

/// The mean over those that satisfy, or nothing.
template <typename Test, typename Part>
std::optional<double> mean_of(const std::vector<Left>& all, const Test& test, const Part& part) {
  double sum = 0;
  int count = 0;
  for (const Left& one : all) {
    if (!test(one)) continue;
    sum += part(one);
    ++count;
  }
  if (count == 0) return std::nullopt;
  return sum / count;
}

double share_of(const std::vector<Left>& all, bool Left::* what) {
  return static_cast<double>(std::ranges::count(all, true, what)) / static_cast<double>(all.size());
}

bool ends_visit(const Left& one) { return !one.plays_on; }

/// Every lawful strike of the set at one ball, the best few.
std::vector<Rival> strikes_at(const Scene& scene, const Position& position, int ball,
                              const Opponent& opponent) {
  const engine::Table& table = scene.field.table();
  const Vec2 offset = position.at[static_cast<std::size_t>(ball)] - position.at[0];
  const double touching_m = 2 * std::sqrt(table.cue_ball.radius_m * table.object_ball.radius_m);
  const double half_rad = std::asin(std::min(1.0, touching_m / engine::norm(offset)));
  const double centre_rad = engine::angle_rad(offset);
  Approach approach(scene, position, centre_rad);
  std::vector<Rival> rivals;
  for (const double height : heights) {
    // Over the width of one ball the way in which the strike is reached hardly changes.
    const Access access = approach.at(0, height);
    if (!recommended(access)) continue;
    for (const double speed_mps : speeds_mps) {
      for (int i = 1; i < directions; ++i) {
        const double across = 2.0 * i / directions - 1;
        const engine::Strike strike{.aim_rad = centre_rad + half_rad * across,
                                    .elevation_rad = access.elevation_rad,
                                    .height = height,
                                    .cue_speed_mps = speed_mps};
        const Played played = play(scene.field, position, strike);
        if (!lawful(scene, position, played)) continue;
        const Left left = left_by(scene, position, played, after(position, played), opponent);
        // What pots as meant is weighed among the pots.
        if (left.plays_on) continue;
        rivals.push_back(
            {.call = {.ball = ball, .strike = strike, .access = access}, .cost = left.cost()});
      }
    }
  }
  std::ranges::stable_sort(rivals, {}, &Rival::cost);
  rivals.resize(std::min(rivals.size(), rivals_a_ball));
  return rivals;
}

/// Direct pots without side that may well miss.
std::vector<Rival> uncertain_pots(const Scene& scene, const Position& position,
                                  std::span<const Way> ways) {
  const BallSet on = balls_on(scene.task, position.present);
  std::vector<Rival> rivals;
  for (const Way& way : ways) {
    if (!has(on, way.ball) || (way.blockers & position.present) != 0) continue;
    for (const double height : heights) {
      for (const double speed_mps : speeds_mps) {
        const auto pot =
            prospect_of(scene, position, way, {.height = height, .cue_speed_mps = speed_mps});
        if (pot && pot->pot >= least_pot && pot->pot <= most_pot) {
          rivals.push_back({.call = call_of(*pot)});
        }
      }
    }
  }
  return rivals;
}

/// Tries all, and keeps those that cost least.
void play_out(std::vector<Rival>& rivals, std::size_t most, const Scene& scene,
              const Position& position, const Opponent& opponent, int tries, std::uint64_t seed) {
  for (Rival& one : rivals) {
    const auto all = all_tried(scene, position, one.call, opponent, tries, seed);
    one.cost = mean_of(all, ends_visit, [](const Left& left) { return left.cost(); }).value_or(1);
    one.pots = share_of(all, &Left::plays_on);
  }
  std::ranges::stable_sort(rivals, {}, &Rival::cost);
  rivals.resize(std::min(rivals.size(), most));
}

SafePlay shown(const Scene& scene, const Position& position, const Call& call,
               const Opponent& opponent, std::uint64_t seed) {
  const engine::Table& table = scene.field.table();
  SafePlay play{.ball = call.ball, .strike = call.strike, .access = call.access};
  const Played as_meant = coach::play(scene.field, position, call.strike);
  play.intended = as_meant.shot;
  const auto hit = std::ranges::find(as_meant.indices, call.ball) - as_meant.indices.begin();
  const engine::Ending& ending = as_meant.shot.endings[static_cast<std::size_t>(hit)];
  if (ending.pocket >= 0) play.pocket = ending.pocket;
  const Vec2 object = position.at[static_cast<std::size_t>(call.ball)];
  if (const auto contact = first_contact(table, position.at[0], object, call.strike)) {
    const Cut cut = cut_of(table, *contact, object);
    play.cut_rad = cut.rad;
    play.cut_to_left = cut.to_left;
    play.thickness = cut.thickness;
  }
  const auto all = all_tried(scene, position, call, opponent, last_tries, seed ^ shown_salt);
  play.tries = last_tries;
  play.pots = share_of(all, &Left::plays_on);
  play.foul = share_of(all, &Left::foul);
  play.clears = mean_of(all, ends_visit, [](const Left& one) { return one.clears; }).value_or(0);
  const auto was_lawful = [](const Left& one) { return ends_visit(one) && !one.foul; };
  play.best_pot =
      mean_of(all, was_lawful, [](const Left& one) { return one.best_pot; }).value_or(0);
  return play;
}

}  // namespace

bool lawful(const Scene& scene, const Position& position, const Played& played) {
  const Verdict verdict = judge(scene.task, played.shot, played.indices, position.present, 0, 0);
  if (verdict != Verdict::missed) {
    return verdict == Verdict::goes_on || verdict == Verdict::cleared;
  }
  if (scene.task.rules == Rules::snooker) return true;
  bool met = false;
  for (const engine::Event& event : played.shot.events) {
    if (event.kind == EventKind::ball_ball || event.kind == EventKind::group) met = true;
    if (!met) continue;
    if (event.kind == EventKind::pot) return true;
    if (event.kind != EventKind::cushion) continue;
    const auto ball =
        static_cast<std::size_t>(played.indices[static_cast<std::size_t>(event.ball)]);
    const Vec2 from = position.at[ball];
    const double reach_m =
        ball == 0 ? scene.field.cue_ball().reach_m : scene.field.object_ball().reach_m;
    const bool lay_against =
        engine::norm(engine::nearest_on(scene.field.nose(), from) - from) - reach_m < against_m;
    if (!lay_against || engine::norm(engine::plan(event.at) - from) > came_off_m) return true;
  }
  return false;
}

std::optional<SafePlay> safest_play(const Scene& scene, const Position& position,
                                    const Opponent& opponent, std::span<const Way> ways,
                                    std::uint64_t seed) {
  const BallSet on = balls_on(scene.task, position.present);
  std::vector<int> targets;
  for (const Sight& sight : sights_of(scene.field, position)) {
    if (has(on, sight.ball) && !sight.hidden()) targets.push_back(sight.ball);
  }
  std::vector<std::vector<Rival>> found(targets.size());
  tbb::parallel_for(std::size_t{0}, targets.size(), [&](std::size_t i) {
    found[i] = strikes_at(scene, position, targets[i], opponent);
  });
  std::vector<Rival> rivals;
  for (const auto& one : found) rivals.insert(rivals.end(), one.begin(), one.end());
  if (rivals.empty()) return std::nullopt;
  std::ranges::stable_sort(rivals, {}, &Rival::cost);
  rivals.resize(std::min(rivals.size(), first_rivals));
  play_out(rivals, last_rivals, scene, position, opponent, first_tries, seed);
  play_out(rivals, 1, scene, position, opponent, last_tries, seed);
  const Rival& safest = rivals.front();

  std::vector<Rival> pots = uncertain_pots(scene, position, ways);
  play_out(pots, last_rivals, scene, position, opponent, first_tries, seed);
  play_out(pots, last_rivals, scene, position, opponent, last_tries, seed);
  std::erase_if(pots, [&](const Rival& pot) {
    return pot.cost > safest.cost + as_little || pot.pots < least_pot || pot.pots > most_pot;
  });
  const auto to_nothing = std::ranges::max_element(pots, {}, &Rival::pots);
  return shown(scene, position, (to_nothing == pots.end() ? safest : *to_nothing).call, opponent,
               seed);
}

}  // namespace ahead::coach
