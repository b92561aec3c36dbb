#include "lesson/told/result_known.h"

#include <cmath>
#include <string>

#include "lesson/told/measure.h"
#include "lesson/words/after_words.h"

namespace ahead::lesson {

Known result_known(const coach::ShotResult& result, Units units) {
  Known known;
  known.when(result.potted, "went in");
  known.when(!result.cue.has_value(), "in-off");
  if (result.cue && result.leave) {
    const auto [along_m, across_m] = *result.leave;
    const double off_m = std::hypot(along_m, across_m);
    constexpr double close_m = 0.040;
    known.when(off_m < close_m, "close");
    known.say("off by", length_words(std::max(0.01, off_m), units), "/leave");
    const bool lengthwise = std::abs(along_m) >= std::abs(across_m);
    known.say("way",
              lengthwise ? (along_m > 0 ? "too far" : "short")
                         : (across_m > 0 ? "too far to the left" : "too far to the right"),
              "/leave");
  }
  if (result.slip) {
    const coach::Estimate& estimate = result.estimate;
    known.say("slip", slip_words(*result.slip, estimate.best), "/strike/slip");
    known.say("slip interval", slip_interval_words(*result.slip, estimate.low, estimate.high),
              "/strike/slip");
  }
  return known;
}

}  // namespace ahead::lesson
