#include "lesson/figure/cushion_outline.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ahead::lesson {
namespace {

using engine::Vec2;

/// Ends closer than this are one point: well below a line's width, well above rounding in a file.
constexpr double joined_m = 5e-4;
/// Chords of a jaw of 100 mm radius leave the arc by less than 0.1 mm.
constexpr double chord_rad = std::numbers::pi / 40;

Outline outline_of(const engine::RailSegment& rail) { return {rail.from, rail.to}; }

Outline outline_of(const engine::RailArc& rail) {
  double turn_rad = rail.to_rad - rail.from_rad;
  if (turn_rad < 0) turn_rad += 2 * std::numbers::pi;
  const int chords = std::max(1, static_cast<int>(std::ceil(turn_rad / chord_rad)));
  Outline points;
  for (int i = 0; i <= chords; ++i) {
    points.push_back(rail.centre +
                     rail.radius_m * engine::direction(rail.from_rad + turn_rad * i / chords));
  }
  return points;
}

bool meet(Vec2 a, Vec2 b) { return engine::norm(a - b) < joined_m; }

/// Adds `piece` to an end of `chain` that it meets. False when it meets neither.
bool join(Outline& chain, Outline piece) {
  if (meet(chain.front(), piece.front()) || meet(chain.front(), piece.back())) {
    std::ranges::reverse(chain);
  }
  if (meet(chain.back(), piece.back())) std::ranges::reverse(piece);
  if (!meet(chain.back(), piece.front())) return false;
  chain.insert(chain.end(), piece.begin() + 1, piece.end());
  return true;
}

Vec2 middle(const Outline& chain) { return chain[chain.size() / 2]; }

}  // namespace

std::vector<Outline> cushion_outlines(const engine::Table& table) {
  std::vector<Outline> pieces;
  for (const engine::Rail& rail : table.rails) {
    pieces.push_back(std::visit([](const auto& shape) { return outline_of(shape); }, rail));
  }

  std::vector<Outline> chains;
  while (!pieces.empty()) {
    Outline chain = pieces.back();
    pieces.pop_back();
    const auto grows = [&chain](const Outline& piece) { return join(chain, piece); };
    for (auto next = std::ranges::find_if(pieces, grows); next != pieces.end();
         next = std::ranges::find_if(pieces, grows)) {
      pieces.erase(next);
    }
    chains.push_back(chain);
  }

  const Vec2 centre{table.width_m / 2, table.length_m / 2};
  for (Outline& chain : chains) {
    if (engine::cross(chain.front() - centre, chain.back() - centre) < 0) {
      std::ranges::reverse(chain);
    }
  }
  std::ranges::sort(chains, {}, [centre](const Outline& chain) {
    return engine::angle_rad(middle(chain) - centre);
  });
  return chains;
}

}  // namespace ahead::lesson
