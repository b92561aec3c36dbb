#include "tests/support/shot_facts.h"

#include <algorithm>
#include <array>
#include <iomanip>
#include <limits>
#include <optional>
#include <sstream>

#include "engine/motion/motion.h"
#include "engine/simulate/stretch.h"

namespace ahead::test {
namespace {

using namespace engine;  // NOLINT(google-build-using-namespace): the test speaks of nothing else

/// The moments at which something changed, in order, each once.
std::vector<double> moments(const Shot& shot) {
  std::vector<double> times;
  for (const Stretch& stretch : shot.stretches) {
    times.push_back(stretch.t0_s);
    times.push_back(stretch.t1_s);
  }
  std::ranges::sort(times);
  times.erase(std::ranges::unique(times).begin(), times.end());
  return times;
}

/// Runs through a shot, keeping for every ball the stretch that holds at the moment.
class Reader {
 public:
  Reader(const Shot& shot, std::size_t balls) : shot_(shot), open_(balls, nullptr) {}

  /// Takes in every stretch that began at or before `t_s`.
  void go_to(double t_s) {
    while (next_ < shot_.stretches.size() && shot_.stretches[next_].t0_s <= t_s) {
      const Stretch& stretch = shot_.stretches[next_++];
      open_[static_cast<std::size_t>(stretch.ball)] = &stretch;
    }
  }

  /// The last stretch that began; it may be over.
  [[nodiscard]] const Stretch* last(std::size_t ball) const { return open_[ball]; }

 private:
  const Shot& shot_;
  std::vector<const Stretch*> open_;
  std::size_t next_ = 0;
};

/// When each ball leaves the table, if it does.
std::vector<double> leaving_times(const Shot& shot) {
  std::vector<double> times(shot.endings.size(), std::numeric_limits<double>::infinity());
  for (const Event& event : shot.events) {
    if (event.kind == EventKind::pot || event.kind == EventKind::off_table) {
      times[static_cast<std::size_t>(event.ball)] = event.t_s;
    }
  }
  return times;
}

}  // namespace

std::vector<EnergyAt> energies(const Shot& shot, const Table& table) {
  std::vector<EnergyAt> result;
  Reader reader(shot, shot.endings.size());
  for (const double t : moments(shot)) {
    reader.go_to(t);
    double sum = 0;
    for (std::size_t ball = 0; ball < shot.endings.size(); ++ball) {
      const Stretch* stretch = reader.last(ball);
      if (stretch == nullptr || t >= stretch->t1_s) continue;
      sum += energy_j(state_at(*stretch, table, t), ball_of(table, stretch->ball));
    }
    result.push_back({t, sum});
  }
  return result;
}

double largest_rise_j(const std::vector<EnergyAt>& energies) {
  double rise = 0;
  for (std::size_t i = 1; i < energies.size(); ++i) {
    rise = std::max(rise, energies[i].energy_j - energies[i - 1].energy_j);
  }
  return rise;
}

Overlaps deepest_overlaps(const Shot& shot, const Playfield& field,
                          const std::vector<Vec2>& start) {
  const Table& table = field.table();
  const std::size_t count = start.size();
  const std::vector<double> leaves = leaving_times(shot);
  std::vector<Vec3> at(count);
  std::vector<double> radius_m(count);
  for (std::size_t i = 0; i < count; ++i) {
    radius_m[i] = ball_of(table, static_cast<int>(i)).radius_m;
    at[i] = lift(start[i], radius_m[i]);
  }
  Overlaps worst;
  Reader reader(shot, count);
  std::vector<bool> moves(count);
  const auto look_at = [&](double t) {
    for (std::size_t i = 0; i < count; ++i) {
      const Stretch* stretch = reader.last(i);
      // Where a path has just ended, the ball has moved for the last time.
      moves[i] = stretch != nullptr && t <= stretch->t1_s && t < leaves[i];
      if (moves[i]) at[i] = state_at(*stretch, table, t).position;
    }
    for (std::size_t i = 0; i < count; ++i) {
      if (!moves[i]) continue;
      const double reach_m = field.runner(static_cast<int>(i)).reach_m;
      const Vec2 p = plan(at[i]);
      // The noses of all preset tables are at the edge of the playing area or beyond it.
      const bool far_from_noses = p.x > reach_m && p.x < table.width_m - reach_m && p.y > reach_m &&
                                  p.y < table.length_m - reach_m;
      if (!far_from_noses && at[i].z < radius_m[i] + 1e-9) {
        worst.cushion_m =
            std::max(worst.cushion_m, reach_m - norm(nearest_on(field.nose(), p) - p));
      }
      for (std::size_t j = 0; j < count; ++j) {
        if (j == i || t >= leaves[j] || (moves[j] && j < i)) continue;
        const double touch_m = radius_m[i] + radius_m[j];
        const Vec3 apart = at[i] - at[j];
        const double square = dot(apart, apart);
        if (square < touch_m * touch_m) {
          worst.balls_m = std::max(worst.balls_m, touch_m - std::sqrt(square));
        }
      }
    }
  };
  const std::vector<double> times = moments(shot);
  for (std::size_t k = 0; k < times.size(); ++k) {
    look_at(times[k]);  // as the paths until now end
    reader.go_to(times[k]);
    look_at(times[k]);  // as those from now on begin
    if (k + 1 == times.size()) break;
    for (const double share : {0.07, 0.31, 0.5, 0.83}) {
      look_at(times[k] + share * (times[k + 1] - times[k]));
    }
  }
  return worst;
}

int count_of(const Shot& shot, EventKind kind) {
  return static_cast<int>(
      std::ranges::count_if(shot.events, [&](const Event& event) { return event.kind == kind; }));
}

BallState moving_state(const Shot& shot, const Table& table, int ball, double t_s) {
  BallState state;
  for (const Stretch& stretch : shot.stretches) {
    if (stretch.ball == ball && stretch.t0_s <= t_s && t_s <= stretch.t1_s) {
      state = state_at(stretch, table, t_s);
    }
  }
  return state;
}

std::string in_code(const std::vector<Vec2>& balls, const Strike& strike) {
  std::ostringstream text;
  text << std::setprecision(17) << "balls{";
  for (const Vec2 ball : balls) text << "{" << ball.x << ", " << ball.y << "}, ";
  text << "} strike{.aim_rad = " << strike.aim_rad << ", .elevation_rad = " << strike.elevation_rad
       << ", .side = " << strike.side << ", .height = " << strike.height
       << ", .cue_speed_mps = " << strike.cue_speed_mps << "}";
  return text.str();
}

}  // namespace ahead::test
