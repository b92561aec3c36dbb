#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "formats/input_error.h"

/// A failure as RFC 9457 has it, with a sentence for the person.
namespace ahead::formats {

struct Problem {
  int status = 500;
  std::string name;    ///< "stale"; the type is urn:three-ahead:problem:stale
  std::string title;   ///< the same for all of that name
  std::string detail;  ///< a sentence: what is wrong and how to mend it
  std::optional<InputError> input;
  std::optional<std::int64_t> revision;
  std::optional<int> retry_after_s;
};

[[nodiscard]] std::string problem_text(const Problem& problem);

}  // namespace ahead::formats
