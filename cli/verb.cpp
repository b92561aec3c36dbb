#include "cli/verb.h"

#include <charconv>
#include <cstdint>
#include <string>
#include <system_error>

#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>

namespace ahead::cli {
namespace {

/// The library would wrap -1 round to the largest number.
std::string whole_number(const std::string& text) {
  std::uint64_t value = 0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, value);
  if (!text.empty() && stop == end && error == std::errc{}) return "";
  return '"' + text + "\" is not a whole number from 0 to 18446744073709551615";
}

}  // namespace

void add_common(CLI::App& app, Common& common) {
  app.add_flag("--json", common.json, "One JSON document on standard output, and nothing else");
  app.add_option("--seed", common.seed, "Of the random numbers: same seed, same answer")
      ->capture_default_str()
      ->check(whole_number)
      ->type_name("N");
  app.add_option("--threads", common.threads,
                 "Most threads to use, 0 for all; the answer does not depend on it")
      ->check(CLI::Range(0, 1024))
      ->type_name("N");
}

}  // namespace ahead::cli
