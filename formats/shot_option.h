#pragma once

#include <nlohmann/json_fwd.hpp>

#include "coach/layout.h"
#include "coach/pots/shot_option.h"
#include "formats/field.h"

/// A way to play, as plans and pot analyses hold it. Private to this room.
namespace ahead::formats {

[[nodiscard]] nlohmann::ordered_json json_of(const coach::Chance& chance);

[[nodiscard]] const std::string& id_of(const coach::Layout& layout, int ball);
/// One of a layout's balls, by its id; not the cue ball.
[[nodiscard]] int ball_among(const Field& field, const coach::Layout& layout);
/// One of a table's pockets, by its name.
[[nodiscard]] int pocket_among(const Field& field, const engine::Table& table);
[[nodiscard]] coach::Chance chance_of(const Field& field);

/// `before` is the layout that the option's balls are counted in, `scene` the same with the player.
/// The intended shot is played and its access worked out anew: what the file says of the access is
/// left aside. The keys may stand in an object of their own, or among others.
[[nodiscard]] coach::ShotOption option_of(const Field& field, const coach::Layout& before,
                                          const coach::Scene& scene);
[[nodiscard]] coach::ShotOption option_of(const Keys& keys, const coach::Layout& before,
                                          const coach::Scene& scene);

/// `before` is the layout that the option's balls are counted in.
[[nodiscard]] nlohmann::ordered_json json_of(const coach::ShotOption& option,
                                             const coach::Layout& before);
[[nodiscard]] nlohmann::ordered_json json_but_landings(const coach::ShotOption& option,
                                                       const coach::Layout& before);

}  // namespace ahead::formats
