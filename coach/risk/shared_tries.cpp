#include "coach/risk/shared_tries.h"

#include <utility>

#include <tbb/parallel_for.h>

namespace ahead::coach {

SharedTries::SharedTries(const Scene& scene, const Position& position, Value value,
                         std::uint64_t seed)
    : scene_(scene), position_(position), value_(std::move(value)), seed_(seed) {}

Likelihood SharedTries::likelihood_of(const Call& call) const {
  return {scene_.player, call.strike, call.access.error_factor, scene_.field.table()};
}

void SharedTries::play(const Call& call, int count) {
  std::vector<Sample> fresh(static_cast<std::size_t>(count));
  tbb::parallel_for(std::size_t{0}, fresh.size(), [&](std::size_t i) {
    const Attempt attempt = spread_attempt(scene_, position_, call, seed_, next_ + i);
    const Try one = try_of(scene_, position_, call, attempt);
    if (!succeeded(one)) return;
    fresh[i].value = value_(one);
    fresh[i].strike = came_out(attempt.strike, scene_.field.table());
  });
  next_ += fresh.size();

  played_.push_back({.likelihood = likelihood_of(call), .tries = static_cast<double>(count)});
  for (Sample& known : samples_) {
    known.density += played_.back().tries * played_.back().likelihood(known.strike);
  }
  for (Sample& sample : fresh) {
    if (sample.value <= 0) continue;
    for (const Played& one : played_) sample.density += one.tries * one.likelihood(sample.strike);
    samples_.push_back(sample);
  }
}

SharedTries::Estimate SharedTries::estimate(const Call& call) const {
  const Likelihood likelihood = likelihood_of(call);
  double sum = 0;
  double squares = 0;
  for (const Sample& sample : samples_) {
    const double share = sample.value * likelihood(sample.strike) / sample.density;
    sum += share;
    squares += share * share;
  }
  return {.mean = sum, .effective = squares > 0 ? sum * sum / squares : 0};
}

}  // namespace ahead::coach
