#include <cstddef>
#include <cstdint>
#include <cstdlib>

#include "capture/picture/decode.h"
#include "capture/picture/orientation.h"

/// Whatever bytes are called a photograph, they give a picture within the limits or a reason.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace ahead::capture;
  const auto picture = decode_picture({bytes, size});
  if (!picture) {
    if (picture.error().wrong.empty() || picture.error().mend.empty()) std::abort();
    return 0;
  }
  const auto pixels =
      static_cast<std::size_t>(picture->width) * static_cast<std::size_t>(picture->height);
  if (pixels > most_picture_pixels || picture->bgr.size() != 3 * pixels) std::abort();
  const int orientation = jpeg_orientation({bytes, size});
  if (orientation < 1 || orientation > 8) std::abort();
  return 0;
}
