#include <algorithm>
#include <array>
#include <cstdio>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "bench/efforts.h"
#include "bench/layouts.h"
#include "bench/number.h"
#include "coach/trial/report.h"
#include "lesson/words/trial_words.h"

// `./dev bench plan`: the plan against its yardsticks, over the layouts of a folder.
//
// For each player: how often each policy clears the whole set and the layouts named problem-*, how
// many times as often the plan does, and how right its stated chances are; and what normal effort
// finds of what deep effort finds. RUNS of 0 prints that alone. In the end how right the chances of
// both players are together, with the pots of all policies: the plan seldom takes a hard one.
namespace ahead::bench {
namespace {

constexpr std::array players{"county", "professional"};
constexpr std::array policies{coach::Policy::plan, coach::Policy::onestep, coach::Policy::greedy};

/// The whole set and the problem layouts in it, as one and the same clearances.
struct Reports {
  coach::TrialReport whole;
  coach::TrialReport problems;
};

Reports reports_of(const coach::Player& player, const std::vector<Named>& layouts, int runs) {
  const coach::TrialReport empty{.player = player, .runs = runs};
  Reports reports{.whole = empty, .problems = empty};
  for (const coach::Policy policy : policies) {
    coach::PolicyReport whole{.policy = policy};
    coach::PolicyReport problems{.policy = policy};
    for (const Named& named : layouts) {
      const auto trial = coach::play_layout(named.layout, player, policy, {.runs = runs});
      add(whole, named.name, trial);
      if (named.name.starts_with("problem-")) add(problems, named.name, trial);
      std::fprintf(stderr, "\r%s %zu of %zu  ", player.id.c_str(), whole.layouts.size(),
                   layouts.size());
    }
    reports.whole.policies.push_back(std::move(whole));
    if (problems.tally.runs > 0) reports.problems.policies.push_back(std::move(problems));
  }
  std::fprintf(stderr, "\r\033[K");
  return reports;
}

int run(const std::filesystem::path& folder, int runs) {
  const auto layouts = layouts_in(folder);
  if (!layouts) return 2;
  std::vector<coach::Layout> tables;
  for (const Named& named : *layouts) tables.push_back(named.layout);
  coach::Tally both;
  for (const std::string_view id : players) {
    const coach::Player player = *coach::player_preset(id);
    std::printf("%s\n", normal_against_deep(tables, player).c_str());
    std::fflush(stdout);
    if (runs == 0) continue;
    const Reports reports = reports_of(player, *layouts, runs);
    std::printf("%zu layouts, %d runs of each\n%s", layouts->size(), runs,
                lesson::comparison_words(reports.whole).c_str());
    if (!reports.problems.policies.empty()) {
      std::printf("\nThe layouts with problem balls\n%s",
                  lesson::comparison_words(reports.problems).c_str());
    }
    const coach::Tally& plan = reports.whole.policies.front().tally;
    std::printf("%s\n", lesson::calibration_words(plan).c_str());
    std::fflush(stdout);
    both.clearances.insert(both.clearances.end(), plan.clearances.begin(), plan.clearances.end());
    for (const coach::PolicyReport& report : reports.whole.policies) {
      both.pots.insert(both.pots.end(), report.tally.pots.begin(), report.tally.pots.end());
    }
  }
  if (runs > 0) {
    std::printf("Both players, and the pots of all policies\n%s",
                lesson::calibration_words(both).c_str());
  }
  return 0;
}

}  // namespace
}  // namespace ahead::bench

int main(int argc, char** argv) {
  using ahead::bench::number;
  const auto runs = argc == 3 ? number<int>(argv[2]) : std::nullopt;
  if (!runs || *runs < 0 || !std::filesystem::is_directory(argv[1])) {
    std::fprintf(stderr, "usage: ahead_bench_plan FOLDER RUNS\n");
    return 2;
  }
  return ahead::bench::run(argv[1], *runs);
}
