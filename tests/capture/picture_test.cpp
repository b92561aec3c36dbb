#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "capture/picture/decode.h"
#include "capture/picture/encode.h"
#include "capture/picture/orientation.h"
#include "tests/support/text_of.h"

namespace ahead::capture {
namespace {

using Bytes = std::vector<std::uint8_t>;

Bytes bytes_of(const std::string& text) { return {text.begin(), text.end()}; }

Picture speckled(int width, int height) {
  Picture picture = blank_picture(width, height);
  for (std::size_t i = 0; i < picture.bgr.size(); ++i) {
    picture.bgr[i] = static_cast<std::uint8_t>(i * 7 + i / 13);
  }
  return picture;
}

Bytes photograph() {
  return bytes_of(
      test::text_of(std::filesystem::path(AHEAD_SOURCE_DIR) / "tests/photographs/scenes/01.jpg"));
}

std::string wrong_with(const Bytes& bytes) {
  const auto picture = decode_picture(bytes);
  return picture ? "nothing" : picture.error().wrong;
}

TEST(APicture, ComesBackAsItWasWritten) {
  const Picture picture = speckled(80, 64);
  const auto read = decode_picture(bytes_of(png_of(picture)));
  ASSERT_TRUE(read.has_value()) << read.error().wrong;
  EXPECT_EQ(*read, picture);
}

TEST(APicture, IsReadFromAJpeg) {
  const auto read = decode_picture(photograph());
  ASSERT_TRUE(read.has_value()) << read.error().wrong;
  EXPECT_EQ(read->width, 1280);
  EXPECT_EQ(read->height, 960);
}

TEST(APicture, ThatIsDamagedIsRefused) {
  Bytes jpeg = photograph();
  jpeg.resize(jpeg.size() / 2);
  EXPECT_TRUE(wrong_with(jpeg).starts_with("is a damaged JPEG"));
  Bytes png = bytes_of(png_of(speckled(80, 64)));
  png.resize(png.size() / 2);
  EXPECT_TRUE(wrong_with(png).starts_with("is a damaged PNG"));
  EXPECT_TRUE(wrong_with(bytes_of("RIFF\x10\0\0\0WEBPVP8 oops")).starts_with("is no picture") ||
              wrong_with(bytes_of(std::string("RIFF\x10\0\0\0WEBPVP8 oops", 20)))
                  .starts_with("is a damaged WebP"));
}

// The header alone says so: no memory is asked for.
TEST(APicture, ThatIsTooLargeIsRefusedByItsHeader) {
  Bytes png = bytes_of(png_of(speckled(80, 64)));
  png[16] = 0x7F;  // the width's first byte: two thousand million pixels; its checksum is now wrong
  EXPECT_NE(wrong_with(png), "nothing");
  Bytes jpeg = photograph();
  for (std::size_t i = 2; i + 9 < jpeg.size(); ++i) {
    if (jpeg[i] == 0xFF && jpeg[i + 1] == 0xC0) {  // the frame header (ITU-T T.81, B.2.2)
      jpeg[i + 5] = jpeg[i + 7] = 0xFF;
      jpeg[i + 6] = jpeg[i + 8] = 0x00;
      break;
    }
  }
  EXPECT_EQ(wrong_with(jpeg), "is too large a picture (65280 x 65280 pixels)");
}

TEST(APicture, ThatIsNoneIsRefused) {
  EXPECT_EQ(wrong_with({}), "is no picture that is read");
  EXPECT_EQ(wrong_with(bytes_of("GIF89a")), "is no picture that is read");
  EXPECT_EQ(wrong_with(bytes_of(std::string("\0\0\0\x18"
                                            "ftypheic",
                                            12))),
            "is a HEIC or AVIF picture, which is not read");
}

TEST(APicture, OfAFewPixelsIsRefused) {
  EXPECT_EQ(wrong_with(bytes_of(png_of(speckled(20, 10)))),
            "is too small a picture (20 x 10 pixels)");
}

/// Start of image, an Exif segment with this orientation, nothing else.
Bytes exif(int orientation, bool big_endian) {
  const std::string order =
      big_endian ? std::string("MM\0*\0\0\0\x08", 8) : std::string("II*\0\x08\0\0\0", 8);
  std::string entry = big_endian ? std::string("\0\x01\x01\x12\0\x03\0\0\0\x01\0", 11)
                                 : std::string("\x01\0\x12\x01\x03\0\x01\0\0\0", 10);
  entry += static_cast<char>(orientation);
  entry += std::string(big_endian ? 2 : 3, '\0');
  const std::string body = std::string("Exif\0\0", 6) + order + entry + std::string(4, '\0');
  const std::string head{'\xFF', '\xD8', '\xFF', '\xE1', '\0', static_cast<char>(body.size() + 2)};
  return bytes_of(head + body);
}

TEST(HowACameraWasHeld, IsReadFromEitherByteOrder) {
  for (int orientation = 1; orientation <= 8; ++orientation) {
    EXPECT_EQ(jpeg_orientation(exif(orientation, false)), orientation);
    EXPECT_EQ(jpeg_orientation(exif(orientation, true)), orientation);
  }
  EXPECT_EQ(jpeg_orientation(exif(9, false)), 1);
  EXPECT_EQ(jpeg_orientation(photograph()), 1);
}

// CIPA DC-008 (Exif 2.3), tag 274: where row 0 and column 0 of the stored picture are on the seen
// one. 6: row 0 is the right-hand side, column 0 the top.
TEST(HowACameraWasHeld, TurnsThePictureUpright) {
  const Picture stored = speckled(3, 2);
  const auto pixel = [](const Picture& picture, int x, int y) {
    return picture
        .bgr[static_cast<std::size_t>(y) * picture.stride() + static_cast<std::size_t>(x) * 3];
  };
  const Picture turned = upright(stored, 6);
  EXPECT_EQ(turned.width, 2);
  EXPECT_EQ(turned.height, 3);
  EXPECT_EQ(pixel(turned, 1, 0), pixel(stored, 0, 0));
  EXPECT_EQ(pixel(turned, 1, 2), pixel(stored, 2, 0));
  EXPECT_EQ(pixel(turned, 0, 0), pixel(stored, 0, 1));
  const Picture over = upright(stored, 3);
  EXPECT_EQ(pixel(over, 2, 1), pixel(stored, 0, 0));
  // Eight turns back the other way from six; five and seven are their own mirror images' inverses.
  EXPECT_EQ(upright(upright(stored, 6), 8), stored);
  for (const int own : {2, 3, 4, 5, 7}) EXPECT_EQ(upright(upright(stored, own), own), stored);
}

}  // namespace
}  // namespace ahead::capture
