#include "coach/random.h"

#include <cmath>
#include <numbers>

namespace ahead::coach {
namespace {

constexpr std::uint64_t golden = 0x9e3779b97f4a7c15;

std::uint64_t mixed(std::uint64_t z) {
  z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9;
  z = (z ^ (z >> 27U)) * 0x94d049bb133111eb;
  return z ^ (z >> 31U);
}

}  // namespace

Random::Random(std::uint64_t seed, std::uint64_t stream)
    : state_(mixed(seed + golden) ^ mixed(mixed(stream + 2 * golden))) {}

double Random::uniform() {
  state_ += golden;
  return static_cast<double>(mixed(state_) >> 11U) * 0x1p-53;
}

double Random::normal() {
  const double radius = std::sqrt(-2 * std::log(1 - uniform()));
  return radius * std::cos(2 * std::numbers::pi * uniform());
}

}  // namespace ahead::coach
