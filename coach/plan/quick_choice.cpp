#include "coach/plan/quick_choice.h"

#include <algorithm>
#include <array>

#include "coach/plan/choose.h"
#include "coach/plan/race.h"

namespace ahead::coach {
namespace {

/// Touches tried where the field has no hints: on balls that have moved, or that it saw blocked.
constexpr std::array<Touch, 5> plain_touches{{{.height = -0.30, .cue_speed_mps = 1.0},
                                              {.height = -0.10, .cue_speed_mps = 0.9},
                                              {.height = -0.10, .cue_speed_mps = 1.5},
                                              {.height = 0.20, .cue_speed_mps = 0.7},
                                              {.height = 0.20, .cue_speed_mps = 1.3}}};
/// Rivals that stay, and tries of each by its end.
struct Heat {
  std::size_t rivals;
  std::uint64_t tries;
};
/// Hints that are aimed, and the best of them that are varied. Twice as many of each clear no more.
constexpr std::size_t most_hints = 16;
constexpr std::size_t varied = 2;
/// A short race: six with eight tries each, then the best three of them with sixteen.
constexpr std::array<Heat, 2> heats{{{.rivals = 6, .tries = 8}, {.rivals = 3, .tries = 16}}};

struct Rival {
  const Way* way = nullptr;
  Touch touch;
  Call call;
  double worth = 0;
  std::uint64_t tries = 0;  ///< behind the worth; none: at a glance
};

class Choice {
 public:
  Choice(const Scene& scene, const ValueField& field, const Position& position)
      : scene_(scene), field_(field), position_(position) {
    best_.fill(-1);  // less than any worth: those that are worth nothing stay, while they are few
  }

  /// What the leave is worth is found first: where even a certain pot would not be among the best,
  /// the chance of the pot need not be.
  void consider(const Way& way, const Touch& touch) {
    const auto aimed = aimed_call(scene_, position_, way, touch);
    ++simulated_;
    if (!aimed) return;
    const auto certain = prospect_of(scene_, position_, aimed->call, 1);
    if (!certain) return;
    considered_ |= bit(way.ball);
    const double leave = first_worth(scene_, field_, *certain);
    double& least = *std::ranges::min_element(best_);
    if (leave <= least) return;
    const double pot =
        pot_chance(scene_, position_, way, aimed->aim, aimed->call.access.error_factor);
    if (pot < hopeless_pot) return;
    rivals_.push_back({.way = &way, .touch = touch, .call = aimed->call, .worth = pot * leave});
    least = std::max(least, pot * leave);
  }

  void vary_the_best() {
    sort();
    const std::vector<Rival> best(
        rivals_.begin(),
        rivals_.begin() + static_cast<std::ptrdiff_t>(std::min(varied, rivals_.size())));
    for (const Rival& one : best) {
      for (const double pace : {0.86, 1.16}) {
        consider(*one.way, {.side = one.touch.side,
                            .height = one.touch.height,
                            .cue_speed_mps = pace * one.touch.cue_speed_mps});
      }
      for (const double turn : {-1.0, 1.0}) {
        consider(*one.way, {.side = one.touch.side,
                            .height = one.touch.height + 0.1 * turn,
                            .cue_speed_mps = one.touch.cue_speed_mps});
        consider(*one.way, {.side = one.touch.side + 0.25 * turn,
                            .height = one.touch.height,
                            .cue_speed_mps = one.touch.cue_speed_mps});
      }
    }
  }

  void play_the_best(std::uint64_t seed) {
    sort();
    for (const Heat& heat : heats) {
      rivals_.resize(std::min(rivals_.size(), heat.rivals));
      if (rivals_.size() < 2) return;
      for (Rival& one : rivals_) {
        // Goes on where the heat before stopped.
        double sum = one.worth * static_cast<double>(one.tries);
        for (std::uint64_t i = one.tries; i < heat.tries; ++i) {
          const Attempt attempt = spread_attempt(scene_, position_, one.call, seed, i);
          sum += worth_of(scene_, field_, try_of(scene_, position_, one.call, attempt));
        }
        simulated_ += static_cast<long>(heat.tries - one.tries);
        one.tries = heat.tries;
        one.worth = sum / static_cast<double>(one.tries);
      }
      sort();
    }
  }

  /// Whether a strike at this ball leads on.
  [[nodiscard]] bool considers(int ball) const { return has(considered_, ball); }
  [[nodiscard]] bool empty() const { return rivals_.empty(); }
  [[nodiscard]] const Call& best() const { return rivals_.front().call; }
  [[nodiscard]] long simulated() const { return simulated_; }

 private:
  void sort() { std::ranges::stable_sort(rivals_, std::ranges::greater{}, &Rival::worth); }

  const Scene& scene_;
  const ValueField& field_;
  const Position& position_;
  std::vector<Rival> rivals_;
  std::array<double, heats.front().rivals> best_{};  ///< worths of as many as will be played
  BallSet considered_ = 0;
  long simulated_ = 0;
};

/// Whether everything that `now` holds besides the cue ball lies where it did; balls may have gone.
bool still(const Position& then, const Position& now) {
  for (std::size_t i = 1; i < now.at.size(); ++i) {
    if (has(now.present, static_cast<int>(i)) && !(now.at[i] == then.at[i])) return false;
  }
  return true;
}

}  // namespace

const std::vector<Way>& FreshWays::of(const Scene& scene, const Position& position, int ball) {
  const auto known = balls_.find(ball);
  if (known != balls_.end() && still(known->second.seen, position)) return known->second.ways;
  OfBall& fresh = balls_[ball];
  fresh = {.seen = position, .ways = quick_ways_of(scene, position, ball)};
  return fresh.ways;
}

std::optional<Call> quick_choice(const Scene& scene, const ValueField& field,
                                 const Position& position, FreshWays& fresh, std::uint64_t seed,
                                 long& simulated_shots) {
  Choice choice(scene, field, position);
  const BallSet shifted = moved(field.position(), position);
  const BallSet on = balls_on(scene.task, position.present);
  for (const auto& hint : field.hints(position.present, position.at[0], most_hints)) {
    const Way& way = field.ways()[static_cast<std::size_t>(hint.way)];
    if (!has(shifted, way.ball)) choice.consider(way, hint.touch);
  }
  const auto plain = [&](const std::vector<Way>& ways, int ball) {
    for (const Way& way : ways) {
      if (way.ball != ball || (way.blockers & position.present) != 0) continue;
      for (const Touch& touch : plain_touches) choice.consider(way, touch);
    }
  };
  // What has moved may have opened the ways of the others as well.
  const bool no_hint = choice.empty();
  for (int ball = 1; ball < static_cast<int>(position.at.size()); ++ball) {
    if (!has(on, ball) || choice.considers(ball)) continue;
    if (shifted != 0) {
      plain(fresh.of(scene, position, ball), ball);
    } else if (no_hint) {
      plain(field.ways(), ball);
    }
  }
  choice.vary_the_best();
  choice.play_the_best(seed);
  simulated_shots += choice.simulated();
  if (choice.empty()) return std::nullopt;
  return choice.best();
}

}  // namespace ahead::coach
