#pragma once

#include <span>
#include <vector>

#include "coach/pots/gate.h"
#include "coach/pots/sent_ball.h"

/// The balls that a line of errors sends, and the share of them that drops.
///
/// The contact is found at some places of the line; in between, direction, speed and the cue ball's
/// way are straight lines. Where the cue ball begins to miss is found by halving. Sigmas along the
/// line, else SI.
namespace ahead::coach {

/// What a ball has to pass.
struct PotTest {
  const PotGates* gates = nullptr;
  double meant_rad = 0;  ///< the direction that Sent is counted from
  Gate free;             ///< turns of the cue ball's way with which it meets no other ball first
};

/// Whether a ball sent so drops.
[[nodiscard]] bool passes(const PotTest& test, const Sent& sent);

/// From one place of a line of errors to another, in sigmas.
struct Stretch {
  double from = 0;
  double to = 0;
};

class SentLine {
 public:
  /// `nodes`: rising sigmas at which the contact is found; the outermost two are far out, and
  /// reached straight on.
  SentLine(const SentBall& ball, const ErrorLine& line, std::span<const double> nodes);

  [[nodiscard]] bool empty() const { return points_.empty(); }
  /// Requires that it is not empty.
  [[nodiscard]] Sent at(double sigmas) const;

  /// What an error across the line does: it moves the places along it and makes the ball faster.
  struct Shift {
    double moved = 0;
    double faster = 1;
  };

  /// The share of errors along the line, normal about zero and kept to `holding`, with which the
  /// ball drops.
  [[nodiscard]] double dropping(const PotTest& test, const Stretch& holding,
                                const Shift& shift) const;

 private:
  /// A place of the line and the ball that it sends.
  struct SentAt {
    double error = 0;
    Sent sent;
    bool joined = false;  ///< with the place before: in between the ball is met as well
  };

  [[nodiscard]] static Sent between(const SentAt& a, const SentAt& b, double error);
  void add(const SentBall& ball, const ErrorLine& line, std::span<const double> nodes);
  void add_ends(std::span<const double> nodes);
  [[nodiscard]] double dropping(const PotTest& test, const PotGates::Lane& lane,
                                const Stretch& holding, const Shift& shift) const;

  std::vector<SentAt> points_;
};

}  // namespace ahead::coach
