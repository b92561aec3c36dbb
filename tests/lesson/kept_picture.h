#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>

#include <gtest/gtest.h>

/// Pictures that were looked at and kept. A changed one is written beside the test's other output:
/// look at it, then copy it over the kept file.
namespace ahead::lesson {

inline ::testing::AssertionResult is_kept(std::string_view name, const std::string& picture) {
  namespace fs = std::filesystem;
  const std::string file = std::string(name) + ".svg";
  const fs::path kept = fs::path(AHEAD_SOURCE_DIR) / "tests/lesson/kept" / file;
  std::ifstream in(kept, std::ios::binary);
  const std::string before{std::istreambuf_iterator<char>(in), {}};
  if (before == picture) return ::testing::AssertionSuccess();
  const fs::path now = fs::path(::testing::TempDir()) / file;
  std::ofstream(now, std::ios::binary) << picture;
  return ::testing::AssertionFailure() << kept << " differs from " << now;
}

}  // namespace ahead::lesson
