#include <algorithm>
#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "bench/scenes.h"

// Plays a scene so many times, for a counter of instructions (`./dev bench --instructions`), and
// prints how many shots and events that was. Without arguments it names the scenes.
//
// The difference between two runs is free of start-up and of the checks of the scene's answer.
int main(int argc, char** argv) {
  const auto& scenes = ahead::bench::named_scenes();
  if (argc == 1) {
    for (const auto& scene : scenes) std::puts(scene.name);
    return 0;
  }
  const auto named = std::ranges::find(scenes, std::string_view(argv[1]), [](const auto& scene) {
    return std::string_view(scene.name);
  });
  if (argc != 3 || named == scenes.end()) {
    std::fprintf(stderr, "usage: ahead_count [SCENE ROUNDS]\n");
    return 2;
  }
  const ahead::bench::Scene scene = named->scene();
  const long rounds = std::strtol(argv[2], nullptr, 10);
  std::size_t events = 0;
  for (long round = 0; round < rounds; ++round) {
    for (std::size_t shot = 0; shot < scene.shots; ++shot) events += scene.events(shot);
  }
  std::printf("%zu %zu\n", static_cast<std::size_t>(rounds) * scene.shots, events);
  return 0;
}
