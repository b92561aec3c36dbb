#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "coach/access/face.h"
#include "coach/live/live_shot.h"
#include "coach/plan/plan.h"

/// What the page is answered, as JSON text. The keys stand in server/openapi.json.
namespace ahead::formats {

/// Lines around the landings, SI.
struct Contours {
  std::vector<std::vector<engine::Vec2>> half;
  std::vector<std::vector<engine::Vec2>> most;
};

[[nodiscard]] std::string contours_text(const Contours& contours);

/// The paths of every ball that moves, and the events. `before` names the balls of the shot.
[[nodiscard]] std::string moves_text(const engine::Shot& shot, const coach::Layout& before);

[[nodiscard]] std::string face_text(const coach::Face& face, const coach::Layout& before);

/// The layout without the indentation of a file.
[[nodiscard]] std::string layout_text(const coach::Layout& layout);

/// The table after a shot: balls that went are left out, and the black is to play when it is the
/// last. "null" when the cue ball went or nothing is left to play.
[[nodiscard]] std::string layout_after_text(const coach::Layout& before,
                                            const coach::Position& leaves);

/// An option of a plan or an analysis.
[[nodiscard]] std::string option_text(const coach::ShotOption& option, const coach::Layout& before);

/// "null" without one.
[[nodiscard]] std::string no_pot_text(const std::optional<coach::NoPot>& why, bool on,
                                      coach::BallSet blockers, const coach::Layout& layout,
                                      std::string_view detail);

/// How far a strike may slip and what then happens.
[[nodiscard]] std::string leave_facts_text(const coach::LeaveFacts& facts);
/// The same after a quick search: the chance only.
[[nodiscard]] std::string quick_leave_text(const coach::Chance& lands);

/// The parts of a live answer that others have made.
struct LiveParts {
  std::string no_pot;  ///< no_pot_text()
  std::string words;   ///< an object of texts, or "null"
  Contours contours;
  coach::Face face;  ///< empty unless it was asked for
};
[[nodiscard]] std::string live_shot_text(const coach::LiveShot& shot,
                                         const coach::LiveQuestion& question,
                                         const coach::Layout& layout, const LiveParts& parts);

[[nodiscard]] std::string plain_pots_text(const std::vector<coach::PlainPot>& pots,
                                          const coach::Layout& layout);

}  // namespace ahead::formats
