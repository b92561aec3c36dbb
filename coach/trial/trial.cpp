#include "coach/trial/trial.h"

#include <algorithm>
#include <cstddef>

#include <tbb/parallel_for.h>

#include "coach/plan/clear_chance.h"
#include "coach/plan/effort.h"
#include "coach/threads.h"

namespace ahead::coach {
LayoutTrial play_layout(const Layout& layout, const Player& player, Policy policy,
                        const TrialSettings& settings) {
  const ThreadLimit limit(settings.threads);
  LayoutTrial trial{.start = trial_start(layout, player, policy, settings.seed)};
  TrialStart& start = trial.start;
  if (policy == Policy::plan && start.first) {
    trial.stated = clear_chance(
        start.scene, start.position,
        runs_of(start.scene, *start.known.field, start.position, start.first->call,
                budget_of(Effort::normal).first_runs, settings.seed, start.simulated_shots));
  }
  trial.clearances.resize(static_cast<std::size_t>(settings.runs));
  tbb::parallel_for(0, settings.runs, [&](int run) {
    trial.clearances[static_cast<std::size_t>(run)] = play_clearance(start, run);
  });
  return trial;
}

void add(Tally& tally, const LayoutTrial& trial) {
  tally.simulated_shots += trial.start.simulated_shots;
  for (const PlayedClearance& played : trial.clearances) {
    const bool cleared = played.outcome == Outcome::cleared;
    ++tally.runs;
    tally.cleared += cleared ? 1 : 0;
    tally.shots += static_cast<int>(played.shots.size());
    ++tally.outcomes[static_cast<std::size_t>(played.outcome)];
    const auto left = static_cast<std::size_t>(played.left);
    tally.ended_with.resize(std::max(tally.ended_with.size(), left + 1));
    ++tally.ended_with[left];
    tally.simulated_shots += played.simulated_shots;
    if (trial.stated) tally.clearances.push_back({trial.stated->value, cleared});
    for (const TrialShot& shot : played.shots) {
      tally.pots.push_back({shot.pot, shot.potted});
      if (trial.start.policy == Policy::plan) tally.worths.push_back({shot.promise, cleared});
    }
  }
}

}  // namespace ahead::coach
