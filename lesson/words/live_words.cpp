#include "lesson/words/live_words.h"

#include <fmt/format.h>

#include "lesson/words/access_words.h"
#include "lesson/words/facts.h"
#include "lesson/words/pace.h"

namespace ahead::lesson {

StrikeWords strike_words(const engine::Strike& strike, const coach::Access& access,
                         const engine::Shot& intended, const coach::Layout& layout,
                         const coach::Player& player) {
  const StrikeFacts facts = strike_facts(strike, intended, layout.table);
  StrikeWords words{
      .strike = where_to_strike(facts),
      .pace = fmt::format("{}, {:.1f} m/s", pace_names[pace_of(facts.cue_ball_speed_mps)],
                          facts.cue_ball_speed_mps),
      .caution = raised_cue_caution(facts.elevation_deg)};
  words.access = access.blocked ? why_not_words(access, layout)
                                : access_sentence(access_facts(access, {}, layout, player));
  return words;
}

StrikeWords strike_words(const coach::ShotOption& option, const coach::Layout& layout,
                         const coach::Player& player) {
  StrikeWords words = strike_words(option.strike, option.access, option.intended, layout, player);
  words.thickness = thickness_words(option.thickness, option.cut_rad);
  return words;
}

}  // namespace ahead::lesson
