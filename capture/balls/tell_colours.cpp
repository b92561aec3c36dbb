#include "capture/balls/tell_colours.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

#include "capture/picture/mat.h"

namespace ahead::capture {
namespace {

using coach::Colour;

/// What the pixels of a ball look like, as shares of those that can be judged.
struct Look {
  double white = 0;
  double dark = 0;
  double red = 0;
  double yellow = 0;
  double coloured = 0;  ///< of any hue
};

std::vector<Colour3> pixels_of(const cv::Mat& picture, const Camera& camera,
                               std::span<const FoundBall> balls, std::size_t one) {
  const auto distance = [&](const FoundBall& ball) {
    return norm(engine::lift(ball.fit.at, ball.radius_m) - camera.at);
  };
  struct Disc {
    Vec2 middle;
    double radius;
  };
  std::vector<Disc> discs;
  for (std::size_t i = 0; i < balls.size(); ++i) {
    if (i == one || distance(balls[i]) >= distance(balls[one])) continue;
    if (const auto at = pixel_of(camera, engine::lift(balls[i].fit.at, balls[i].radius_m))) {
      discs.push_back({*at, balls[i].fit.apparent_px + 1});
    }
  }
  std::vector<Colour3> pixels;
  const FoundBall& ball = balls[one];
  const Vec3 centre = engine::lift(ball.fit.at, ball.radius_m);
  const auto middle = pixel_of(camera, centre);
  if (!middle) return pixels;
  for (const Vec2 rim : outline_of(camera, centre, ball.radius_m, 32)) {
    // Equal areas: the square roots of equal steps.
    for (const double share : {0.2, 0.35, 0.45, 0.53, 0.6, 0.66, 0.72, 0.77, 0.82}) {
      const Vec2 at = *middle + share * (rim - *middle);
      if (!inside(picture, at)) continue;
      if (std::ranges::any_of(
              discs, [&](const Disc& disc) { return norm(at - disc.middle) < disc.radius; })) {
        continue;
      }
      pixels.push_back(sampled<Colour3>(picture, at));
    }
  }
  return pixels;
}

float brightest(const Colour3& c) { return std::max({c[0], c[1], c[2]}); }

/// How bright the lit side of a white or yellow ball is: a high percentile over all balls.
float light_of(const std::vector<std::vector<Colour3>>& balls) {
  std::vector<float> values;
  for (const auto& pixels : balls) {
    for (const Colour3& pixel : pixels) values.push_back(brightest(pixel));
  }
  if (values.empty()) return 200;
  const auto at =
      values.begin() + static_cast<std::ptrdiff_t>(0.93 * static_cast<double>(values.size()));
  std::ranges::nth_element(values, at);
  return std::max(*at, 60.0F);
}

Look look_of(const std::vector<Colour3>& pixels, float light) {
  Look look;
  double count = 0;
  for (const Colour3& c : pixels) {
    const float most = brightest(c);
    const float least = std::min({c[0], c[1], c[2]});
    const float saturation = most > 0 ? (most - least) / most : 0;
    count += 1;
    if (most < 0.36F * light) {
      look.dark += 1;
      continue;
    }
    if (saturation < 0.38F) {
      look.white += most > 0.5F * light ? 1 : 0;
      continue;
    }
    look.coloured += 1;
    // Hue in degrees from red towards green; blue side negative.
    const float blue = c[0];
    const float green = c[1];
    const float red = c[2];
    const double hue =
        std::atan2(std::numbers::sqrt3_v<float> * (green - blue), 2 * red - green - blue) * 180 /
        std::numbers::pi;
    if (saturation < 0.5F) continue;  // skin and wood are duller than balls
    if (std::abs(hue) < 24) look.red += 1;
    if (hue >= 24 && hue < 75) look.yellow += 1;
  }
  if (count > 0) {
    for (double* share : {&look.white, &look.dark, &look.red, &look.yellow, &look.coloured}) {
      *share /= count;
    }
  }
  return look;
}

struct Claim {
  Colour colour{};
  double weight = 0;
};

std::vector<Claim> claims_of(const Look& look, BallSet set) {
  // The dark side of a coloured ball is dark too: darkness speaks for the black only beyond it.
  const double black = std::max(0.0, look.dark - 1.2 * (look.coloured + look.white));
  constexpr double doubt = 0.03;
  if (set == BallSet::english) {
    return {{Colour::cue, look.white + doubt},
            {Colour::red, look.red + doubt},
            {Colour::yellow, look.yellow + doubt},
            {Colour::black, black + doubt}};
  }
  const double lit = std::max(look.white + look.coloured, 0.05);
  const double white = look.white / lit;
  const auto near = [](double value, double from, double to, double soft) {
    const double off = std::max({0.0, from - value, value - to});
    return std::exp(-off * off / (2 * soft * soft));
  };
  return {{Colour::cue, (1 - black) * near(white, 0.90, 1, 0.05) + doubt},
          {Colour::solid, (1 - black) * near(white, 0, 0.14, 0.04) + doubt},
          {Colour::stripe, (1 - black) * near(white, 0.24, 0.80, 0.04) + doubt},
          {Colour::black, black + doubt}};
}

std::size_t most_of(Colour colour) {
  return colour == Colour::cue || colour == Colour::black ? 1 : 7;
}

}  // namespace

std::vector<ToldColour> tell_colours(const cv::Mat& picture, const Camera& camera,
                                     std::span<const FoundBall> balls, BallSet set) {
  std::vector<std::vector<Colour3>> pixels;
  for (std::size_t i = 0; i < balls.size(); ++i) {
    pixels.push_back(pixels_of(picture, camera, balls, i));
  }
  const float light = light_of(pixels);
  std::vector<std::vector<Claim>> claims;
  for (const auto& one : pixels) {
    claims.push_back(claims_of(look_of(one, light), set));
    std::ranges::stable_sort(claims.back(), std::ranges::greater{}, &Claim::weight);
  }

  // Each ball takes its best claim; a colour that is over its number lets its weakest go to their
  // next claim, until nothing is over.
  std::vector<std::size_t> taken(balls.size(), 0);
  for (bool changed = true; changed;) {
    changed = false;
    for (const Claim& kind : claims.empty() ? std::vector<Claim>{} : claims.front()) {
      std::vector<std::size_t> holders;
      for (std::size_t i = 0; i < claims.size(); ++i) {
        if (claims[i][taken[i]].colour == kind.colour) holders.push_back(i);
      }
      if (holders.size() <= most_of(kind.colour)) continue;
      const auto weakest = *std::ranges::min_element(holders, {}, [&](std::size_t i) {
        const double next = taken[i] + 1 < claims[i].size() ? claims[i][taken[i] + 1].weight : 0;
        return claims[i][taken[i]].weight - next;
      });
      if (taken[weakest] + 1 >= claims[weakest].size()) continue;
      ++taken[weakest];
      changed = true;
    }
  }

  constexpr double plenty = 0.3;  // the lit part of a ball in shade
  std::vector<ToldColour> told;
  for (std::size_t i = 0; i < claims.size(); ++i) {
    const double mine = claims[i][taken[i]].weight;
    double rival = 0;
    for (std::size_t k = 0; k < claims[i].size(); ++k) {
      if (k != taken[i]) rival = std::max(rival, claims[i][k].weight);
    }
    told.push_back({.colour = claims[i][taken[i]].colour,
                    .confidence = mine / (mine + rival),
                    .evidence = std::min(1.0, mine / plenty)});
  }
  return told;
}

}  // namespace ahead::capture
