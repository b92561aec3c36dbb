#include "coach/trial/policy.h"

#include "coach/plan/next_call.h"
#include "coach/trial/greedy.h"
#include "coach/trial/onestep.h"

namespace ahead::coach {
namespace {

/// The field for these places of the balls; a new one only when one has moved.
const ValueField& field_for(const Scene& scene, const Position& position, Knowledge& known,
                            long& simulated_shots) {
  if (!known.field || moved(known.field->position(), position) != 0) {
    known.field = std::make_shared<const ValueField>(
        scene, position, fine_grid,
        known.field ? known.field->glance()
                    : std::make_shared<const Glance>(scene.field, scene.player));
    simulated_shots += known.field->simulated_shots();
  }
  return *known.field;
}

}  // namespace

std::optional<Decision> decide(Policy policy, const Scene& scene, const Position& position,
                               Knowledge& known, std::uint64_t seed, long& simulated_shots) {
  switch (policy) {
    case Policy::plan: {
      const ValueField& field = field_for(scene, position, known, simulated_shots);
      const auto next = next_call(scene, field, position, seed, simulated_shots);
      if (next) return Decision{.call = next->call, .promise = next->worth};
      break;
    }
    case Policy::greedy: {
      const auto pot = easiest_pot(scene, position, seed, simulated_shots);
      if (pot) return Decision{.call = pot->call, .promise = pot->chance};
      break;
    }
    case Policy::onestep: {
      const ValueField& field = field_for(scene, position, known, simulated_shots);
      const auto best = best_for_next_ball(scene, field, position, seed, simulated_shots);
      if (best) return Decision{.call = best->call, .promise = best->two_balls};
      break;
    }
  }
  return std::nullopt;
}

}  // namespace ahead::coach
