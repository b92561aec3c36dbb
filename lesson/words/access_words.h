#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "coach/access/face.h"
#include "coach/layout.h"
#include "coach/player/player.h"

/// How the cue is brought to the ball, in words: what is in the way, which hand, which bridge.
namespace ahead::lesson {

/// Read off a strike's access; balls have names here.
struct AccessFacts {
  double elevation_deg = 0;
  std::string raised_by;  ///< "red 3", "the cushion"; empty when nothing asks for it
  coach::Support support{};
  coach::Hand hand{};
  std::string_view own_hand;    ///< "right" or "left"
  double stretch = 0;           ///< 0 to 1
  double error_factor = 1;      ///< on the direction, the raised butt included
  std::string not_own_hand;     ///< "too far to reach"; empty for the player's own bridge
  double lost_share = 0;        ///< of the face that cannot be played
  std::string_view lost_where;  ///< "low", "to the right", ...; empty when it is no one side
  std::string lost_because;     ///< "the cue would touch red 3"
};

/// `before` is the layout in which the access counts balls.
[[nodiscard]] AccessFacts access_facts(const coach::Access& access, const coach::Face& face,
                                       const coach::Layout& before, const coach::Player& player);

/// "No room for the hand behind the cue ball (red 3): use the rest. ..." Empty when the strike is
/// plain and the whole face is open.
[[nodiscard]] std::string access_sentence(const AccessFacts& facts);

/// "open bridge", "rest", "raised bridge, left hand"; the hand is told when it is not the own one.
[[nodiscard]] std::string carried_words(const AccessFacts& facts);

/// Why a strike is blocked or not recommended: "the cue would touch red 3".
[[nodiscard]] std::string why_not_words(const coach::Access& access, const coach::Layout& before);

/// What a coach says first about a raised cue; empty below 15 degrees. Above 30 the cloth is at
/// risk (common practice, no source).
[[nodiscard]] std::string raised_cue_caution(double elevation_deg);

}  // namespace ahead::lesson
