#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <optional>
#include <string_view>
#include <vector>

#include <tbb/parallel_for.h>

#include "bench/layouts.h"
#include "bench/number.h"
#include "coach/plan/clear_chance.h"
#include "coach/trial/policy.h"
#include "lesson/words/trial_words.h"

// `./dev odds`: what planning anew after every shot makes of the odds that played-out clearances
// show; the three figures in coach/plan/clear_chance.cpp.
//
// The planner plays each layout of a folder RUNS times for each of three players. Before every
// second shot clearances are played out; how often they went on from the first shot to the end, and
// whether the planner did, is what the figures are fitted to. Beside them stands how right the
// chances were that the figures in use state of these layouts.
namespace ahead::bench {
namespace {

constexpr std::array players{"club", "county", "professional"};
constexpr int played_out = 100;
/// With fewer the chance is stated as it was played out.
constexpr int least_to_clear = 3;
constexpr std::uint64_t planned_seed = 1;
constexpr std::uint64_t attempt_seed = 2;

/// What was played out before a shot, and whether the planner cleared.
struct Seen {
  const coach::Player* player = nullptr;
  double first = 0;   ///< share of the runs whose first shot went well
  double rest = 0;    ///< ... of those that then cleared
  double stated = 0;  ///< the chance of clearing that is shown
  bool cleared = false;
};

/// Half a run more of each kind, so that none and all have odds too.
Seen seen(const coach::Player& player, const coach::Scene& scene, const coach::Position& position,
          const std::vector<coach::Run>& runs) {
  double began = 0;
  double cleared = 0;
  for (const coach::Run& run : runs) {
    began += run.began;
    cleared += run.cleared;
  }
  return {.player = &player,
          .first = (began + 0.5) / (static_cast<double>(runs.size()) + 1),
          .rest = (cleared + 0.5) / (began + 1),
          .stated = coach::clear_chance(scene, position, runs).value};
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
      all.push_back(seen(player, scene, position,
                         coach::runs_of(scene, *known.field, position, next->call, played_out,
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

double log_likelihood(const std::vector<Seen>& all, const coach::PlannedAnew& anew) {
  double sum = 0;
  for (const Seen& one : all) {
    const double chance = one.first * anew(one.rest, *one.player);
    sum += std::log(one.cleared ? chance : 1 - chance);
  }
  return sum;
}

/// From `anew` uphill along one figure after the other, by ever smaller steps.
coach::PlannedAnew likeliest(const std::vector<Seen>& all, coach::PlannedAnew anew) {
  constexpr int halvings = 6;
  double step = 0.32;
  double best = log_likelihood(all, anew);
  for (int i = 0; i <= halvings; ++i, step /= 2) {
    bool higher = true;
    while (higher) {
      higher = false;
      for (const auto figure :
           {&coach::PlannedAnew::offset, &coach::PlannedAnew::slope, &coach::PlannedAnew::of_aim}) {
        for (const double change : {step, -step}) {
          coach::PlannedAnew other = anew;
          other.*figure += change;
          const double found = log_likelihood(all, other);
          if (found <= best) continue;
          best = found;
          anew = other;
          higher = true;
        }
      }
    }
  }
  return anew;
}

int run(const std::filesystem::path& folder, std::size_t runs) {
  const auto layouts = layouts_in(folder);
  if (!layouts) return 2;
  std::vector<coach::Player> who;
  for (const std::string_view id : players) who.push_back(*coach::player_preset(id));
  const std::size_t clearances = layouts->size() * who.size() * runs;
  std::vector<std::vector<Seen>> of_clearance(clearances);
  tbb::parallel_for(std::size_t{0}, clearances, [&](std::size_t i) {
    const std::size_t layout = i / who.size() % layouts->size();
    of_clearance[i] = played((*layouts)[layout].layout, who[i % who.size()], i);
  });
  std::vector<Seen> all;
  for (const auto& some : of_clearance) all.insert(all.end(), some.begin(), some.end());

  const coach::PlannedAnew as_played_out;
  const coach::PlannedAnew found = likeliest(all, as_played_out);
  std::printf("%zu shots of %zu clearances; as played out: log likelihood %.1f\n", all.size(),
              clearances, log_likelihood(all, as_played_out));
  std::printf("put right by offset %.2f, slope %.2f and %.2f of the aim: %.1f\n", found.offset,
              found.slope, found.of_aim, log_likelihood(all, found));

  coach::Tally in_use;
  for (const Seen& one : all) in_use.clearances.push_back({one.stated, one.cleared});
  std::printf("%s", lesson::calibration_words(in_use).c_str());
  return 0;
}

}  // namespace
}  // namespace ahead::bench

int main(int argc, char** argv) {
  using ahead::bench::number;
  const auto runs = argc == 3 ? number<std::size_t>(argv[2]) : std::nullopt;
  if (!runs || *runs == 0 || !std::filesystem::is_directory(argv[1])) {
    std::fprintf(stderr, "usage: ahead_odds FOLDER RUNS\n");
    return 2;
  }
  return ahead::bench::run(argv[1], *runs);
}
