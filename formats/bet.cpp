#include "formats/bet.h"

#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "coach/access/access.h"
#include "formats/access.h"
#include "formats/json_print.h"
#include "formats/names.h"
#include "formats/shot_option.h"
#include "formats/units.h"
#include "formats/values.h"

namespace ahead::formats {
namespace {

using formats::json_of;
using nlohmann::ordered_json;

ordered_json fraction(double value) { return rounded(value, 4); }

constexpr Range share{.least = 0, .most = 1, .decimals = 4};
constexpr Range cut{.least = 0, .most = 90, .unit = "degrees", .decimals = 3};
constexpr std::uint64_t most_tries = 1'000'000'000;

ordered_json json_of(const coach::SafePlay& safe, const coach::Layout& layout) {
  ordered_json json;
  json["ball"] = layout.balls[static_cast<std::size_t>(safe.ball)].id;
  json["pocket"] =
      safe.pocket
          ? ordered_json(name_of(layout.table.pockets[static_cast<std::size_t>(*safe.pocket)].name))
          : ordered_json(nullptr);
  json["strike"] = json_of(safe.strike);
  json["access"] = json_of(safe.access, layout);
  json["cut_deg"] = rounded(degrees(safe.cut_rad), 3);
  json["cut_to_left"] = safe.cut_to_left;
  json["thickness"] = fraction(safe.thickness);
  json["pots"] = fraction(safe.pots);
  json["foul"] = fraction(safe.foul);
  json["opponent_clears"] = fraction(safe.clears);
  json["opponent_pots"] = fraction(safe.best_pot);
  json["tries"] = safe.tries;
  return json;
}

coach::SafePlay safe_play_of(const Field& field, const coach::Layout& layout,
                             const coach::Scene& scene) {
  const Keys keys(
      field, {"ball", "pocket", "strike", "access", "cut_deg", "cut_to_left", "thickness", "pots",
              "foul", "opponent_clears", "opponent_pots", "tries"});
  coach::SafePlay safe{.ball = ball_among(keys.required("ball"), layout),
                       .strike = bare_strike_of(keys.required("strike"), layout.table.cue),
                       .thickness = keys.required("thickness").number(share),
                       .cut_rad = rad_of_deg * keys.required("cut_deg").number(cut),
                       .cut_to_left = keys.required("cut_to_left").truth(),
                       .foul = keys.required("foul").number(share),
                       .clears = keys.required("opponent_clears").number(share),
                       .best_pot = keys.required("opponent_pots").number(share),
                       .tries = static_cast<int>(keys.required("tries").whole(most_tries))};
  if (const auto pocket = keys.optional("pocket"); pocket && !pocket->is_null()) {
    safe.pocket = pocket_among(*pocket, layout.table);
  }
  safe.pots = keys.number_or("pots", share, 0);
  const Field access = keys.required("access");
  if (!access.is_object()) access.refuse_kind("an object in braces");
  const coach::Position position = coach::position_of(layout);
  safe.intended = coach::play(scene.field, position, safe.strike).shot;
  safe.access = coach::access(scene, position, safe.strike);
  return safe;
}

}  // namespace

ordered_json json_of(const coach::Bet& bet, const coach::Layout& layout) {
  ordered_json json;
  json["bad"] = bet.bad();
  json["attack"] = fraction(bet.attack);
  json["defence"] = fraction(bet.defence);
  json["after_failure"] = fraction(bet.after_failure);
  json["safe"] = json_of(bet.safe, layout);
  return json;
}

coach::Bet bet_of(const Field& field, const coach::Layout& layout, const coach::Scene& scene) {
  const Keys keys(field, {"bad", "attack", "defence", "after_failure", "safe"});
  static_cast<void>(keys.required("bad").truth());  // follows from the two shares
  return {.after_failure = keys.required("after_failure").number(share),
          .safe = safe_play_of(keys.required("safe"), layout, scene),
          .attack = keys.required("attack").number(share),
          .defence = keys.required("defence").number(share)};
}

}  // namespace ahead::formats
