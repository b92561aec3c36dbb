#include <cstddef>
#include <cstdint>
#include <string_view>

#include "formats/table.h"
#include "fuzz/round_trip.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace ahead;
  fuzz::expect_round_trip(
      bytes, size, [](std::string_view text) { return formats::read_table(text, "table.json"); },
      formats::write_table);
  return 0;
}
