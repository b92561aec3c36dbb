#include "formats/layout_checks.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include <fmt/format.h>

#include "engine/simulate/nose_line.h"
#include "formats/field.h"
#include "formats/names.h"
#include "formats/units.h"

namespace ahead::formats {
namespace {

using coach::Colour;
using coach::Layout;
using coach::LayoutBall;
using coach::Rules;
using coach::ToPlay;

// A position that was read off a picture or typed to a tenth may come this much too close.
constexpr double overlap_slack_m = 0.05e-3;
constexpr double cushion_slack_m = 0.5e-3;

/// What a set of rules plays with.
struct BallSet {
  std::vector<Colour> colours;
  std::string_view words;
  std::vector<std::string_view> to_play;
};

const BallSet& balls_of(Rules rules) {
  static const BallSet english{.colours = {Colour::cue, Colour::red, Colour::yellow, Colour::black},
                               .words = "cue, red-N, yellow-N and black",
                               .to_play = {"red", "yellow", "black", "open"}};
  static const BallSet american{
      .colours = {Colour::cue, Colour::solid, Colour::stripe, Colour::black},
      .words = "cue, solid-N, stripe-N and black",
      .to_play = {"solid", "stripe", "black", "open"}};
  static const BallSet snooker{
      .colours = {Colour::cue, Colour::yellow, Colour::green, Colour::brown, Colour::blue,
                  Colour::pink, Colour::black},
      .words = "cue, yellow, green, brown, blue, pink and black",
      .to_play = {"colours"}};
  if (rules == Rules::american_8ball) return american;
  return rules == Rules::snooker ? snooker : english;
}

/// Yellow is one ball in snooker and a set elsewhere; no other name depends on the rules.
bool belongs(const LayoutBall& ball, Rules rules) {
  const auto& colours = balls_of(rules).colours;
  if (std::ranges::find(colours, ball.colour) == colours.end()) return false;
  return ball.colour != Colour::yellow || (ball.id == "yellow") == (rules == Rules::snooker);
}

/// Seen from above, how far from the nose line the centre of a ball is that touches it: the nose
/// meets the ball above its middle, by t with sin t = (h - R) / R.
double contact_distance_m(const engine::Table& table, const engine::Ball& ball) {
  const double sine = (table.nose_height_m - ball.radius_m) / ball.radius_m;
  return std::abs(sine) < 1 ? ball.radius_m * std::sqrt(1 - sine * sine) : 0;
}

class Checks {
 public:
  Checks(const Layout& layout, const Where& document, const std::vector<std::size_t>& places,
         std::string_view list)
      : layout_(layout),
        document_(document),
        places_(places),
        list_(list),
        nose_(engine::nose_line(layout.table.rails)) {}

  void run() const {
    check_ids();
    for (std::size_t i = 0; i < layout_.balls.size(); ++i) check_position(i);
    for (std::size_t i = 0; i < layout_.balls.size(); ++i) check_overlaps(i);
    check_to_play();
  }

 private:
  [[nodiscard]] Where at_ball(std::size_t ball, std::string_view key) const {
    return at(fmt::format("{}/{}{}", list_, places_[ball], key));
  }

  [[nodiscard]] Where at(std::string_view pointer) const {
    return {.file = document_.file, .place = document_.place + std::string(pointer)};
  }

  /// Of two balls, the one that stands later in the file is the one to complain about.
  [[nodiscard]] std::pair<std::size_t, std::size_t> in_file_order(std::size_t a,
                                                                  std::size_t b) const {
    return places_[a] < places_[b] ? std::pair(a, b) : std::pair(b, a);
  }

  void check_ids() const {
    const auto& balls = layout_.balls;
    for (std::size_t i = 0; i < balls.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (balls[i].id != balls[j].id) continue;
        const auto [earlier, later] = in_file_order(i, j);
        refuse(duplicate_ball(at_ball(later, "/id"), balls[later].id, places_[earlier]));
      }
      if (!belongs(balls[i], layout_.rules)) {
        refuse(ball_of_other_rules(at_ball(i, "/id"), balls[i].id, name_of(layout_.rules),
                                   balls_of(layout_.rules).words));
      }
    }
    if (balls.empty() || balls[0].colour != Colour::cue) refuse(no_cue_ball(at(list_)));
  }

  void check_position(std::size_t index) const {
    const engine::Table& table = layout_.table;
    const LayoutBall& ball = layout_.balls[index];
    const Where where = at_ball(index, "/at");
    for (const engine::Pocket& pocket : table.pockets) {
      if (norm(ball.at - pocket.centre) < pocket.fall_radius_m) {
        refuse(ball_in_pocket(where, ball.id, name_of(pocket.name)));
      }
    }
    if (ball.at.x < 0 || ball.at.x > table.width_m || ball.at.y < 0 || ball.at.y > table.length_m) {
      refuse(ball_off_bed(where, ball.id, mm(ball.at.x), mm(ball.at.y), mm(table.width_m),
                          mm(table.length_m)));
    }
    const double least_m =
        contact_distance_m(table, ball.colour == Colour::cue ? table.cue_ball : table.object_ball);
    const double nearest_m = norm(ball.at - engine::nearest_on(nose_, ball.at));
    if (nearest_m < least_m - cushion_slack_m) {
      refuse(ball_in_cushion(where, ball.id, mm(nearest_m), mm(least_m)));
    }
  }

  void check_overlaps(std::size_t index) const {
    const auto& balls = layout_.balls;
    for (std::size_t other = 0; other < index; ++other) {
      const double apart_m = norm(balls[index].at - balls[other].at);
      const double least_m = coach::touching_distance_m(layout_, index, other);
      if (apart_m >= least_m - overlap_slack_m) continue;
      const auto [earlier, later] = in_file_order(index, other);
      refuse(balls_overlap(at_ball(later, "/at"), balls[later].id, balls[earlier].id, mm(apart_m),
                           mm(least_m)));
    }
  }

  void check_to_play() const {
    const std::string_view to_play = name_of(layout_.to_play);
    const BallSet& set = balls_of(layout_.rules);
    if (std::ranges::find(set.to_play, to_play) == set.to_play.end()) {
      refuse(to_play_of_other_rules(at("/to_play"), to_play, name_of(layout_.rules), set.to_play));
    }
    const bool any = std::ranges::any_of(
        layout_.balls, [&](const LayoutBall& ball) { return is_to_play(ball.colour); });
    if (!any) refuse(nothing_to_play(at("/to_play"), to_play));
  }

  [[nodiscard]] bool is_to_play(Colour colour) const {
    switch (layout_.to_play) {
      case ToPlay::red:
        return colour == Colour::red;
      case ToPlay::yellow:
        return colour == Colour::yellow;
      case ToPlay::solid:
        return colour == Colour::solid;
      case ToPlay::stripe:
        return colour == Colour::stripe;
      case ToPlay::black:
        return colour == Colour::black;
      case ToPlay::open:
        return colour != Colour::cue && colour != Colour::black;
      case ToPlay::colours:
        return colour != Colour::cue;
    }
    return false;
  }

  const Layout& layout_;
  const Where& document_;
  const std::vector<std::size_t>& places_;
  std::string_view list_;
  engine::NoseLine nose_;
};

}  // namespace

void check_layout(const Layout& layout, const Where& document,
                  const std::vector<std::size_t>& place_of_ball, std::string_view balls) {
  Checks(layout, document, place_of_ball, balls).run();
}

void settle_layout(Layout& layout, const Where& document, std::string_view balls) {
  std::vector<std::size_t> place_of_ball(layout.balls.size());
  // NOLINTNEXTLINE(modernize-use-ranges): the compiler's library has no std::ranges::iota.
  std::iota(place_of_ball.begin(), place_of_ball.end(), 0);
  const auto cue = std::ranges::find(layout.balls, Colour::cue, &LayoutBall::colour);
  if (cue != layout.balls.end()) {
    const auto index = cue - layout.balls.begin();
    std::rotate(layout.balls.begin(), cue, cue + 1);
    std::rotate(place_of_ball.begin(), place_of_ball.begin() + index,
                place_of_ball.begin() + index + 1);
  }
  check_layout(layout, document, place_of_ball, balls);
}

}  // namespace ahead::formats
