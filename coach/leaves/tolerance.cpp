#include "coach/leaves/tolerance.h"

#include <algorithm>

namespace ahead::coach {
namespace {

constexpr double furthest_sigmas = 6;
constexpr double step_sigmas = 0.25;
constexpr double still_worth = 0.8;

/// One slip played through, without any other error.
Miss fallen(const Scene& scene, const Position& position, const Call& call, const Worth& worth,
            const Slip& slip) {
  const engine::Table& table = scene.field.table();
  const engine::Strike strike = played(call.strike, slip, table);
  Miss miss{.slip = slip, .rest = position.at[0]};
  miss.off_m = worth.off_m(miss.rest);
  if (engine::miscues(strike, table.cue)) return miss;
  const Played shot = play(scene.field, position, strike);
  const Verdict verdict =
      judge(scene.task, shot.shot, shot.indices, position.present, call.ball, call.pocket);
  const Position later = after(position, shot);
  miss.potted = verdict == Verdict::goes_on || verdict == Verdict::cleared;
  miss.rest = later.at[0];
  miss.off_m = worth.off_m(miss.rest);
  miss.worth = miss.potted ? worth(miss.rest) : 0;
  return miss;
}

/// The furthest slip, towards `sigma`, up to which `good` holds all the way.
template <typename Good>
double edge(double sigma, Good good) {
  double held = 0;
  double lost = 0;
  for (double t = step_sigmas; t <= furthest_sigmas && lost == 0; t += step_sigmas) {
    (good(t * sigma) ? held : lost) = t;
  }
  if (lost == 0) return furthest_sigmas * sigma;
  for (int i = 0; i < 5; ++i) {
    const double middle = 0.5 * (held + lost);
    (good(middle * sigma) ? held : lost) = middle;
  }
  return held * sigma;
}

}  // namespace

Tolerances tolerances_of(const Scene& scene, const Position& position, const Call& call,
                         const Worth& worth) {
  const double as_meant = fallen(scene, position, call, worth, {}).worth;
  if (as_meant <= 0) return {};
  const Slip sigma = sigmas(scene.player, circumstances(call));
  const auto span = [&](double Slip::* thing) {
    const auto good = [&](double amount) {
      Slip slip;
      slip.*thing = amount;
      return fallen(scene, position, call, worth, slip).worth >= still_worth * as_meant;
    };
    const double one = sigma.*thing;
    return one > 0 ? Span{edge(-one, good), edge(one, good)} : Span{};
  };
  return {.direction_rad = span(&Slip::direction_rad),
          .pace = span(&Slip::pace),
          .tip_height_m = span(&Slip::tip_height_m),
          .tip_side_m = span(&Slip::tip_side_m)};
}

std::array<Miss, 4> misses_of(const Scene& scene, const Position& position, const Call& call,
                              const Worth& worth) {
  constexpr double sigmas_off = 1.5;
  const Slip sigma = sigmas(scene.player, circumstances(call));
  const double pace = sigmas_off * sigma.pace;
  const double turn = sigmas_off * sigma.direction_rad;
  return {fallen(scene, position, call, worth, {.pace = pace}),
          fallen(scene, position, call, worth, {.pace = -pace}),
          fallen(scene, position, call, worth, {.direction_rad = turn}),
          fallen(scene, position, call, worth, {.direction_rad = -turn})};
}

}  // namespace ahead::coach
