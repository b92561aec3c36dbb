#include <algorithm>
#include <array>
#include <bit>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <string_view>
#include <vector>

#include <tbb/parallel_for.h>

#include "bench/layouts.h"
#include "coach/plan/play_out.h"
#include "coach/trial/policy.h"

// `./dev odds`: what planning anew after every shot makes of the odds that played-out clearances
// show; the two figures in coach/plan/play_out.cpp.
//
// The planner plays each layout of a folder RUNS times as county player and as professional. Before
// every second shot clearances are played out; how often they went on from the first shot to the
// end, and whether the planner did, is what the figures are fitted to.
namespace ahead::bench {
namespace {

constexpr std::array players{"county", "professional"};
constexpr int played_out = 200;
/// With fewer the chance is stated as it was played out.
constexpr int least_to_clear = 3;
constexpr std::uint64_t planned_seed = 1;
constexpr std::uint64_t attempt_seed = 2;

/// What was played out before a shot, and whether the planner cleared.
struct Seen {
  double first = 0;  ///< share of the runs whose first shot went well
  double log_odds_of_rest = 0;
  bool cleared = false;
};

/// Half a run more of each kind, so that none and all have odds too.
Seen seen(const std::vector<coach::RunEnd>& runs) {
  const auto began = static_cast<double>(std::ranges::count_if(runs, &coach::RunEnd::began));
  const auto cleared = static_cast<double>(std::ranges::count_if(runs, &coach::RunEnd::cleared));
  return {.first = (began + 0.5) / (static_cast<double>(runs.size()) + 1),
          .log_odds_of_rest = std::log((cleared + 0.5) / (began - cleared + 0.5))};
}

std::vector<Seen> played(const coach::Layout& layout, const coach::Player& player,
                         std::uint64_t stream) {
  const coach::Scene scene = coach::scene_of(layout, layout.to_play, player);
  coach::Position position = coach::position_of(layout);
  coach::Knowledge known;
  std::vector<Seen> all;
  long simulated = 0;
  constexpr std::uint64_t most_shots = 32;
  for (std::uint64_t shot = 0; shot < most_shots; ++shot) {
    const auto next = coach::decide(coach::Policy::plan, scene, position, known,
                                    planned_seed + stream, simulated);
    if (!next) break;
    const int to_clear = std::popcount(position.present & (scene.task.own | scene.task.black));
    if (shot % 2 == 0 && to_clear >= least_to_clear) {
      all.push_back(seen(coach::runs_of(scene, *known.field, position, next->call, played_out,
                                        planned_seed + stream, simulated)));
    }
    const coach::Try one =
        coach::try_once(scene, position, next->call, attempt_seed, stream * most_shots + shot);
    if (!coach::succeeded(one)) break;
    position = one.leaves;
    if (one.verdict != coach::Verdict::cleared) continue;
    for (Seen& before : all) before.cleared = true;
    break;
  }
  return all;
}

double stated(const Seen& one, double offset, double slope) {
  return one.first / (1 + std::exp(-offset - slope * one.log_odds_of_rest));
}

double log_likelihood(const std::vector<Seen>& all, double offset, double slope) {
  double sum = 0;
  for (const Seen& one : all) {
    const double chance = stated(one, offset, slope);
    sum += std::log(one.cleared ? chance : 1 - chance);
  }
  return sum;
}

int run(const std::filesystem::path& folder, std::size_t runs) {
  const auto layouts = layouts_in(folder);
  if (!layouts) return 2;
  const std::size_t clearances = layouts->size() * players.size() * runs;
  std::vector<std::vector<Seen>> of_clearance(clearances);
  tbb::parallel_for(std::size_t{0}, clearances, [&](std::size_t i) {
    const coach::Player player = *coach::player_preset(players[i % players.size()]);
    const std::size_t layout = i / players.size() % layouts->size();
    of_clearance[i] = played((*layouts)[layout].layout, player, i);
  });
  std::vector<Seen> all;
  for (const auto& some : of_clearance) all.insert(all.end(), some.begin(), some.end());

  double best_offset = 0;
  double best_slope = 1;
  double best = log_likelihood(all, best_offset, best_slope);
  std::printf("%zu shots of %zu clearances; as played out: log likelihood %.1f\n", all.size(),
              clearances, best);
  constexpr double step = 0.05;
  for (int i = -20; i <= 40; ++i) {
    for (int k = 5; k <= 30; ++k) {
      const double found = log_likelihood(all, step * i, step * k);
      if (found <= best) continue;
      best = found;
      best_offset = step * i;
      best_slope = step * k;
    }
  }
  std::printf("put right by offset %.2f and slope %.2f: %.1f\n", best_offset, best_slope, best);
  return 0;
}

}  // namespace
}  // namespace ahead::bench

int main(int argc, char** argv) {
  std::size_t runs = 0;
  if (argc == 3) {
    const std::string_view text = argv[2];
    std::from_chars(text.data(), text.data() + text.size(), runs);
  }
  if (runs == 0 || !std::filesystem::is_directory(argv[1])) {
    std::fprintf(stderr, "usage: ahead_odds FOLDER RUNS\n");
    return 2;
  }
  return ahead::bench::run(argv[1], runs);
}
