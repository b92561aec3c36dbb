#include "coach/plan/next_call.h"

#include "coach/plan/choose.h"

namespace ahead::coach {

std::optional<NextCall> next_call(const Scene& scene, const ValueField& field,
                                  const Position& position, std::uint64_t seed,
                                  long& simulated_shots) {
  const auto rivals = weigh_shots(scene, field, position, seed, simulated_shots);
  if (rivals.empty()) return std::nullopt;
  return NextCall{.call = call_of(rivals.front().prospect), .worth = rivals.front().worth};
}

}  // namespace ahead::coach
