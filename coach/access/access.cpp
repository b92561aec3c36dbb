#include "coach/access/access.h"

#include <algorithm>
#include <cmath>

#include "coach/access/rail_section.h"
#include "coach/access/stance.h"
#include "coach/player/scatter.h"

namespace ahead::coach {
namespace {

/// The shoulder's height as a share of the body's, where the gripping hand's lift ends.
/// Drillis and Contini (1966) as given in Winter's Biomechanics; figure from memory.
constexpr double shoulder_share = 0.818;
/// The grip is at least so far behind the bridge, and so far before the butt's end; m. Common
/// practice, no source.
constexpr double shortest_grip_m = 0.45;
constexpr double grip_from_end_m = 0.10;
/// Reach from which a bridge is a stretch, and what of it is left to a player who holds the butt of
/// a cue that lies in a rest (assumptions).
constexpr double easy_share = 0.8;
constexpr double grip_reach_share = 0.5;

Hand other(Hand hand) { return hand == Hand::right ? Hand::left : Hand::right; }

bool can_hold(const Player& player, double grip_m, double ball_m, double elevation_rad) {
  return bed_above_floor_m + ball_m + grip_m * std::sin(elevation_rad) <=
         shoulder_share * player.height_m;
}

double with_stretch(const Player& player, double stretch) {
  return 1 + stretch * (player.stretched.factor - 1);
}

}  // namespace

/// The best way so far to make one strike, and how near a way came that failed.
struct Approach::Search {
  const Player& player;
  const CueLine& line;
  const Clearance& clear;
  double least_raised = 1;  ///< raised_factor() at the clearing elevation: none can do with less
  double best_error = std::numeric_limits<double>::infinity();
  Access best;
  std::optional<Reason> own_hand;  ///< the reason that came nearest to success
  std::optional<Reason> any;

  /// Later reasons of the enumeration came nearer.
  void failed(Reason reason, bool own) {
    const auto nearer = [&](std::optional<Reason>& known) {
      if (!known || reason.why > known->why) known = reason;
    };
    nearer(any);
    if (own) nearer(own_hand);
  }

  /// Whether a way with this factor could still be better than the best.
  [[nodiscard]] bool hopeful(double factor) const { return factor * least_raised < best_error; }

  void offer(const BridgePlace& place, double bridge_m, double grip_m, Hand hand, double stretch,
             double factor, bool own) {
    double elevation = clear.elevation_rad;
    const double under = line.ball_radius_m + underside_m(line, bridge_m, elevation);
    constexpr double rounding_m = 1e-9;
    if (under > place.high_m + rounding_m) {
      failed({.why = Blocked::bridge_too_low, .ball = clear.ball}, own);
      return;
    }
    const bool lifted = under < place.low_m;
    if (lifted) {
      elevation = std::max(
          elevation, elevation_for_underside(line, bridge_m, place.low_m - line.ball_radius_m));
    }
    if (elevation > steepest_rad || !can_hold(player, grip_m, line.ball_radius_m, elevation)) {
      failed({.why = Blocked::butt_too_high, .ball = clear.ball}, own);
      return;
    }
    const double error = factor * raised_factor(player, elevation);
    if (error >= best_error) return;
    best_error = error;
    best = {.elevation_rad = elevation,
            .raised_by = lifted ? InTheWay::nothing : clear.by,
            .raised_by_ball = lifted ? 0 : clear.ball,
            .support = place.support,
            .hand = hand,
            .bridge_m = bridge_m,
            .stretch = stretch,
            .error_factor = factor};
  }
};

bool recommended(const Access& access) {
  return !access.blocked && access.elevation_rad <= highest_elevation_rad;
}

Approach::Approach(const Scene& scene, const Position& position, double aim_rad)
    : scene_(scene), behind_(behind(scene.field.table(), scene.edges, position, aim_rad)) {
  for (auto& of_hand : reach_needed_) of_hand.fill(-1);
}

double Approach::reach_needed(std::size_t length, Hand hand) {
  double& known = reach_needed_[static_cast<std::size_t>(hand)][length];
  if (known < 0) {
    known = reach_needed_m(scene_.field.table(), behind_.frame, {lengths_m[length], 0}, hand,
                           easy_share * scene_.player.reach_m);
  }
  return known;
}

void Approach::try_hand(Search& search, Hand hand) {
  const Player& player = search.player;
  const bool own = hand == player.hand;
  const double of_hand = own ? 1.0 : player.other_hand.factor;
  for (const Posture posture : {Posture::flat, Posture::fingertips}) {
    const double of_posture =
        of_hand * (posture == Posture::flat ? 1.0 : player.raised_bridge.factor);
    for (std::size_t i = 0; i < lengths_m.size(); ++i) {
      if (!search.hopeful(of_posture)) break;
      const BridgePlace place = bridge_place(scene_.field.table(), player.bridging, behind_,
                                             search.line.right_m, lengths_m[i], posture, hand);
      if (!place.free) {
        search.failed({.why = Blocked::no_room, .ball = place.ball}, own);
        continue;
      }
      const double needed = reach_needed(i, hand) / player.reach_m;
      if (needed > 1) {
        search.failed({.why = Blocked::too_far}, own);
        continue;
      }
      const double stretch = std::max(0.0, (needed - easy_share) / (1 - easy_share));
      const bool on_cushion = place.support == Support::cushion || place.support == Support::rail;
      const double factor = of_posture * with_stretch(player, stretch) *
                            (on_cushion ? player.cushion_bridge.factor : 1.0);
      search.offer(place, lengths_m[i], lengths_m[i] + shortest_grip_m, hand, stretch, factor, own);
    }
  }
}

void Approach::try_rest(Search& search, Posture posture) const {
  const Player& player = search.player;
  const engine::Table& table = scene_.field.table();
  const double factor =
      player.rest.factor * (posture == Posture::spider ? player.raised_bridge.factor : 1.0);
  if (!search.hopeful(factor)) return;
  // The plain cue, or else the longer one.
  double grip_m = table.cue_ball.radius_m + player.cue.length_m - grip_from_end_m;
  const auto reached = [&](double m) {
    return inside_edge_m(table, behind_.frame.on_table({m, 0})) <=
           grip_reach_share * player.reach_m;
  };
  if (!reached(grip_m)) grip_m += player.bridging.extension_m;
  if (!reached(grip_m)) {
    search.failed({.why = Blocked::too_far}, false);
    return;
  }
  for (const double length_m : lengths_m) {
    if (!search.hopeful(factor)) return;
    const BridgePlace place = bridge_place(table, player.bridging, behind_, search.line.right_m,
                                           length_m, posture, player.hand);
    if (!place.free) {
      search.failed({.why = Blocked::no_room, .ball = place.ball}, false);
      continue;
    }
    search.offer(place, length_m, grip_m, player.hand, 0, factor, false);
  }
}

Access Approach::at(double side, double height) {
  const engine::Table& table = scene_.field.table();
  const Player& player = scene_.player;
  const CueLine line = cue_line(table, player.cue, side, height);
  const Clearance clear = least_elevation(behind_, line, table.object_ball.radius_m);
  if (clear.elevation_rad > steepest_rad) {
    const bool by_ball = clear.by == InTheWay::ball;
    return {.blocked = Reason{.why = by_ball ? Blocked::cue_meets_ball : Blocked::cue_meets_cushion,
                              .ball = clear.ball}};
  }
  Search search{.player = player,
                .line = line,
                .clear = clear,
                .least_raised = raised_factor(player, clear.elevation_rad)};
  try_hand(search, player.hand);
  if (player.bridging.rest) try_rest(search, Posture::rest);
  if (player.bridging.spider) try_rest(search, Posture::spider);
  try_hand(search, other(player.hand));
  if (search.best_error == std::numeric_limits<double>::infinity()) {
    return {.blocked = search.own_hand ? search.own_hand : search.any};
  }
  const bool plain = search.best.hand == player.hand && search.best.support != Support::rest &&
                     search.best.support != Support::spider;
  if (!plain) search.best.not_own_hand = search.own_hand;
  return search.best;
}

Access access(const Scene& scene, const Position& position, const engine::Strike& strike) {
  return Approach(scene, position, strike.aim_rad).at(strike.side, strike.height);
}

}  // namespace ahead::coach
