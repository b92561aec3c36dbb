#pragma once

#include <expected>
#include <filesystem>
#include <span>
#include <string>
#include <utility>

#include "formats/ffmpeg.h"

/// Frames into a film, by ffmpeg as a program of its own: frames are handed over one by one, and
/// nothing is kept.
namespace ahead::lesson {

enum class FilmKind { mp4, webm, gif };

/// How a frame is handed over.
enum class Pixels {
  bgr,    ///< rows from the top, four bytes a pixel: blue, green, red, one that is unused
  planes  ///< Planes::bytes()
};
/// A GIF keeps the colours of each pixel, a film only those of every two by two.
[[nodiscard]] constexpr Pixels pixels_of(FilmKind kind) {
  return kind == FilmKind::gif ? Pixels::bgr : Pixels::planes;
}

struct FilmShape {
  int width = 0;   ///< pixels, even
  int height = 0;  ///< pixels, even
  int rate = 0;    ///< frames a second
};

/// Why there is no film.
struct FilmFailure {
  bool no_program = false;  ///< ffmpeg is not there
  std::string reason;
};

/// ffmpeg's version, "5.1.8-0+deb12u1"; empty when it is not there.
[[nodiscard]] std::string ffmpeg_version();

class Encoder {
 public:
  /// Starts the program, which is stopped with the encoder; it writes to `file`, over one that is
  /// there.
  [[nodiscard]] static std::expected<Encoder, FilmFailure> start(const std::filesystem::path& file,
                                                                 FilmKind kind,
                                                                 const FilmShape& shape);

  /// One frame in the film's pixels_of(). False when the program takes no more; finish() then says
  /// why.
  [[nodiscard]] bool write(std::span<const unsigned char> frame);

  /// No more frames. Nothing when the film is whole.
  [[nodiscard]] std::expected<void, FilmFailure> finish();

 private:
  explicit Encoder(formats::Ffmpeg ffmpeg) : ffmpeg_(std::move(ffmpeg)) {}

  formats::Ffmpeg ffmpeg_;
};

}  // namespace ahead::lesson
