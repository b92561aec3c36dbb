#include <cstddef>
#include <cstdint>
#include <expected>
#include <string_view>

#include "formats/layout.h"
#include "formats/table.h"
#include "fuzz/round_trip.h"

namespace {

using namespace ahead;

/// A layout whose table has the digits of a table's file: a whole table that is a preset is written
/// as the preset's name, and presets have more digits.
std::expected<coach::Layout, formats::InputError> read(std::string_view text) {
  auto layout = formats::read_layout(text, "layout.json");
  if (layout) layout->table = formats::read_table(formats::write_table(layout->table), "").value();
  return layout;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  fuzz::expect_round_trip(bytes, size, read, formats::write_layout);
  return 0;
}
