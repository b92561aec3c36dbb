#include "lesson/film/encoder.h"

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

namespace ahead::lesson {
namespace {

/// The encoders' settings. Two threads, always: their number is part of what is written. The bit
/// exact flags keep version and date out of the file, so that a lesson can be made again byte for
/// byte.
std::vector<std::string> arguments(const std::filesystem::path& file, FilmKind kind,
                                   const FilmShape& shape) {
  std::vector<std::string> all{"-nostdin",  "-hide_banner",
                               "-loglevel", "error",
                               "-f",        "rawvideo",
                               "-pix_fmt",  pixels_of(kind) == Pixels::planes ? "yuv420p" : "bgr0",
                               "-s",        fmt::format("{}x{}", shape.width, shape.height),
                               "-r",        fmt::format("{}", shape.rate),
                               "-i",        "pipe:0",
                               "-an",       "-map_metadata",
                               "-1",        "-fflags",
                               "+bitexact", "-flags:v",
                               "+bitexact", "-threads",
                               "2"};
  const auto add = [&all](std::initializer_list<std::string_view> more) {
    all.insert(all.end(), more.begin(), more.end());
  };
  // Colours of high-definition video, said so that players do not guess.
  const auto colours = [&] {
    add({"-colorspace", "bt709", "-color_primaries", "bt709", "-color_trc", "bt709", "-color_range",
         "tv", "-chroma_sample_location", "center"});
  };
  switch (kind) {
    case FilmKind::mp4:
      colours();
      add({"-c:v", "libx264", "-preset", "veryfast", "-crf", "20", "-movflags", "+faststart", "-f",
           "mp4"});
      break;
    case FilmKind::webm:
      colours();
      add({"-c:v", "libvpx-vp9", "-deadline", "realtime", "-cpu-used", "8", "-row-mt", "1",
           "-tile-columns", "1", "-crf", "31", "-b:v", "0", "-f", "webm"});
      break;
    case FilmKind::gif:
      add({"-vf", "split[a][b];[a]palettegen=stats_mode=diff[p];[b][p]paletteuse=dither=none",
           "-loop", "0", "-f", "gif"});
      break;
  }
  // A file of this name, whatever it begins with.
  add({"-y", "file:" + file.string()});
  return all;
}

FilmFailure failure(int error) {
  return {.no_program = error == ENOENT, .reason = std::strerror(error)};
}

}  // namespace

std::string ffmpeg_version() {
  std::FILE* said = popen("ffmpeg -version 2>/dev/null", "r");
  if (said == nullptr) return {};
  std::array<char, 256> line{};
  const bool any = std::fgets(line.data(), line.size(), said) != nullptr;
  while (std::fgetc(said) != EOF) {
  }
  pclose(said);
  constexpr std::string_view before = "ffmpeg version ";
  const std::string_view first(line.data());
  if (!any || !first.starts_with(before)) return {};
  return std::string(first.substr(before.size(), first.find(' ', before.size()) - before.size()));
}

std::expected<Encoder, FilmFailure> Encoder::start(const std::filesystem::path& file, FilmKind kind,
                                                   const FilmShape& shape) {
  auto ffmpeg =
      formats::Ffmpeg::start(arguments(file, kind, shape), formats::FrameStream::standard_input);
  if (!ffmpeg) return std::unexpected(failure(ffmpeg.error()));
  return Encoder(*std::move(ffmpeg));
}

bool Encoder::write(std::span<const unsigned char> frame) { return ffmpeg_.write(frame); }

std::expected<void, FilmFailure> Encoder::finish() {
  const auto complaint = ffmpeg_.complaint_at_end();
  if (complaint) return std::unexpected(FilmFailure{.reason = *complaint});
  return {};
}

}  // namespace ahead::lesson
