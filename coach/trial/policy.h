#pragma once

#include <cstdint>
#include <memory>
#include <optional>

#include "coach/plan/value_field.h"
#include "coach/risk/tries.h"

/// How a player chooses the next shot: from a position to a call.
namespace ahead::coach {

/// `plan` looks to the last ball, `onestep` to the next one, `greedy` at this pot only.
enum class Policy { plan, greedy, onestep };

/// What was found out and holds until a ball is moved. Empty to begin with.
struct Knowledge {
  std::shared_ptr<const ValueField> field;
};

struct Decision {
  Call call;
  /// What the policy tries to make large: `plan`, the chance of clearing; `onestep`, of this pot
  /// and the next; `greedy`, of this pot.
  double promise = 0;
};

/// Nothing when the policy finds no pot. Like the planner, it goes on with a field made for an
/// earlier position as long as only potted balls have gone.
[[nodiscard]] std::optional<Decision> decide(Policy policy, const Scene& scene,
                                             const Position& position, Knowledge& known,
                                             std::uint64_t seed, long& simulated_shots);

}  // namespace ahead::coach
