#include "capture/picture/encode.h"

#include <cstddef>
#include <vector>

#include <png.h>

namespace ahead::capture {
namespace {

std::string encode(const std::uint8_t* rows, int width, int height, std::uint32_t format) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = static_cast<png_uint_32>(width);
  image.height = static_cast<png_uint_32>(height);
  image.format = format;
  image.flags = PNG_IMAGE_FLAG_FAST;
  png_alloc_size_t size = 0;
  std::string bytes;
  if (png_image_write_to_memory(&image, nullptr, &size, 0, rows, 0, nullptr) != 0) {
    bytes.resize(size);
    if (png_image_write_to_memory(&image, bytes.data(), &size, 0, rows, 0, nullptr) != 0) {
      bytes.resize(size);
    }
  }
  return bytes;
}

}  // namespace

std::string png_of(const Picture& picture) {
  return encode(picture.bgr.data(), picture.width, picture.height, PNG_FORMAT_BGR);
}

std::string png_of(const Picture& picture, std::span<const std::uint8_t> cover) {
  std::vector<std::uint8_t> bgra;
  bgra.reserve(cover.size() * 4);
  for (std::size_t i = 0; i < cover.size(); ++i) {
    const std::uint8_t* pixel = picture.bgr.data() + 3 * i;
    bgra.insert(bgra.end(), {pixel[0], pixel[1], pixel[2], cover[i]});
  }
  return encode(bgra.data(), picture.width, picture.height, PNG_FORMAT_BGRA);
}

}  // namespace ahead::capture
