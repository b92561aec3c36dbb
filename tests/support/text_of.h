#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

namespace ahead::test {

/// The whole file; empty when there is none.
inline std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace ahead::test
