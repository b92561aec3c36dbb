#include "formats/moment.h"

#include <utility>

#include <nlohmann/json.hpp>

#include "formats/json_print.h"
#include "formats/shot_option.h"

namespace ahead::formats {

using nlohmann::ordered_json;

coach::Moment moment_of(const Field& field, const coach::Layout& before) {
  const Keys keys(field, {"key_ball", "goes_from", "cover", "frees"});
  constexpr Range share{.least = 0, .most = 1, .decimals = 4};
  constexpr Count balls{.least = 0, .most = 32, .words = "up to 32 balls"};
  coach::Moment moment{.key_ball = keys.required("key_ball").truth(),
                       .goes_from = keys.required("goes_from").number(share)};
  const Field cover = keys.required("cover");
  if (!cover.is_null()) moment.cover = ball_among(cover, before);
  for (const Field& ball : keys.required("frees").items(balls)) {
    moment.frees.push_back(ball_among(ball, before));
  }
  return moment;
}

ordered_json json_of(const coach::Moment& moment, const coach::Layout& before) {
  ordered_json frees = ordered_json::array();
  for (const int ball : moment.frees) frees.push_back(id_of(before, ball));
  return {
      {"key_ball", moment.key_ball},
      {"goes_from", rounded(moment.goes_from, 4)},
      {"cover", moment.cover ? ordered_json(id_of(before, *moment.cover)) : ordered_json(nullptr)},
      {"frees", std::move(frees)}};
}

}  // namespace ahead::formats
