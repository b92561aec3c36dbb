#include <cmath>
#include <cstdio>
#include <filesystem>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "tests/photographs/clip.h"
#include "tests/photographs/darkroom.h"
#include "tests/photographs/pov_scene.h"

// make_clip FILE.mp4
//
// Renders the filmed shot frame by frame and lets ffmpeg make a clip of it. Frames in which nothing
// moves are rendered once and exposed anew each time, with noise of their own.
namespace ahead::photographs {
namespace {

int run(const std::filesystem::path& file) {
  const Clip clip = filmed_shot();
  const std::filesystem::path work = file.string() + ".work";
  std::filesystem::create_directories(work);
  const std::string command = fmt::format(
      "ffmpeg -v error -y -f rawvideo -pix_fmt rgb24 -s {}x{} -r {} -i pipe:0 -c:v libx264 -preset "
      "slow -crf 20 -pix_fmt yuv420p -map_metadata -1 -fflags +bitexact -flags:v +bitexact {}",
      clip.scene.width_px, clip.scene.height_px, clip.rate, file.string());
  std::FILE* encoder = popen(command.c_str(), "w");
  if (encoder == nullptr) return 1;
  Raster last;
  std::vector<Vec2> last_places;
  const int frames = static_cast<int>(std::lround(clip.length_s * clip.rate));
  for (int number = 0; number < frames; ++number) {
    const Scene scene = scene_at(clip, static_cast<double>(number) / clip.rate);
    std::vector<Vec2> places;
    for (const SceneBall& ball : scene.balls) places.push_back(ball.at);
    if (places != last_places) {
      last = rendered(pov_scene(scene, margin_of(scene)), scene, work, true);
      last_places = places;
    }
    const auto rgb = photographed(scene, last, 1000 + static_cast<std::uint64_t>(number));
    std::fwrite(rgb.data(), 1, rgb.size(), encoder);
    fmt::print("{}/{}\n", number + 1, frames);
    std::fflush(stdout);
  }
  const int status = pclose(encoder);
  std::filesystem::remove_all(work);
  return status == 0 ? 0 : 1;
}

}  // namespace
}  // namespace ahead::photographs

int main(int argc, char** argv) {
  return ahead::photographs::run(argc > 1 ? argv[1] : "out/clip.mp4");
}
