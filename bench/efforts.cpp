#include "bench/efforts.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <vector>

#include <fmt/format.h>

#include "coach/plan/choose.h"
#include "coach/plan/effort.h"
#include "coach/plan/play_out.h"
#include "coach/rules/colours.h"

namespace ahead::bench {
namespace {

constexpr int runs = 100;
constexpr std::uint64_t chosen_seed = 1;
constexpr std::uint64_t played_seed = 2;

/// How often the strike that this effort puts first is followed by a clearance.
double cleared(const coach::Scene& scene, const coach::ValueField& field,
               const coach::Position& position, coach::Effort effort) {
  long simulated = 0;
  const auto rivals = coach::weigh_shots(scene, field, position, chosen_seed, simulated,
                                         coach::budget_of(effort).care);
  if (rivals.empty()) return 0;
  const coach::Call call = coach::call_of(rivals.front().prospect);
  double sum = 0;
  for (const coach::Run& run :
       coach::runs_of(scene, field, position, call, runs, played_seed, simulated)) {
    sum += run.cleared;
  }
  return sum / runs;
}

}  // namespace

std::string normal_against_deep(std::span<const coach::Layout> layouts,
                                const coach::Player& player) {
  std::vector<double> normal;
  std::vector<double> deep;
  double normal_sum = 0;
  double deep_sum = 0;
  for (const coach::Layout& layout : layouts) {
    const coach::ToPlay colour = coach::colours_to_take(layout).front();
    const coach::Scene scene = coach::scene_of(layout, colour, player);
    const coach::Position position = coach::position_of(layout);
    const coach::ValueField field(scene, position, coach::fine_grid,
                                  std::make_shared<const coach::Glance>(scene.field, player));
    normal.push_back(cleared(scene, field, position, coach::Effort::normal));
    deep.push_back(cleared(scene, field, position, coach::Effort::deep));
    normal_sum += normal.back();
    deep_sum += deep.back();
  }
  const double ratio = normal_sum / deep_sum;
  // Of a ratio of sums, layouts drawn independently (Cochran, Sampling Techniques, 1977; from
  // memory).
  double square = 0;
  for (std::size_t i = 0; i < normal.size(); ++i) {
    const double off = normal[i] - ratio * deep[i];
    square += off * off;
  }
  const double half = 1.96 * std::sqrt(square) / deep_sum;
  const auto count = static_cast<double>(normal.size());
  return fmt::format(
      "{}: after the first shot of normal effort {:.1f}% are cleared, after that of deep effort "
      "{:.1f}%: {:.0f}% of it (95% interval {:.0f} to {:.0f})",
      player.id, 100 * normal_sum / count, 100 * deep_sum / count, 100 * ratio,
      100 * (ratio - half), 100 * (ratio + half));
}

}  // namespace ahead::bench
