#pragma once

#include <cstddef>
#include <expected>
#include <optional>
#include <string>
#include <string_view>

#include "coach/layout.h"
#include "engine/contact/strike.h"
#include "engine/simulate/shot.h"
#include "formats/input_error.h"

/// A shot that can be played again, `three-ahead.trace/1`: its layout and its strike, each as in a
/// file of its own, and every event with all its digits. Keys: formats/schema/trace.schema.json.
namespace ahead::formats {

struct Trace {
  coach::Layout layout;
  engine::Strike strike;

  friend bool operator==(const Trace&, const Trace&) = default;
};

/// `shot` was simulated from the trace's layout and strike.
[[nodiscard]] std::string write_trace(const Trace& trace, const engine::Shot& shot);

/// What to play again. The events are only a record and are not looked at.
[[nodiscard]] std::expected<Trace, InputError> read_trace(std::string_view text,
                                                          std::string_view file);

/// The first event, counted from 0, in which the record and the shot that was played again differ;
/// nothing when they are the same to the last digit. Requires a text that read_trace() takes.
[[nodiscard]] std::optional<std::size_t> first_difference(std::string_view text,
                                                          const engine::Shot& again);

}  // namespace ahead::formats
