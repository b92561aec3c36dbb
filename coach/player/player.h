#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "engine/equipment/surfaces.h"

/// Who plays, and how far from the intended strike the played one falls.
///
/// Each error is normal, with one sigma and a bias (mean), and says where its figure comes from.
/// `direction` is the net error of the cue ball's path off the tip: deflection by a sideways
/// scatter of the tip is already in it. The tip errors change spin, not the launch direction.
namespace ahead::coach {

struct Error {
  double sigma = 0;
  double bias = 0;
  std::string source;  ///< a citation, or "assumption"

  friend bool operator==(const Error&, const Error&) = default;
};

/// A factor on the errors when the strike is made under a handicap.
struct Handicap {
  double factor = 1;
  std::string source = "assumption (common practice, no source)";

  friend bool operator==(const Handicap&, const Handicap&) = default;
};

enum class Hand { right, left };

/// The player's own cue: what of its shape decides where it can go.
struct OwnCue {
  double length_m = 1.45;
  double butt_width_m = 0.029;  ///< diameter at the butt's end
  double parallel_m = 0;        ///< from the tip, the shaft is as wide as the tip; then even taper
  std::optional<double> tip_width_m;  ///< else that of the table's cue
  std::optional<double> mass_kg;      ///< else that of the table's cue

  friend bool operator==(const OwnCue&, const OwnCue&) = default;
};

/// Heights over what the hand stands on at which the cue can lie in it, m.
struct Heights {
  double low_m = 0;
  double high_m = 0;

  friend bool operator==(const Heights&, const Heights&) = default;
};

/// How the player carries the cue. Defaults: common practice, no source.
struct Bridging {
  bool closed = false;          ///< a finger looped over the cue; else open, the cue in a V
  Heights flat{0.020, 0.045};   ///< the hand flat
  Heights raised{0.045, 0.11};  ///< the hand on its fingertips
  bool rest = true;             ///< has the ordinary rest
  bool spider = true;           ///< has the tall rest
  double extension_m = 0;       ///< what can be put on the butt when the rest is used

  friend bool operator==(const Bridging&, const Bridging&) = default;
};

struct Player {
  std::string id;
  Hand hand = Hand::right;
  double reach_m = 0.95;  ///< of the bridge hand past the table's outer edge
  double height_m = 1.75;
  OwnCue cue;
  Bridging bridging;
  Error direction_rad;
  Error pace;  ///< fraction of the cue's speed
  Error tip_height_m;
  Error tip_side_m;
  Error elevation_rad;
  Handicap raised;  ///< on the direction when the butt is raised by 20 degrees or more
  /// On direction and tip, for the way in which the cue is carried (access/access.h).
  Handicap raised_bridge{.factor = 1.15};
  Handicap cushion_bridge{.factor = 1.1};  ///< the hand on the cushion or the rail
  Handicap stretched{.factor = 1.6};       ///< at the end of the reach
  Handicap rest{.factor = 1.5};            ///< rest or spider
  Handicap other_hand{.factor = 2.5};

  friend bool operator==(const Player&, const Player&) = default;
};

/// The cue that the player plays with: the table's, with the tip and the weight of the own one.
[[nodiscard]] engine::Cue cue_of(const Player& player, const engine::Cue& of_table);

/// novice, club, county, professional.
[[nodiscard]] std::span<const std::string_view> player_preset_ids();
[[nodiscard]] std::optional<Player> player_preset(std::string_view id);

}  // namespace ahead::coach
