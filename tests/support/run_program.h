#pragma once

#include <string>
#include <vector>

/// The program as a person runs it.
namespace ahead::test {

struct Ran {
  int status = -1;  ///< exit status; 128 + N when signal N ended it
  std::string out;
  std::string err;
};

/// Runs `ahead` with `arguments`, no shell expansion. Standard output goes to `out_path` when it is
/// given.
[[nodiscard]] Ran run_program(const std::vector<std::string>& arguments,
                              const std::string& out_path = "");

}  // namespace ahead::test
