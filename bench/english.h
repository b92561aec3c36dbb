#pragma once

#include "engine/equipment/presets.h"
#include "engine/simulate/simulate.h"

namespace ahead::bench {

/// The table that every benchmark is played on.
inline const engine::Playfield& english() {
  static const engine::Playfield field(*engine::table_preset("english-7ft"));
  return field;
}

}  // namespace ahead::bench
