#include <cstddef>
#include <cstdint>
#include <expected>
#include <string>
#include <string_view>
#include <vector>

#include "engine/simulate/simulate.h"
#include "formats/table.h"
#include "formats/trace.h"
#include "fuzz/round_trip.h"

// Whatever table, layout and strike a file may ask for: the shot ends or is given up, and its trace
// plays the same shot again.
namespace {

using namespace ahead;

/// With the digits of a table's file, as in layout_fuzz.cpp.
std::expected<formats::Trace, formats::InputError> read(std::string_view text) {
  auto trace = formats::read_trace(text, "trace.json");
  if (trace) {
    engine::Table& table = trace->layout.table;
    table = formats::read_table(formats::write_table(table), "").value();
  }
  return trace;
}

std::string write(const formats::Trace& trace) {
  std::vector<engine::Vec2> centres;
  for (const coach::LayoutBall& ball : trace.layout.balls) centres.push_back(ball.at);
  return formats::write_trace(
      trace, engine::simulate(engine::Playfield(trace.layout.table), centres, trace.strike));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  fuzz::expect_round_trip(bytes, size, read, write);
  return 0;
}
