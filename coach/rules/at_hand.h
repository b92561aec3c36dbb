#pragma once

#include <string_view>
#include <vector>

#include "coach/layout.h"

/// What the sets of rules say about a ball that cannot be hit, and about one that is touched.
///
/// A row a set of rules, with how far to trust it: docs/rules.md names the copies that were read,
/// none of them a governing body's own. Kept as text, since the coach plans pots and never has to
/// act on them; only what "snookered" means is computed.
namespace ahead::coach {

/// How a clause came to be here.
enum class Standing {
  read,      ///< in a copy by a league or federation
  memory,    ///< recalled
  inferred,  ///< follows from something read
  unseen     ///< the rule exists, its text was not seen
};

/// What makes a snooker.
enum class SnookerMeans {
  no_part,     ///< no part of any ball on can be met in a straight line
  both_edges,  ///< no ball on can be met on both of its finest cuts
  nothing      ///< the word has no meaning in these rules
};

struct Clause {
  std::string_view text;
  Standing standing{};
};

struct RulesAtHand {
  SnookerMeans snooker{};
  Clause snookered;
  Clause touching;
  Clause open_table;
};

[[nodiscard]] const RulesAtHand& rules_at_hand(Rules rules);

}  // namespace ahead::coach
