#include <cstddef>
#include <cstdint>
#include <string_view>

#include "formats/teacher_words.h"
#include "fuzz/round_trip.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace ahead;
  const auto read = [](std::string_view text) {
    return formats::read_teacher_words(text, "words.json");
  };
  fuzz::expect_round_trip(bytes, size, read, formats::write_teacher_words);
  return 0;
}
