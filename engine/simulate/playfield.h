#pragma once

#include "engine/contact/rolling_rebound.h"
#include "engine/equipment/table.h"
#include "engine/geometry/box.h"
#include "engine/simulate/nose_line.h"

/// A table with all that can be prepared once, for many shots. SI, frame of the table.
namespace ahead::engine {

/// A ball and how this table's cushions answer it.
struct Runner {
  Ball ball;
  double reach_m = 0;  ///< plan distance from its centre to the nose line when it touches
  RollingRebound rebound;
};

class Playfield {
 public:
  explicit Playfield(Table table);

  [[nodiscard]] const Table& table() const { return table_; }
  [[nodiscard]] const NoseLine& nose() const { return nose_; }
  [[nodiscard]] const Runner& cue_ball() const { return cue_ball_; }
  [[nodiscard]] const Runner& object_ball() const { return object_ball_; }
  /// Ball 0 is the cue ball.
  [[nodiscard]] const Runner& runner(int ball) const {
    return ball == 0 ? cue_ball_ : object_ball_;
  }

  /// No ball whose centre stays in here meets a nose or drops.
  [[nodiscard]] const Box& open_bed() const { return open_bed_; }

 private:
  Table table_;
  NoseLine nose_;
  Runner cue_ball_;
  Runner object_ball_;
  Box open_bed_;
};

}  // namespace ahead::engine
