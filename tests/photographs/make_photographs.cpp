#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <numbers>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <turbojpeg.h>

#include "coach/random.h"
#include "tests/photographs/darkroom.h"
#include "tests/photographs/pov_scene.h"
#include "tests/photographs/scene.h"

// make_photographs FOLDER SEED COUNT [WIDTH HEIGHT [FIRST]]
//
// Renders COUNT scenes with POV-Ray, bends them by each scene's lens, adds a sensor's noise, and
// writes NN.jpg and truth.json into FOLDER.
namespace ahead::photographs {
namespace {

void write_jpeg(const std::filesystem::path& path, const Scene& scene,
                const std::vector<unsigned char>& rgb) {
  tjhandle jpeg = tjInitCompress();
  unsigned char* bytes = nullptr;
  unsigned long size = 0;
  tjCompress2(jpeg, rgb.data(), scene.width_px, 0, scene.height_px, TJPF_RGB, &bytes, &size,
              TJSAMP_420, scene.jpeg_quality, TJFLAG_ACCURATEDCT);
  std::ofstream(path, std::ios::binary)
      .write(reinterpret_cast<const char*>(bytes), static_cast<std::streamsize>(size));
  tjFree(bytes);
  tjDestroy(jpeg);
}

/// How much of each ball is seen: pixels of its number over the pixels of its whole outline, which
/// a second rendering of that ball alone would have; the outline's area is computed instead.
std::vector<double> shares_seen(const Scene& scene, const Raster& numbers) {
  std::vector<double> pixels(scene.balls.size(), 0);
  // Only what the photograph shows counts: the bent place of the ideal pixel must be within.
  for (int y = 0; y < numbers.height; ++y) {
    for (int x = 0; x < numbers.width; ++x) {
      const int red = numbers.at(x, y)[0];
      const int number = (red + 4) / 8 - 1;
      if (number >= 0 && number < static_cast<int>(pixels.size())) {
        pixels[static_cast<std::size_t>(number)] += 1;
      }
    }
  }
  std::vector<double> shares;
  for (std::size_t i = 0; i < scene.balls.size(); ++i) {
    const SceneBall& ball = scene.balls[i];
    const Vec3 to = engine::lift(ball.at, ball.radius_m) - scene.eye.at;
    const double distance = norm(to);
    const double cosine = dot(to, scene.eye.forward) / distance;
    // Area of the ellipse in which a cone of half-angle a, its axis off the camera's by b, meets
    // the picture's plane: pi f^2 sin(a)^2 cos(b) / (cos(b)^2 - sin(a)^2)^(3/2).
    const double sine = ball.radius_m / distance;
    const double whole = std::numbers::pi * scene.lens.focal_px * scene.lens.focal_px * sine *
                         sine * cosine / std::pow(cosine * cosine - sine * sine, 1.5);
    shares.push_back(std::min(1.0, pixels[i] / whole));
  }
  return shares;
}

std::string truth_of(const Scene& scene, const std::vector<double>& shares) {
  coach::Random hand(scene.seed, 5);
  std::string corners;
  std::string given;
  for (const Vec3 corner : corners_of(scene.table)) {
    const Vec2 at = seen_at(scene, corner);
    // As a person would mark it: somewhere within three pixels.
    const double turn = 2 * std::numbers::pi * hand.uniform();
    const Vec2 off = 3 * std::sqrt(hand.uniform()) * engine::direction(turn);
    corners += fmt::format("{}[{:.2f}, {:.2f}]", corners.empty() ? "" : ", ", at.x, at.y);
    given +=
        fmt::format("{}[{:.2f}, {:.2f}]", given.empty() ? "" : ", ", at.x + off.x, at.y + off.y);
  }
  std::string balls;
  for (std::size_t i = 0; i < scene.balls.size(); ++i) {
    const SceneBall& ball = scene.balls[i];
    const Vec2 pixel = seen_at(scene, engine::lift(ball.at, ball.radius_m));
    balls += fmt::format(
        "{}\n      {{\"id\": \"{}\", \"at\": [{:.3f}, {:.3f}], \"seen\": {:.3f}, \"pixel\": "
        "[{:.1f}, "
        "{:.1f}]}}",
        i == 0 ? "" : ",", ball.id, ball.at.x * 1000, ball.at.y * 1000, shares[i], pixel.x,
        pixel.y);
  }
  return fmt::format(
      "  {{\"file\": \"{}.jpg\", \"table\": \"{}\", \"markings\": {},\n    \"focal_px\": {:.2f}, "
      "\"k1\": "
      "{:.4f}, \"k2\": {:.4f}, \"eye_mm\": [{:.1f}, {:.1f}, {:.1f}],\n    \"corners\": [{}],\n    "
      "\"given\": [{}],\n    \"balls\": [{}]}}",
      scene.name, scene.table.id, scene.markings, scene.lens.focal_px, scene.lens.k1, scene.lens.k2,
      scene.eye.at.x * 1000, scene.eye.at.y * 1000, scene.eye.at.z * 1000, corners, given, balls);
}

int run(int argc, char** argv) {
  if (argc < 4) {
    fmt::print(stderr, "usage: make_photographs FOLDER SEED COUNT [WIDTH HEIGHT [FIRST]]\n");
    return 2;
  }
  const std::filesystem::path folder = argv[1];
  const auto seed = static_cast<std::uint64_t>(std::atoll(argv[2]));
  const int count = std::atoi(argv[3]);
  const int width = argc > 5 ? std::atoi(argv[4]) : 1280;
  const int height = argc > 5 ? std::atoi(argv[5]) : 960;
  const int first = argc > 6 ? std::atoi(argv[6]) : 1;
  std::filesystem::create_directories(folder);
  const std::filesystem::path work = folder / "work";
  std::filesystem::create_directories(work);
  std::string truth;
  for (int number = first; number <= count; ++number) {
    const Scene scene = drawn_scene(seed, number, width, height);
    const Raster ideal = rendered(pov_scene(scene, margin_of(scene)), scene, work, true);
    const Raster numbers = rendered(pov_numbers(scene, margin_of(scene)), scene, work, false);
    write_jpeg(folder / (scene.name + ".jpg"), scene, photographed(scene, ideal));
    truth += (truth.empty() ? "" : ",\n") + truth_of(scene, shares_seen(scene, numbers));
    std::ofstream(folder / "truth.json") << "[\n" << truth << "\n]\n";
    fmt::print("{}\n", scene.name);
    std::fflush(stdout);
  }
  std::filesystem::remove_all(work);
  return 0;
}

}  // namespace
}  // namespace ahead::photographs

int main(int argc, char** argv) { return ahead::photographs::run(argc, argv); }
