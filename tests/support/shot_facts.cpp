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
  std::vector<Vec3> rests(count);
  for (std::size_t i = 0; i < count; ++i) {
    rests[i] = lift(start[i], ball_of(table, static_cast<int>(i)).radius_m);
  }
  Overlaps worst;
  Reader reader(shot, count);
  std::vector<Vec3> at(count);
  std::vector<bool> moves(count);
  const auto look_at = [&](double t) {
    for (std::size_t i = 0; i < count; ++i) {
      const Stretch* stretch = reader.last(i);
      moves[i] = stretch != nullptr && t <= stretch->t1_s;
      if (stretch != nullptr) {
        rests[i] = state_at(*stretch, table, std::min(t, stretch->t1_s)).position;
      }
      at[i] = rests[i];
    }
    for (std::size_t i = 0; i < count; ++i) {
      if (t >= leaves[i]) continue;
      const Ball& ball = ball_of(table, static_cast<int>(i));
      if (moves[i] && at[i].z < ball.radius_m + 1e-9) {
        const double reach_m = field.runner(static_cast<int>(i)).reach_m;
        worst.cushion_m = std::max(
            worst.cushion_m, reach_m - norm(nearest_on(field.nose(), plan(at[i])) - plan(at[i])));
      }
      for (std::size_t j = i + 1; j < count; ++j) {
        if (t >= leaves[j] || (!moves[i] && !moves[j])) continue;
        const double touch = ball.radius_m + ball_of(table, static_cast<int>(j)).radius_m;
        worst.balls_m = std::max(worst.balls_m, touch - norm(at[i] - at[j]));
      }
    }
  };
  const std::vector<double> times = moments(shot);
  for (std::size_t k = 0; k < times.size(); ++k) {
    reader.go_to(times[k]);
    look_at(times[k]);
    if (k + 1 == times.size()) break;
    for (const double share : {0.07, 0.31, 0.5, 0.83, 0.999}) {
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
