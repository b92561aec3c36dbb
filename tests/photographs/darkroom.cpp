#include "tests/photographs/darkroom.h"

#include <cmath>
#include <cstdlib>
#include <fstream>

#include <fmt/format.h>
#include <png.h>

#include "coach/random.h"

namespace ahead::photographs {
namespace {

Raster read_png(const std::filesystem::path& path) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  Raster raster;
  if (png_image_begin_read_from_file(&image, path.c_str()) == 0) return raster;
  image.format = PNG_FORMAT_RGB;
  raster.width = static_cast<int>(image.width);
  raster.height = static_cast<int>(image.height);
  raster.rgb.resize(PNG_IMAGE_SIZE(image));
  png_image_finish_read(&image, nullptr, raster.rgb.data(), 0, nullptr);
  return raster;
}

/// r from r (1 + k1 r^2 + k2 r^4), by halving: slow, and surely right.
double straightened(double bent, const Lens& lens) {
  double low = 0;
  double high = 3;
  for (int i = 0; i < 60; ++i) {
    const double r = (low + high) / 2;
    (r * (1 + lens.k1 * r * r + lens.k2 * r * r * r * r) < bent ? low : high) = r;
  }
  return low;
}

}  // namespace

double margin_of(const Scene& scene) {
  const double bent = std::hypot(scene.width_px, scene.height_px) / 2 / scene.lens.focal_px;
  return std::max(1.0, straightened(bent, scene.lens) / bent) + 0.01;
}

Raster rendered(const std::string& text, const Scene& scene, const std::filesystem::path& folder,
                bool smooth) {
  const auto source = folder / "scene.pov";
  const auto picture = folder / "scene.png";
  std::ofstream(source) << text;
  const int width = static_cast<int>(std::lround(margin_of(scene) * scene.width_px));
  const int height = static_cast<int>(std::lround(margin_of(scene) * scene.height_px));
  const std::string command = fmt::format(
      "povray -D -GA +WT1 +W{} +H{} +I{} +O{} +FN File_Gamma=sRGB {} >/dev/null 2>{}/povray.txt",
      width, height, source.string(), picture.string(), smooth ? "+A0.2 +AM2 +R1" : "-A",
      folder.string());
  if (std::system(command.c_str()) != 0) {
    fmt::print(stderr, "POV-Ray failed: see {}/povray.txt\n", folder.string());
    std::exit(1);
  }
  return read_png(picture);
}

std::vector<unsigned char> photographed(const Scene& scene, const Raster& ideal,
                                        std::uint64_t exposure) {
  std::vector<unsigned char> out;
  out.reserve(static_cast<std::size_t>(scene.width_px) * static_cast<std::size_t>(scene.height_px) *
              3);
  coach::Random noise(scene.seed, exposure);
  const Vec2 middle{(scene.width_px - 1) / 2.0, (scene.height_px - 1) / 2.0};
  const Vec2 ideal_middle{(ideal.width - 1) / 2.0, (ideal.height - 1) / 2.0};
  const double corner = norm(middle);
  // The bend depends on the radius alone: a table of it is enough.
  std::vector<double> stretch;
  for (int i = 0; i <= static_cast<int>(corner) + 2; ++i) {
    const double bent = std::max(i, 1) / scene.lens.focal_px;
    stretch.push_back(straightened(bent, scene.lens) / bent);
  }
  for (int y = 0; y < scene.height_px; ++y) {
    for (int x = 0; x < scene.width_px; ++x) {
      const Vec2 off = Vec2{static_cast<double>(x), static_cast<double>(y)} - middle;
      const double r = norm(off);
      const auto below = static_cast<std::size_t>(r);
      const double part = r - std::floor(r);
      const double by = (1 - part) * stretch[below] + part * stretch[below + 1];
      const Vec2 from = ideal_middle + by * off;
      const int fx = static_cast<int>(std::floor(from.x));
      const int fy = static_cast<int>(std::floor(from.y));
      const double ax = from.x - fx;
      const double ay = from.y - fy;
      const double light = 1 - scene.vignette * (r / corner) * (r / corner);
      for (int c = 0; c < 3; ++c) {
        const double value =
            (1 - ay) * ((1 - ax) * ideal.at(fx, fy)[c] + ax * ideal.at(fx + 1, fy)[c]) +
            ay * ((1 - ax) * ideal.at(fx, fy + 1)[c] + ax * ideal.at(fx + 1, fy + 1)[c]);
        out.push_back(static_cast<unsigned char>(
            std::clamp(light * value + scene.noise * noise.normal() + 0.5, 0.0, 255.0)));
      }
    }
  }
  return out;
}

}  // namespace ahead::photographs
