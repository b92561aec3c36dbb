#pragma once

#include "coach/aim/contact.h"

/// How full the cue ball meets a ball, as it is seen along the cue ball's way.
namespace ahead::coach {

struct Cut {
  double rad = 0;        ///< between the cue ball's way and the line of centres, 0 to pi/2
  bool to_left = false;  ///< the object ball leaves to the left of that way
  double thickness = 0;  ///< overlap seen along the way: 0 misses, 1 is full
};

/// `contact` is that with the ball at `object`.
[[nodiscard]] Cut cut_of(const engine::Table& table, const Contact& contact, engine::Vec2 object);

}  // namespace ahead::coach
