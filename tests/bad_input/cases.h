#pragma once

#include <optional>
#include <string>
#include <vector>

#include "formats/input_error.h"

/// The folders of tests/bad_input: each holds `input.json` and, in `expected.txt`, the one line
/// that it must be refused with. The first word of a folder's name says which reader it is for.
namespace ahead::test {

struct BadInput {
  std::string name;
  std::string kind;  ///< layout, strike, player, table or trace
  std::string text;
  std::string expected;  ///< without the new line at its end
};

[[nodiscard]] std::vector<BadInput> bad_inputs();

/// What the reader of that kind says about `text`; nothing when it accepts it.
[[nodiscard]] std::optional<formats::InputError> refusal(const std::string& kind,
                                                         const std::string& text);

}  // namespace ahead::test
