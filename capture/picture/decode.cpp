#include "capture/picture/decode.h"

#include <cstring>
#include <memory>
#include <optional>
#include <string_view>
#include <type_traits>
#include <utility>

#include <png.h>
#include <turbojpeg.h>
#include <webp/decode.h>

#include "capture/picture/orientation.h"

namespace ahead::capture {
namespace {

using Bytes = std::span<const std::uint8_t>;
using Decoded = std::expected<Picture, Refusal>;

std::unexpected<Refusal> damaged(std::string_view kind, std::string_view reason) {
  return std::unexpected(
      Refusal{.wrong = "is a damaged " + std::string(kind) + " (" + std::string(reason) + ")",
              .mend = "save or send the photograph again"});
}

std::optional<Refusal> unfit_size(long width, long height) {
  const std::string size = std::to_string(width) + " x " + std::to_string(height) + " pixels";
  if (width > most_picture_side || height > most_picture_side ||
      width * height > most_picture_pixels) {
    return Refusal{.wrong = "is too large a picture (" + size + ")",
                   .mend = "make it smaller: 60 million pixels are the most that is read"};
  }
  if (width < least_picture_side || height < least_picture_side) {
    return Refusal{.wrong = "is too small a picture (" + size + ")",
                   .mend = "give a photograph in which a ball is at least 8 pixels wide"};
  }
  return std::nullopt;
}

using Jpeg = std::unique_ptr<void, decltype([](tjhandle handle) { tjDestroy(handle); })>;

Decoded decode_jpeg(Bytes bytes) {
  const Jpeg jpeg(tjInitDecompress());
  int width = 0;
  int height = 0;
  int subsampling = 0;
  int space = 0;
  const auto size = static_cast<unsigned long>(bytes.size());
  if (tjDecompressHeader3(jpeg.get(), bytes.data(), size, &width, &height, &subsampling, &space) !=
      0) {
    return damaged("JPEG", tjGetErrorStr2(jpeg.get()));
  }
  if (auto refusal = unfit_size(width, height)) return std::unexpected(*refusal);
  Picture picture = blank_picture(width, height);
  // A progressive JPEG of few bytes may ask for scan after scan: those are limited.
  if (tjDecompress2(jpeg.get(), bytes.data(), size, picture.bgr.data(), width, 0, height, TJPF_BGR,
                    TJFLAG_STOPONWARNING | TJFLAG_LIMITSCANS) != 0) {
    return damaged("JPEG", tjGetErrorStr2(jpeg.get()));
  }
  return upright(std::move(picture), jpeg_orientation(bytes));
}

struct PngEnd {
  void operator()(png_image* image) const { png_image_free(image); }
};

Decoded decode_png(Bytes bytes) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  const std::unique_ptr<png_image, PngEnd> end(&image);
  if (png_image_begin_read_from_memory(&image, bytes.data(), bytes.size()) == 0) {
    return damaged("PNG", image.message);
  }
  if (auto refusal = unfit_size(image.width, image.height)) return std::unexpected(*refusal);
  image.format = PNG_FORMAT_BGR;
  Picture picture = blank_picture(static_cast<int>(image.width), static_cast<int>(image.height));
  const png_color white{255, 255, 255};  // behind what is transparent
  if (png_image_finish_read(&image, &white, picture.bgr.data(),
                            static_cast<png_int_32>(picture.stride()), nullptr) == 0) {
    return damaged("PNG", image.message);
  }
  return picture;
}

Decoded decode_webp(Bytes bytes) {
  int width = 0;
  int height = 0;
  if (WebPGetInfo(bytes.data(), bytes.size(), &width, &height) == 0) {
    return damaged("WebP", "its header does not hold");
  }
  if (auto refusal = unfit_size(width, height)) return std::unexpected(*refusal);
  Picture picture = blank_picture(width, height);
  if (WebPDecodeBGRInto(bytes.data(), bytes.size(), picture.bgr.data(), picture.bgr.size(),
                        static_cast<int>(picture.stride())) == nullptr) {
    return damaged("WebP", "its pixels do not hold");
  }
  return picture;
}

bool has_at(Bytes bytes, std::size_t at, std::string_view text) {
  return bytes.size() >= at + text.size() &&
         std::memcmp(bytes.data() + at, text.data(), text.size()) == 0;
}

bool is_heic(Bytes bytes) {
  return has_at(bytes, 4, "ftyphei") || has_at(bytes, 4, "ftypmif") || has_at(bytes, 4, "ftypavif");
}

}  // namespace

bool is_footage(Bytes bytes) {
  return (has_at(bytes, 4, "ftyp") && !is_heic(bytes)) || has_at(bytes, 0, "\x1A\x45\xDF\xA3") ||
         (has_at(bytes, 0, "RIFF") && has_at(bytes, 8, "AVI "));
}

Decoded decode_picture(Bytes bytes) {
  if (bytes.size() > most_picture_bytes) {
    return std::unexpected(Refusal{.wrong = "is larger than 64 MB",
                                   .mend = "give a photograph as the camera saves it"});
  }
  if (has_at(bytes, 0, "\xFF\xD8\xFF")) return decode_jpeg(bytes);
  if (has_at(bytes, 0, "\x89PNG\r\n\x1A\n")) return decode_png(bytes);
  if (has_at(bytes, 0, "RIFF") && has_at(bytes, 8, "WEBP")) return decode_webp(bytes);
  if (is_heic(bytes)) {
    return std::unexpected(
        Refusal{.wrong = "is a HEIC or AVIF picture, which is not read",
                .mend = "let the telephone save as JPEG (\"most compatible\"), or convert it"});
  }
  return std::unexpected(
      Refusal{.wrong = "is no picture that is read", .mend = "give a JPEG, PNG or WebP"});
}

}  // namespace ahead::capture
