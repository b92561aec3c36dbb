#pragma once

#include <cstdint>
#include <expected>
#include <functional>
#include <string>

#include <CLI/App.hpp>

#include "formats/input_error.h"

/// What a verb of the program is.
namespace ahead::cli {

/// The exit status.
enum class Exit {
  done = 0,
  no = 1,        ///< the input was understood and the answer is no
  bad_input = 2  ///< bad usage or bad input
};

struct Answer {
  std::string out;   ///< for standard output
  std::string note;  ///< for standard error: a caution that must not mix with JSON
  Exit exit = Exit::done;
};

using Outcome = std::expected<Answer, formats::InputError>;

/// Options that every verb takes.
struct Common {
  bool json = false;
  std::uint64_t seed = 1;
  int threads = 0;  ///< 0: as many as the machine has
};

/// Adds --json, --seed and --threads.
void add_common(CLI::App& app, Common& common);

/// What a verb does once its options are read.
using Run = std::function<Outcome()>;

/// How a verb joins the program: it adds its options and its help to `app`.
using AddVerb = Run (*)(CLI::App& app);

}  // namespace ahead::cli
