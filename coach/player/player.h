#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

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
  std::string source;

  friend bool operator==(const Handicap&, const Handicap&) = default;
};

enum class Hand { right, left };

struct Player {
  std::string id;
  Hand hand = Hand::right;
  double reach_m = 0.95;  ///< of the bridge hand past the table's outer edge
  Error direction_rad;
  Error pace;  ///< fraction of the cue's speed
  Error tip_height_m;
  Error tip_side_m;
  Error elevation_rad;
  Handicap raised;  ///< on the direction when the butt is raised by 20 degrees or more

  friend bool operator==(const Player&, const Player&) = default;
};

/// novice, club, county, professional.
[[nodiscard]] std::span<const std::string_view> player_preset_ids();
[[nodiscard]] std::optional<Player> player_preset(std::string_view id);

}  // namespace ahead::coach
