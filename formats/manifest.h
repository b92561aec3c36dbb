#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

/// What a lesson was made of and what came out, `three-ahead.lesson/1`: with the same plan,
/// settings, program, libraries and fonts every file can be made again byte for byte.
namespace ahead::formats {

/// Something named and the SHA-256 of its bytes.
struct Sealed {
  std::string name;
  std::string sha256;
};

struct OutputFile {
  std::string name;  ///< within the lesson's folder
  std::size_t bytes = 0;
  std::string sha256;
};

struct Setting {
  std::string name;
  std::string value;
};

struct Manifest {
  std::string program;  ///< version of this one, physics included
  Sealed plan;
  Sealed table;  ///< as `ahead table` prints it
  Sealed player;
  std::uint64_t seed = 1;
  std::vector<Setting> settings;   ///< of the lesson, as on the command line
  std::vector<Setting> libraries;  ///< that draw, set and encode, with their versions
  std::vector<Sealed> fonts;
  std::vector<OutputFile> files;
};

[[nodiscard]] std::string write_manifest(const Manifest& manifest);

}  // namespace ahead::formats
