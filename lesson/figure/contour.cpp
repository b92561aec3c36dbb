#include "lesson/figure/contour.h"

#include <algorithm>
#include <array>
#include <map>

namespace ahead::lesson {
namespace {

using engine::Vec2;

/// An edge of the lattice: from node (column, row) to the right, or upwards.
struct Edge {
  int column = 0;
  int row = 0;
  bool upwards = false;

  friend auto operator<=>(const Edge&, const Edge&) = default;
};

/// The edges of the square whose lower left node is (c, r): below, right, above, left.
std::array<Edge, 4> edges_of(int c, int r) {
  return {Edge{c, r, false}, Edge{c + 1, r, true}, Edge{c, r + 1, false}, Edge{c, r, true}};
}

Vec2 crossing(const Lattice& lattice, double level, const Edge& edge) {
  const int c1 = edge.column + (edge.upwards ? 0 : 1);
  const int r1 = edge.row + (edge.upwards ? 1 : 0);
  const double a = lattice.at(edge.column, edge.row);
  const double b = lattice.at(c1, r1);
  const double f = (level - a) / (b - a);
  const Vec2 along = edge.upwards ? Vec2{0, f} : Vec2{f, 0};
  const Vec2 node{static_cast<double>(edge.column), static_cast<double>(edge.row)};
  return lattice.origin_m + lattice.spacing_m * (node + along);
}

/// Where the line goes on: from the edge by which it enters a square to the one by which it leaves.
using Steps = std::map<Edge, Edge>;

/// The line keeps the high corners on its left. `low_to_high[k]`: going round the square counter-
/// clockwise, edge k rises through the level (the line leaves there); `high_to_low`: it enters.
void add_square(const Lattice& lattice, double level, int c, int r, Steps& steps) {
  const std::array<double, 4> corner{lattice.at(c, r), lattice.at(c + 1, r),
                                     lattice.at(c + 1, r + 1), lattice.at(c, r + 1)};
  const auto is_high = [level](double value) { return value >= level; };
  // The line crosses few squares, and this is asked of all.
  if (std::ranges::all_of(corner, is_high) || std::ranges::none_of(corner, is_high)) return;
  const std::array<Edge, 4> edge = edges_of(c, r);
  const auto high = [&](std::size_t k) { return corner[k % 4] >= level; };
  const bool middle_high = (corner[0] + corner[1] + corner[2] + corner[3]) / 4 >= level;
  for (std::size_t k = 0; k < 4; ++k) {
    if (!high(k) || high(k + 1)) continue;
    // Entering at a falling edge. Leave at the next rising edge: counter-clockwise onwards past low
    // corners when the middle is high, which joins the high corners, else the one just behind.
    for (std::size_t j = 1; j < 4; ++j) {
      const std::size_t out = middle_high ? (k + j) % 4 : (k + 4 - j) % 4;
      if (!high(out) && high(out + 1)) {
        steps[edge[k]] = edge[out];
        break;
      }
    }
  }
}

}  // namespace

std::vector<Ring> contour(const Lattice& lattice, double level) {
  Steps steps;
  for (int r = 0; r + 1 < lattice.rows; ++r) {
    for (int c = 0; c + 1 < lattice.columns; ++c) add_square(lattice, level, c, r, steps);
  }
  std::vector<Ring> rings;
  while (!steps.empty()) {
    Ring ring;
    for (auto step = steps.begin(); step != steps.end();) {
      ring.push_back(crossing(lattice, level, step->first));
      const Edge next = step->second;
      steps.erase(step);
      step = steps.find(next);
    }
    rings.push_back(std::move(ring));
  }
  return rings;
}

bool inside(const std::vector<Ring>& rings, Vec2 place) {
  bool odd = false;
  for (const Ring& ring : rings) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Vec2 a = ring[i];
      const Vec2 b = ring[(i + 1) % ring.size()];
      if ((a.y > place.y) == (b.y > place.y)) continue;
      if (place.x < a.x + (place.y - a.y) / (b.y - a.y) * (b.x - a.x)) odd = !odd;
    }
  }
  return odd;
}

}  // namespace ahead::lesson
