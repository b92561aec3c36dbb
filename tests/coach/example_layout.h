#pragma once

#include <string>

#include "formats/layout.h"
#include "formats/text_file.h"

namespace ahead::test {

/// A layout of examples/, by its name.
inline coach::Layout example_layout(const std::string& name) {
  const std::string path = AHEAD_SOURCE_DIR "/examples/" + name + ".json";
  return formats::read_layout(formats::read_file(path).value(), path).value();
}

}  // namespace ahead::test
