#include "capture/draw/draw_on_clip.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <string>
#include <utility>
#include <vector>

#include "capture/footage/frames.h"
#include "formats/ffmpeg.h"

namespace ahead::capture {
namespace {

/// A ball that the stretch does not show at all counts as so far away.
constexpr double missing_m = 0.5;
constexpr double hands_breadth_m = 0.1;

double mean_distance(const Captured& captured, const coach::Layout& layout) {
  double sum = 0;
  for (const coach::LayoutBall& ball : layout.balls) {
    double nearest = missing_m;
    for (const CapturedBall& seen : captured.balls) {
      if (seen.ball.colour == ball.colour) {
        nearest = std::min(nearest, norm(seen.ball.at - ball.at));
      }
    }
    sum += nearest;
  }
  return layout.balls.empty() ? missing_m : sum / static_cast<double>(layout.balls.size());
}

/// Rows of blue, green and red become a film that every player plays: sides of even length, and the
/// colours of high-definition video, said so that players do not guess.
std::vector<std::string> arguments(const std::filesystem::path& film, int width, int height) {
  const std::string even = "crop=trunc(iw/2)*2:trunc(ih/2)*2";
  const std::string coloured = "scale=out_color_matrix=bt709:out_range=tv,format=yuv420p";
  return {"-nostdin",
          "-hide_banner",
          "-loglevel",
          "error",
          "-f",
          "rawvideo",
          "-pix_fmt",
          "bgr24",
          "-s",
          std::to_string(width) + "x" + std::to_string(height),
          "-r",
          std::to_string(frames_per_second),
          "-i",
          "pipe:0",
          "-an",
          "-vf",
          even + "," + coloured,
          "-colorspace",
          "bt709",
          "-color_primaries",
          "bt709",
          "-color_trc",
          "bt709",
          "-color_range",
          "tv",
          "-c:v",
          "libx264",
          "-preset",
          "veryfast",
          "-crf",
          "18",
          "-threads",
          "2",
          "-movflags",
          "+faststart",
          "-f",
          "mp4",
          "-y",
          "file:" + film.string()};
}

}  // namespace

std::expected<std::size_t, Refusal> stretch_showing(const Footage& footage,
                                                    const coach::Layout& layout) {
  std::size_t best = 0;
  double least = missing_m;
  for (std::size_t i = 0; i < footage.stills.size(); ++i) {
    const double distance = mean_distance(footage.stills[i].captured, layout);
    if (distance >= least) continue;
    least = distance;
    best = i;
  }
  if (least < hands_breadth_m) return best;
  return std::unexpected(Refusal{
      .wrong = "shows no still moment with the balls where the shot begins: the nearest is " +
               std::to_string(std::lround(1000 * least)) + " mm off on average",
      .mend = "plan on a layout that was captured from this clip (layout-1.json and so on)"});
}

std::optional<Refusal> draw_on_clip(const std::filesystem::path& clip, double from_s, double to_s,
                                    const Overlay& overlay, const std::filesystem::path& film) {
  auto frames = Frames::open(clip);
  if (!frames) return frames.error();
  const Picture& colour = overlay.colour;
  auto writer = formats::Ffmpeg::start(arguments(film, colour.width, colour.height),
                                       formats::FrameStream::standard_input);
  if (!writer) {
    return Refusal{.wrong = std::string("cannot be drawn on: ffmpeg could not be started (") +
                            std::strerror(writer.error()) + ")",
                   .mend = "free some memory"};
  }
  const double half_a_frame_s = 0.5 / frames_per_second;
  bool taken = true;
  long number = 0;
  for (; taken; ++number) {
    auto picture = frames->next();
    const double t_s = static_cast<double>(number) / frames_per_second;
    if (!picture || t_s > to_s + half_a_frame_s) break;
    if (t_s < from_s - half_a_frame_s) continue;
    taken = writer->write(laid_over(*std::move(picture), overlay).bgr);
  }
  if (const auto complaint = writer->complaint_at_end()) {
    return Refusal{
        .wrong = "cannot be drawn on (" + *complaint + ")",
        .mend = "check that the folder has room and that ffmpeg has the encoder libx264"};
  }
  return std::nullopt;
}

}  // namespace ahead::capture
