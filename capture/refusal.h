#pragma once

#include <string>

namespace ahead::capture {

/// Why a photograph gives no answer, and what to do about it.
struct Refusal {
  std::string wrong;
  std::string mend;
};

}  // namespace ahead::capture
