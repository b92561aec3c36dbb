#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "capture/camera/camera.h"
#include "capture/picture/picture.h"
#include "engine/equipment/table.h"

/// Drawings on the bed, laid over the photograph in its own perspective and through its lens.
namespace ahead::capture {

/// Something drawn on the cloth: pieces of one colour that may overlap. Each piece is a convex
/// polygon on the bed, in metres.
struct BedMark {
  std::vector<std::vector<Vec2>> pieces;
  std::array<std::uint8_t, 3> bgr{};
  double opacity = 1;
};

/// A line of this width through the points, as a mark's pieces, none longer than a centimetre, so
/// that the lens may bend it.
[[nodiscard]] std::vector<std::vector<Vec2>> line_pieces(std::span<const Vec2> points,
                                                         double width_m);

/// A ball that stands before what is drawn behind it.
struct Standing {
  Vec2 at;
  double radius_m = 0;
};

struct Overlay {
  Picture colour;
  std::vector<std::uint8_t> cover;  ///< a byte a pixel: 0 nothing drawn, 255 nothing seen through
};

/// Later marks lie above earlier ones; balls hide what lies behind them.
[[nodiscard]] Overlay overlay_of(const Camera& camera, std::span<const BedMark> marks,
                                 std::span<const Standing> balls);

/// Requires a picture of the overlay's size.
[[nodiscard]] Picture laid_over(Picture photograph, const Overlay& overlay);

/// The bed as seen from straight above, baulk end at the bottom, `px_per_m` pixels a metre, with a
/// rim of `rim_m` around it. What stands up (balls, cushions) leans away from the camera.
[[nodiscard]] Picture plan_view(const Picture& photograph, const Camera& camera,
                                const engine::Table& table, double px_per_m, double rim_m = 0.06);

}  // namespace ahead::capture
