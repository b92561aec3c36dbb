#pragma once

#include "coach/pots/prospect.h"

namespace ahead::coach {

/// A strike with what playing it out has shown.
struct Weighed {
  Prospect prospect;
  double worth = 0;  ///< mean value over the tries: the estimate that ranks
  int tries = 0;     ///< of the last round that played it
};

}  // namespace ahead::coach
