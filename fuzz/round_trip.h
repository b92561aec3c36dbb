#pragma once

#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "formats/input_error.h"

/// What holds for every reader and any bytes: either one line of complaint, or a value that is
/// written and read again as the same value.
namespace ahead::fuzz {

[[noreturn]] inline void fail(std::string_view what, std::string_view text) {
  std::fprintf(stderr, "%.*s\n%.*s\n", static_cast<int>(what.size()), what.data(),
               static_cast<int>(text.size()), text.data());
  std::abort();
}

/// `read` gives an expected value, `write` its text.
template <class Read, class Write>
void expect_round_trip(const unsigned char* bytes, std::size_t size, const Read& read,
                       const Write& write) {
  const auto first = read(std::string_view(reinterpret_cast<const char*>(bytes), size));
  if (!first) {
    const std::string line = formats::one_line(first.error());
    if (line.empty() || line.find('\n') != std::string::npos) fail("not one line:", line);
    return;
  }
  const std::string text = write(*first);
  const auto again = read(std::string_view(text));
  if (!again) fail(formats::one_line(again.error()), text);
  if (!(*again == *first)) fail("read again, the value is another:", text);
  if (write(*again) != text) fail("written again, the text is another:", write(*again));
}

}  // namespace ahead::fuzz
