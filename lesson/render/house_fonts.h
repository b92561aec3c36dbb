#pragma once

#include <string>
#include <string_view>
#include <vector>

/// The fonts that words are set in, as this machine has them.
namespace ahead::lesson {

struct HouseFont {
  std::string wanted;  ///< "Inter"
  std::string found;   ///< the family that is used in its place; the same when it is there
  std::string file;    ///< where it stands
};

/// The first family of the look's body and heading fonts.
[[nodiscard]] std::vector<HouseFont> house_fonts();

/// SHA-256 in lower-case hexadecimal. Source: FIPS 180-4.
[[nodiscard]] std::string sha256_of(std::string_view bytes);
/// Of a file's bytes; empty when it cannot be read.
[[nodiscard]] std::string sha256_of_file(const std::string& path);

struct LibraryVersion {
  std::string name;
  std::string version;
};

/// Of the libraries that draw: other versions may draw other bytes.
[[nodiscard]] std::vector<LibraryVersion> drawing_libraries();

}  // namespace ahead::lesson
