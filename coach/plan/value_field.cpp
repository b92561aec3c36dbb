#include "coach/plan/value_field.h"

#include <algorithm>
#include <atomic>
#include <bit>
#include <cmath>
#include <utility>

#include <tbb/parallel_for.h>

namespace ahead::coach {
namespace {

using engine::Vec2;

/// Touches that every place tries: screw, stun, plain, follow, at four paces.
constexpr std::array heights{-0.38, -0.18, 0.0, 0.25};
constexpr std::array speeds_mps{0.5, 0.85, 1.35, 2.1};

/// Share of the value that is left when the shot met a ball that has gone by then (assumption: a
/// guide only, never shown).
constexpr double after_meeting_a_gone_ball = 0.85;

/// A ball that goes from less than this share of the places is stuck, and is freed without having
/// been seen to be, in this share of clearances (assumptions: guides only, never shown).
constexpr double next_to_nowhere = 0.02;
constexpr double freed_somehow = 0.1;

}  // namespace

ValueField::ValueField(const Scene& scene, const Position& position, Grid grid,
                       std::shared_ptr<const Glance> glance)
    : ValueField(scene, position, grid, std::move(glance),
                 ways_to_clear(scene, position, WayCare::exact)) {}

ValueField::ValueField(const Scene& scene, const Position& position, Grid grid,
                       std::shared_ptr<const Glance> glance, std::vector<Way> ways)
    : task_(scene.task),
      glance_(std::move(glance)),
      position_(position),
      ways_(std::move(ways)),
      grid_(grid) {
  const engine::Table& table = scene.field.table();
  const double inset = table.cue_ball.radius_m + 0.01;
  first_ = {inset, inset};
  spacing_ = {(table.width_m - 2 * inset) / (grid.columns - 1),
              (table.length_m - 2 * inset) / (grid.rows - 1)};
  for (int i = 0; i < static_cast<int>(position.at.size()); ++i) {
    if (has(task_.own & position.present, i)) own_.push_back(i);
  }

  const std::size_t places =
      static_cast<std::size_t>(grid.columns) * static_cast<std::size_t>(grid.rows);
  usable_.assign(places, true);
  outcomes_.resize(places);
  const double touching_m = 2 * std::sqrt(table.cue_ball.radius_m * table.object_ball.radius_m);
  std::vector<Vec2> at(places);
  for (std::size_t i = 0; i < places; ++i) {
    const std::size_t column = i % static_cast<std::size_t>(grid.columns);
    const std::size_t row = i / static_cast<std::size_t>(grid.columns);
    at[i] = {first_.x + static_cast<double>(column) * spacing_.x,
             first_.y + static_cast<double>(row) * spacing_.y};
    for (int ball = 1; ball < static_cast<int>(position.at.size()); ++ball) {
      if (has(position.present, ball) &&
          engine::norm(position.at[static_cast<std::size_t>(ball)] - at[i]) < touching_m) {
        usable_[i] = false;
      }
    }
  }
  std::atomic<long> simulated = 0;
  tbb::parallel_for(std::size_t{0}, places, [&](std::size_t i) {
    if (!usable_[i]) return;
    outcomes_[i] = outcomes_at(scene, at[i]);
    simulated += static_cast<long>(outcomes_[i].size());
  });
  simulated_shots_ = simulated;
  goes_from_ = find_shares();
  for (const int ball : own_) {
    if (goes_from(ball) < next_to_nowhere) stuck_ |= bit(ball);
  }
  work_backwards();
}

std::vector<ValueField::Outcome> ValueField::outcomes_at(const Scene& scene, Vec2 place) const {
  const engine::Table& table = scene.field.table();
  std::vector<Outcome> outcomes;
  for (int w = 0; w < static_cast<int>(ways_.size()); ++w) {
    const Way& way = ways_[static_cast<std::size_t>(w)];
    const Vec2 object = position_.at[static_cast<std::size_t>(way.ball)];
    const auto gate = gate_at(way.gates, 1.0);
    if (!gate) continue;
    const Vec2 ghost = ghost_ball(table, object, object + engine::direction(gate->middle_rad()));
    // Cuts beyond about 75 degrees are left to the search from the real position.
    if (engine::dot(engine::unit(object - ghost), engine::unit(ghost - place)) < 0.26) continue;
    const BallSet passing = passing_blockers(task_, way.ball);
    const BallSet in_way =
        in_the_way(scene, position_, place, ghost, table.cue_ball.radius_m, bit(way.ball));
    if ((in_way & ~passing) != 0) continue;

    Position without = position_;
    without.at[0] = place;
    // The black waits for all the others, a snooker colour for those before it; any other ball only
    // for what blocks its way.
    const bool waits = has(task_.black, way.ball) || task_.colour == ToPlay::colours;
    const BallSet gone = waits ? passing : in_way | way.blockers;
    without.present &= ~gone;
    for (const double height : heights) {
      for (const double speed : speeds_mps) {
        const Touch touch{.height = height, .cue_speed_mps = speed};
        const auto prospect = prospect_of(scene, without, way, touch);
        if (!prospect) continue;
        Outcome outcome{.way = w,
                        .touch = touch,
                        .pot = prospect->pot,
                        .landing = prospect->leaves.at[0],
                        .drift = prospect->drift,
                        .blockers = gone};
        for (int ball = 1; ball < static_cast<int>(position_.at.size()); ++ball) {
          if (!has(prospect->touched, ball)) continue;
          const bool matters = has(task_.own | task_.black, ball);
          outcome.shifted.push_back(
              {ball, matters ? glance_->ease(scene, prospect->leaves, ball) : 1.0});
        }
        outcomes.push_back(std::move(outcome));
      }
    }
  }
  return outcomes;
}

std::size_t ValueField::index_of(BallSet left) const {
  std::size_t index = 0;
  for (std::size_t i = 0; i < own_.size(); ++i) {
    if (has(left, own_[i])) index |= std::size_t{1} << i;
  }
  return index;
}

std::array<ValueField::Corner, 4> ValueField::corners(Vec2 cue) const {
  const auto split = [](double at, int count) {
    const double clamped = std::clamp(at, 0.0, static_cast<double>(count - 1));
    const int low = std::min(static_cast<int>(clamped), count - 2);
    return std::pair{low, clamped - low};
  };
  const auto [column, across] = split((cue.x - first_.x) / spacing_.x, grid_.columns);
  const auto [row, along] = split((cue.y - first_.y) / spacing_.y, grid_.rows);
  const auto corner = [this, left = column, low = row](int dx, int dy, double weight) {
    const std::size_t place =
        static_cast<std::size_t>(low + dy) * static_cast<std::size_t>(grid_.columns) +
        static_cast<std::size_t>(left + dx);
    return Corner{place, usable_[place] ? weight : 0.0};
  };
  return {corner(0, 0, (1 - across) * (1 - along)), corner(1, 0, across * (1 - along)),
          corner(0, 1, (1 - across) * along), corner(1, 1, across * along)};
}

double ValueField::value(BallSet left, Vec2 cue) const {
  if ((left & (task_.own | task_.black)) == 0) return 1;
  const std::vector<Best>& best = best_[index_of(left)];
  double sum = 0;
  double weight = 0;
  for (const Corner& corner : corners(cue)) {
    sum += corner.weight * best[corner.place].value;
    weight += corner.weight;
  }
  return weight > 0 ? sum / weight : 0;
}

double ValueField::best_pot(BallSet left, Vec2 cue) const {
  if ((left & (task_.own | task_.black)) == 0) return 1;
  const std::vector<Best>& best = best_[index_of(left)];
  double sum = 0;
  double weight = 0;
  for (const Corner& corner : corners(cue)) {
    sum += corner.weight * best[corner.place].pot;
    weight += corner.weight;
  }
  return weight > 0 ? sum / weight : 0;
}

/// Balls that lie elsewhere than the field has them, or that what has moved may have freed.
BallSet ValueField::unlike(const Position& position) const {
  const BallSet shifted = moved(position_, position);
  return shifted == 0 ? 0 : shifted | stuck_;
}

double ValueField::best_pot_of(const Scene& scene, const Position& position) const {
  const BallSet left = position.present & (task_.own | task_.black);
  const BallSet shifted = unlike(position);
  if (left == 0 || shifted == 0) return best_pot(left, position.at[0]);
  return glance_->best_pot(scene, position, balls_on(task_, left), ways_, shifted);
}

double ValueField::value_along(const Scene& scene, const Position& position, Vec2 run) const {
  const BallSet left = position.present & (task_.own | task_.black);
  const BallSet shifted = unlike(position);
  double ease = 1;
  for (int ball = 1; (shifted & left) != 0 && ball < static_cast<int>(position.at.size()); ++ball) {
    if (has(shifted & left, ball)) ease *= glance_->ease(scene, position, ball);
  }
  const BallSet known = left & ~shifted;
  const BallSet on = balls_on(task_, left);
  const double sighted = glance_->best_pot(scene, position, on, ways_, shifted);
  if (known == 0) return ease * sighted;
  // The grid knows nothing of what hides a ball from just this place, nor of moved balls.
  const double by_grid = best_pot(known, position.at[0]);
  const double seen = by_grid > 0 ? std::min(1.0, sighted / by_grid) : 1;
  const Vec2 cue = position.at[0];
  if (run == Vec2{}) return ease * seen * value(known, cue);
  return ease * seen * (value(known, cue - run) + value(known, cue) + value(known, cue + run)) / 3;
}

/// Mean value over the landing's likely run: the middle and one drift (times root 3/2) either way,
/// which is the three-point Gauss-Hermite rule with equal weights.
double ValueField::worth(const Outcome& outcome, BallSet left) const {
  if ((left & (task_.own | task_.black)) == 0) return 1;
  double ease = 1;
  for (const Shifted& shifted : outcome.shifted) {
    if (!has(left, shifted.ball)) {
      ease *= after_meeting_a_gone_ball;
    } else {
      ease *= shifted.ease;
      left &= ~bit(shifted.ball);
    }
  }
  const Vec2 reach = std::sqrt(1.5) * outcome.drift;
  return ease *
         (value(left, outcome.landing - reach) + value(left, outcome.landing) +
          value(left, outcome.landing + reach)) /
         3;
}

ValueField::Best ValueField::best_of(const std::vector<Outcome>& outcomes, BallSet left) const {
  const BallSet on = balls_on(task_, left);
  Best best;
  for (int i = 0; i < static_cast<int>(outcomes.size()); ++i) {
    const Outcome& outcome = outcomes[static_cast<std::size_t>(i)];
    const int ball = ways_[static_cast<std::size_t>(outcome.way)].ball;
    if (!has(on, ball) || (outcome.blockers & left) != 0) continue;
    const double value = outcome.pot * worth(outcome, left & ~bit(ball));
    best.pot = std::max(best.pot, outcome.pot);
    if (value > best.value || best.outcome < 0) {
      best.value = value;
      best.outcome = i;
    }
  }
  return best;
}

std::vector<double> ValueField::find_shares() const {
  std::vector<double> shares(position_.at.size(), 0);
  const double one = 1 / std::max(1.0, static_cast<double>(std::ranges::count(usable_, true)));
  for (const auto& outcomes : outcomes_) {
    BallSet from_here = 0;
    for (const Outcome& outcome : outcomes) {
      from_here |= bit(ways_[static_cast<std::size_t>(outcome.way)].ball);
    }
    for (std::size_t i = 0; i < shares.size(); ++i) {
      if (has(from_here, static_cast<int>(i))) shares[i] += one;
    }
  }
  return shares;
}

void ValueField::work_backwards() {
  const std::size_t sets = std::size_t{1} << own_.size();
  best_.assign(sets, std::vector<Best>(outcomes_.size()));
  // A set's numbers need only those of its subsets, which have smaller indices.
  for (std::size_t set = 0; set < sets; ++set) {
    BallSet left = task_.black & position_.present;
    for (std::size_t i = 0; i < own_.size(); ++i) {
      if ((set >> i & 1U) != 0) left |= bit(own_[i]);
    }
    if (left == 0) continue;
    // Until a shot moves it, a stuck ball counts as one that is freed somehow, rarely.
    const BallSet going = left & ~stuck_;
    const double freed = std::pow(freed_somehow, std::popcount(left & stuck_));
    tbb::parallel_for(std::size_t{0}, outcomes_.size(), [&](std::size_t place) {
      Best& best = best_[set][place];
      best = best_of(outcomes_[place], left);
      if (going == left) return;
      const double without = going == 0 ? 1 : best_[index_of(going)][place].value;
      best.value = std::max(best.value, freed * without);
    });
  }
}

std::vector<ValueField::Hint> ValueField::hints(BallSet left, Vec2 cue, std::size_t most) const {
  const BallSet on = balls_on(task_, left);
  std::vector<Hint> hints;
  for (const Corner& corner : corners(cue)) {
    if (corner.weight <= 0) continue;
    for (const Outcome& outcome : outcomes_[corner.place]) {
      const int ball = ways_[static_cast<std::size_t>(outcome.way)].ball;
      if (!has(on, ball) || (outcome.blockers & left) != 0) continue;
      const double worth = outcome.pot * this->worth(outcome, left & ~bit(ball));
      const auto same = std::ranges::find_if(hints, [&](const Hint& hint) {
        return hint.way == outcome.way && hint.touch.height == outcome.touch.height &&
               hint.touch.cue_speed_mps == outcome.touch.cue_speed_mps;
      });
      if (same == hints.end()) {
        hints.push_back({.way = outcome.way, .touch = outcome.touch, .worth = worth});
      } else {
        same->worth = std::max(same->worth, worth);
      }
    }
  }
  std::ranges::stable_sort(hints, std::ranges::greater{}, &Hint::worth);
  hints.resize(std::min(hints.size(), most));
  return hints;
}

}  // namespace ahead::coach
