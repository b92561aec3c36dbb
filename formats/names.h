#pragma once

#include <array>
#include <string_view>

#include "coach/layout.h"
#include "coach/leaves/pot_analysis.h"
#include "coach/plan/plan.h"
#include "coach/trial/clearance.h"
#include "engine/simulate/shot.h"

/// How the files spell what the code has as an enumeration. Each list is in the order of its
/// enumeration, as engine::pocket_names is.
namespace ahead::formats {

inline constexpr std::array<std::string_view, 5> rules_names{"international", "world", "blackball",
                                                             "american-8ball", "snooker"};

inline constexpr std::array<std::string_view, 7> to_play_names{"red",   "yellow", "black",  "open",
                                                               "solid", "stripe", "colours"};

inline constexpr std::array<std::string_view, 3> effort_names{"quick", "normal", "deep"};

inline constexpr std::array<std::string_view, 2> hand_names{"right", "left"};

inline constexpr std::array<std::string_view, 2> bridge_habit_names{"open", "closed"};

inline constexpr std::array<std::string_view, 2> rest_names{"rest", "spider"};

inline constexpr std::array<std::string_view, 7> support_names{
    "open", "closed", "raised", "cushion", "rail", "rest", "spider"};

inline constexpr std::array<std::string_view, 6> blocked_names{
    "cue-meets-ball", "cue-meets-cushion", "no-room", "too-far", "bridge-too-low", "butt-too-high"};

inline constexpr std::array<std::string_view, 9> event_names{
    "strike", "ball-ball", "group", "cushion", "bed", "slide-to-roll", "stop", "pot", "off-table"};

inline constexpr std::array<std::string_view, 5> why_lost_names{
    "harder-pot", "more-fouls", "worse-position", "worse-rest", "too-close-to-call"};

inline constexpr std::array<std::string_view, 5> no_pot_names{"closed", "blocked", "cut-too-fine",
                                                              "no-access", "no-strike"};

inline constexpr std::array<std::string_view, 3> policy_names{"plan", "greedy", "onestep"};

inline constexpr std::array<std::string_view, coach::outcome_count> outcome_names{
    "cleared", "missed_pot", "lost_position", "in_off", "wrong_ball", "black", "no_pot"};

template <class Enum, std::size_t N>
constexpr std::string_view name_of(Enum value, const std::array<std::string_view, N>& names) {
  return names[static_cast<std::size_t>(value)];
}

constexpr std::string_view name_of(coach::Rules rules) { return name_of(rules, rules_names); }
constexpr std::string_view name_of(coach::ToPlay play) { return name_of(play, to_play_names); }
constexpr std::string_view name_of(coach::Hand hand) { return name_of(hand, hand_names); }
constexpr std::string_view name_of(coach::Support support) {
  return name_of(support, support_names);
}
constexpr std::string_view name_of(coach::Blocked why) { return name_of(why, blocked_names); }
constexpr std::string_view name_of(engine::EventKind kind) { return name_of(kind, event_names); }
constexpr std::string_view name_of(coach::WhyLost why) { return name_of(why, why_lost_names); }
constexpr std::string_view name_of(coach::NoPot why) { return name_of(why, no_pot_names); }
constexpr std::string_view name_of(coach::Policy policy) { return name_of(policy, policy_names); }
constexpr std::string_view name_of(coach::Outcome outcome) {
  return name_of(outcome, outcome_names);
}
constexpr std::string_view name_of(engine::PocketName name) {
  return name_of(name, engine::pocket_names);
}

}  // namespace ahead::formats
