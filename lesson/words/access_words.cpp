#include "lesson/words/access_words.h"

#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "coach/player/scatter.h"
#include "lesson/words/names.h"

namespace ahead::lesson {
namespace {

using coach::Access;
using coach::Blocked;
using coach::InTheWay;
using coach::Support;

constexpr double degree_rad = std::numbers::pi / 180;

std::string name_of_ball(const coach::Layout& layout, int ball) {
  return ball_name(layout.balls[static_cast<std::size_t>(ball)].id);
}

std::string obstacle(InTheWay what, int ball, const coach::Layout& layout) {
  switch (what) {
    case InTheWay::ball:
      return name_of_ball(layout, ball);
    case InTheWay::cushion:
      return "the cushion";
    case InTheWay::rail:
      return "the rail";
    case InTheWay::nothing:
      break;
  }
  return {};
}

std::string reason_words(const coach::Reason& reason, const coach::Layout& layout) {
  const std::string ball = reason.ball == 0 ? "" : name_of_ball(layout, reason.ball);
  switch (reason.why) {
    case Blocked::cue_meets_ball:
      return fmt::format("the cue would touch {}", ball);
    case Blocked::cue_meets_cushion:
      return "the cue would touch the cushion";
    case Blocked::no_room:
      return ball.empty() ? "no ground for the hand behind the cue ball"
                          : fmt::format("no room for the hand behind the cue ball ({})", ball);
    case Blocked::too_far:
      return "too far to reach";
    case Blocked::bridge_too_low:
      return fmt::format("no bridge is high enough to clear {}",
                         ball.empty() ? "the cushion" : ball);
    case Blocked::butt_too_high:
      break;
  }
  return "the butt cannot be held that high";
}

/// Which part of the face is lost, when it is clearly one.
std::string_view where(const coach::FaceLoss& loss) {
  constexpr double clearly = 0.08;  // of the radius, off the middle
  if (loss.height < -clearly && std::abs(loss.height) > std::abs(loss.side)) return "low";
  if (loss.height > clearly && loss.height > std::abs(loss.side)) return "high";
  if (loss.side > clearly) return "to the right";
  if (loss.side < -clearly) return "to the left";
  return {};
}

std::string share_words(double share) {
  if (share > 0.99) return "the whole face";
  if (share > 0.85) return "most of the face";
  if (share > 0.6) return "about two thirds of the face";
  if (share > 0.42) return "about half of the face";
  if (share > 0.28) return "about a third of the face";
  if (share > 0.15) return "about a fifth of the face";
  return "the edge of the face";
}

std::string_view hand_name(coach::Hand hand) {
  return hand == coach::Hand::right ? "right" : "left";
}

std::string_view bridge_words(Support support) {
  constexpr std::array<std::string_view, 7> words{
      "open bridge",      "closed bridge", "raised bridge", "hand on the cushion",
      "hand on the rail", "rest",          "spider"};
  return words[static_cast<std::size_t>(support)];
}

/// A level cue is up by a few degrees anyway, for the rail behind it.
constexpr double notable_deg = 8;

std::string support_sentence(const AccessFacts& facts) {
  if (!facts.not_own_hand.empty()) {
    const bool rest = facts.support == Support::rest || facts.support == Support::spider;
    return fmt::format("{}: {}.", capitalised(facts.not_own_hand),
                       rest ? fmt::format("use the {}", bridge_words(facts.support))
                            : fmt::format("play it with the {} hand, {}", hand_name(facts.hand),
                                          bridge_words(facts.support)));
  }
  std::string words;
  if (facts.elevation_deg >= notable_deg) {
    words = fmt::format("{} asks for the butt {:.0f}° up: {}.",
                        facts.raised_by.empty() ? "The bridge" : capitalised(facts.raised_by),
                        facts.elevation_deg, bridge_words(facts.support));
  }
  constexpr double notable_stretch = 0.5;
  if (facts.stretch >= notable_stretch) {
    words += fmt::format("{}The {} hand only just reaches it.", words.empty() ? "" : " ",
                         facts.own_hand);
  }
  return words;
}

}  // namespace

std::string carried_words(const AccessFacts& facts) {
  const bool own = hand_name(facts.hand) == facts.own_hand;
  return fmt::format("{}{}", bridge_words(facts.support),
                     own ? "" : fmt::format(", {} hand", hand_name(facts.hand)));
}

std::string why_not_words(const Access& access, const coach::Layout& before) {
  if (access.blocked) return reason_words(*access.blocked, before);
  const std::string over = obstacle(access.raised_by, access.raised_by_ball, before);
  return fmt::format("the butt would be more than {:.0f}° up{}",
                     coach::highest_elevation_rad / degree_rad,
                     over.empty() ? "" : fmt::format(" over {}", over));
}

AccessFacts access_facts(const Access& access, const coach::Face& face, const coach::Layout& before,
                         const coach::Player& player) {
  AccessFacts facts{
      .elevation_deg = access.elevation_rad / degree_rad,
      .raised_by = obstacle(access.raised_by, access.raised_by_ball, before),
      .support = access.support,
      .hand = access.hand,
      .own_hand = hand_name(player.hand),
      .stretch = access.stretch,
      .error_factor = access.error_factor * coach::raised_factor(player, access.elevation_rad)};
  if (access.not_own_hand) facts.not_own_hand = reason_words(*access.not_own_hand, before);
  if (const auto loss = coach::face_loss(face)) {
    facts.lost_share = loss->share;
    facts.lost_where = where(*loss);
    facts.lost_because = why_not_words(loss->typical, before);
  }
  return facts;
}

std::string access_sentence(const AccessFacts& facts) {
  std::string words = support_sentence(facts);
  const auto add = [&](const std::string& sentence) {
    words += words.empty() ? sentence : " " + sentence;
  };
  constexpr double notable_factor = 1.05;
  if (!words.empty() && facts.error_factor >= notable_factor) {
    add(fmt::format("That makes the error in direction {:.1f} times as large.",
                    facts.error_factor));
  }
  constexpr double notable_loss = 0.08;
  if (facts.lost_share >= notable_loss) {
    add(fmt::format("{}{} cannot be played: {}.", capitalised(share_words(facts.lost_share)),
                    facts.lost_where.empty() ? "" : fmt::format(", {},", facts.lost_where),
                    facts.lost_because));
  }
  return words;
}

std::string raised_cue_caution(double elevation_deg) {
  constexpr double raised_deg = 15;
  constexpr double risky_deg = 30;
  if (elevation_deg < raised_deg) return {};
  const std::string words = fmt::format(
      "Raised cue ({:.0f}°): play it only when a coach has shown how and the room's rules allow it",
      elevation_deg);
  return words + (elevation_deg < risky_deg ? "." : "; the cloth is at risk.");
}

}  // namespace ahead::lesson
