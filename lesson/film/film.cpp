#include "lesson/film/film.h"

#include <system_error>

#include "lesson/film/painter.h"
#include "lesson/film/planes.h"

namespace ahead::lesson {
namespace {

/// Removes the file unless it is kept.
class Partial {
 public:
  explicit Partial(std::filesystem::path path) : path_(std::move(path)) {}
  ~Partial() {
    std::error_code ignored;
    std::filesystem::remove(path_, ignored);
  }
  Partial(const Partial&) = delete;
  Partial& operator=(const Partial&) = delete;

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

}  // namespace

std::expected<bool, FilmFailure> make_film(const std::filesystem::path& file, FilmKind kind,
                                           const FilmShape& shape, const coach::Plan& plan,
                                           const LessonWords& words, const Look& look,
                                           const Timeline& timeline, const OnFrame& on_frame) {
  std::filesystem::path name = file;
  name += ".part";
  const Partial partial(name);
  auto encoder = Encoder::start(partial.path(), kind, shape);
  if (!encoder) return std::unexpected(encoder.error());

  Painter painter(plan, words, look, timeline, shape);
  const long count = timeline.frames(shape.rate);
  Planes planes(shape.width, shape.height);
  for (long i = 0; i < count; ++i) {
    if (!on_frame(static_cast<double>(i) / static_cast<double>(count))) return false;
    const Painted frame = painter.frame(i);
    if (pixels_of(kind) == Pixels::planes) {
      for (const Region& region : frame.changed) planes.take(frame.pixels, region);
    }
    if (!encoder->write(pixels_of(kind) == Pixels::planes ? planes.bytes() : frame.pixels)) break;
  }
  if (const auto ended = encoder->finish(); !ended) return std::unexpected(ended.error());
  std::error_code failed;
  std::filesystem::rename(partial.path(), file, failed);
  if (failed) return std::unexpected(FilmFailure{.reason = failed.message()});
  return true;
}

}  // namespace ahead::lesson
