#include "coach/plan/next_call.h"

#include "coach/plan/choose.h"

namespace ahead::coach {

std::optional<NextCall> next_call(const Scene& scene, const ValueField& field,
                                  const Position& position, std::uint64_t seed,
                                  long& simulated_shots) {
  const auto rivals = weigh_shots(scene, field, position, seed, simulated_shots);
  if (rivals.empty()) return std::nullopt;
  const Prospect& best = rivals.front().prospect;
  return NextCall{.call = {.ball = best.ball, .pocket = best.pocket, .strike = best.strike},
                  .worth = rivals.front().worth};
}

}  // namespace ahead::coach
