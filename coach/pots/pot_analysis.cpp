#include "coach/pots/pot_analysis.h"

#include <algorithm>
#include <array>
#include <numbers>
#include <utility>

#include <tbb/parallel_for.h>

#include "coach/pots/prospect.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

constexpr std::array heights{-0.40, -0.25, -0.10, 0.0, 0.15, 0.30};
constexpr std::array sides{0.0, -0.25, 0.25};
constexpr std::array speeds_mps{0.6, 0.9, 1.35, 2.0, 2.8};

/// Strikes that are played out, and how often.
constexpr std::size_t most_strikes = 12;
constexpr int tries_a_strike = 400;

bool lands_in(const Try& one, const Leave& leave) {
  return succeeded(one) && engine::norm(one.leaves.at[0] - leave.at) <= leave.radius_m;
}

/// For a first ranking without errors: a strike that stops in the leave, or near it, comes first.
double promise(const Prospect& prospect, const std::optional<Leave>& leave) {
  if (!leave) return prospect.pot;
  const double off = engine::norm(prospect.leaves.at[0] - leave->at);
  const double reach = leave->radius_m + engine::norm(prospect.drift) + 0.02;
  return prospect.pot / (1 + (off / reach) * (off / reach));
}

std::vector<Prospect> prospects_of(const Scene& scene, const Position& position, const Way& way) {
  constexpr std::size_t touches = heights.size() * sides.size() * speeds_mps.size();
  std::vector<std::optional<Prospect>> found(touches);
  tbb::parallel_for(std::size_t{0}, touches, [&](std::size_t i) {
    found[i] = prospect_of(scene, position, way,
                           {.side = sides[i / speeds_mps.size() % sides.size()],
                            .height = heights[i / (speeds_mps.size() * sides.size())],
                            .cue_speed_mps = speeds_mps[i % speeds_mps.size()]});
  });
  std::vector<Prospect> prospects;
  for (auto& one : found) {
    if (one) prospects.push_back(*std::move(one));
  }
  return prospects;
}

}  // namespace

PotAnalysis analyse_pot(const Scene& scene, const Position& position, int ball, int pocket,
                        const std::optional<Leave>& leave, std::uint64_t seed) {
  const engine::Table& table = scene.field.table();
  const Vec2 object = position.at[static_cast<std::size_t>(ball)];
  PotAnalysis analysis{.ball = ball, .pocket = pocket};
  analysis.to_pocket_m =
      engine::norm(table.pockets[static_cast<std::size_t>(pocket)].centre - object);
  const auto ways = ways_of(scene, position, ball);
  const auto way = std::ranges::find(ways, pocket, &Way::pocket);
  if (way == ways.end()) {
    analysis.no_pot = NoPot::closed;
    return analysis;
  }
  analysis.gates = way->gates;
  analysis.blockers = way->blockers & position.present;
  const auto gate = std::ranges::find_if(way->gates, [](const auto& g) { return g.has_value(); });
  const Vec2 line = engine::direction((*gate)->middle_rad());
  analysis.ghost = ghost_ball(table, object, object + line);
  const Vec2 aim = analysis.ghost - position.at[0];
  const bool to_left = engine::cross(aim, line) > 0;
  // The cue ball leaves on the other side from the object ball.
  analysis.tangent_rad =
      engine::angle_rad(line) + (to_left ? -std::numbers::pi / 2 : std::numbers::pi / 2);
  if (analysis.blockers != 0) {
    analysis.no_pot = NoPot::blocked;
    return analysis;
  }
  if (engine::dot(aim, line) <= 0) {
    analysis.no_pot = NoPot::cut_too_fine;
    return analysis;
  }

  analysis.face = face_of(scene, position, engine::angle_rad(aim));
  auto prospects = prospects_of(scene, position, *way);
  if (prospects.empty()) {
    const bool reached = std::ranges::any_of(
        analysis.face.places, [](const FacePlace& place) { return recommended(place.access); });
    analysis.no_pot = reached ? NoPot::no_strike : NoPot::no_access;
    return analysis;
  }
  std::ranges::stable_sort(prospects, [&](const Prospect& a, const Prospect& b) {
    return promise(a, leave) > promise(b, leave);
  });
  prospects.resize(std::min(prospects.size(), most_strikes));
  for (const Prospect& prospect : prospects) {
    const Call call = call_of(prospect);
    const auto tries = tries_of(scene, position, call, tries_a_strike, seed);
    AnalysedStrike strike{.option = described(scene, position, call)};
    add_tries(strike.option, tries);
    if (leave) {
      const auto landed =
          std::ranges::count_if(tries, [&](const Try& one) { return lands_in(one, *leave); });
      strike.lands = chance_of(static_cast<int>(landed), tries_a_strike);
    }
    analysis.strikes.push_back(std::move(strike));
  }
  const auto rank = [](const AnalysedStrike& strike) {
    return strike.lands ? strike.lands->value : strike.option.pot.value;
  };
  std::ranges::stable_sort(analysis.strikes, std::ranges::greater{}, rank);
  return analysis;
}

}  // namespace ahead::coach
