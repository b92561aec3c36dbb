#include <cmath>
#include <numbers>
#include <regex>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/equipment/presets.h"
#include "engine/motion/motion.h"
#include "lesson/figure/ball.h"
#include "lesson/figure/cushion_outline.h"
#include "lesson/figure/free_place.h"
#include "lesson/figure/pace_figure.h"
#include "lesson/figure/ribbon.h"
#include "lesson/figure/strike_figure.h"
#include "lesson/figure/style.h"
#include "lesson/figure/table.h"
#include "lesson/figure/wrap.h"
#include "lesson/house_look.h"
#include "tests/lesson/kept_picture.h"

namespace ahead::lesson {
namespace {

using engine::Vec2;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

int count(const std::string& text, std::string_view what) {
  int n = 0;
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++n;
  return n;
}

/// A table of four cushions and one pocket: small enough to read its picture.
engine::Table corner_table() {
  using std::numbers::pi;
  engine::Table table{.width_m = 0.5, .length_m = 1.0};
  table.rails = {engine::RailSegment{{0.06, 0}, {0.44, 0}},
                 engine::RailArc{{0.06, -0.04}, 0.04, pi / 2, 3 * pi / 4},
                 engine::RailSegment{{0, 0.9}, {0, 0.1}},
                 engine::RailSegment{{0.5, 0.1}, {0.5, 0.9}},
                 engine::RailSegment{{0.44, 1}, {0.06, 1}}};
  table.pockets = {{engine::PocketName::bottom_left, {-0.03, -0.03}, 0.05}};
  table.markings = {.baulk_line_m = 0.2, .spot = {0.25, 0.75}};
  return table;
}

/// A mark as a picture that a person can look at.
std::string picture(Drawing drawing) {
  drawing.title = "A kept picture";
  return svg_document(drawing, figure_style(house_look()));
}

coach::Player steady_player() {
  coach::Player player;
  player.tip_height_m.sigma = 0.0015;
  player.tip_side_m.sigma = 0.0007;
  player.pace.sigma = 0.05;
  return player;
}

engine::Table english() { return engine::table_preset("english-7ft").value(); }

TEST(ANumberInAPicture, HasOneDecimalAtMostAndNoNegativeZero) {
  EXPECT_EQ(number(12.34), "12.3");
  EXPECT_EQ(number(-7.0), "-7");
  EXPECT_EQ(number(-0.04), "0");
}

TEST(WordsInAPicture, CannotBecomeMarks) {
  EXPECT_EQ(escaped("<b> & \"q\" 'p'"), "&lt;b&gt; &amp; &quot;q&quot; &#39;p&#39;");
}

TEST(WordsInAPicture, AreWrappedBetweenWords) {
  EXPECT_THAT(wrapped("three ahead of the rest", 11), ElementsAre("three ahead", "of the rest"));
}

TEST(ATable, LooksAsKept) {
  const engine::Table table = corner_table();
  Drawing drawing = table_drawing(table);
  drawing.body = table_mark(table, view_of(table)) + tape_mark(table, view_of(table)) +
                 target_pocket_mark(table, 0, view_of(table));
  EXPECT_TRUE(is_kept("table", picture(drawing)));
}

TEST(ATable, HasBaulkAtTheBottomAndRightToTheRight) {
  const View view{.length_m = 1.8};
  EXPECT_GT(view.at(Vec2{0, 0}).y, view.at(Vec2{0, 1}).y);
  EXPECT_GT(view.at(Vec2{0.5, 0}).x, view.at(Vec2{0, 0}).x);
}

TEST(ATable, HasSixCushionsCounterClockwise) {
  const engine::Table table = english();
  const std::vector<Outline> cushions = cushion_outlines(table);
  ASSERT_EQ(cushions.size(), 6U);
  const Vec2 centre{table.width_m / 2, table.length_m / 2};
  for (const Outline& cushion : cushions) {
    EXPECT_GT(engine::cross(cushion.front() - centre, cushion.back() - centre), 0);
  }
}

TEST(ATable, IsDrawnWithItsWholePockets) {
  const engine::Table table = english();
  const Drawing drawing = table_drawing(table);
  const View view = view_of(table);
  for (const engine::Pocket& pocket : table.pockets) {
    const Point centre = view.at(pocket.centre);
    const double r = 1000 * pocket.fall_radius_m;
    EXPECT_GT(centre.x - r, drawing.left);
    EXPECT_LT(centre.x + r, drawing.left + drawing.width);
    EXPECT_GT(centre.y - r, drawing.top);
    EXPECT_LT(centre.y + r, drawing.top + drawing.height);
  }
}

TEST(Balls, LookAsKept) {
  const Look look = house_look();
  Drawing row{.width = 420, .height = 60};
  double x = 0;
  for (const char* id : {"cue", "red-1", "yellow-2", "black", "solid-3", "stripe-12"}) {
    const coach::LayoutBall ball{.id = id, .colour = coach::colour_of_id(id).value()};
    row.body += ball_mark(ball, {x += 60, 30}, 25.4, look);
  }
  EXPECT_TRUE(is_kept("balls", picture(row)));
}

TEST(AStrike, LooksAsKept) {
  const engine::Strike strike{.side = -0.2, .height = -0.3, .cue_speed_mps = 1.5};
  engine::Table table;
  table.cue_ball.radius_m = 0.0238;
  EXPECT_TRUE(is_kept("strike", picture(strike_figure(strike, steady_player(), table))));
}

// A dome of radius 9 mm on a ball of 23.8 mm: (23.8 + 9)/23.8 = 1.378.
TEST(AStrike, PointsTheCueFurtherOutThanTheTipTouches) {
  engine::Table table;
  table.cue_ball.radius_m = 0.0238;
  const Vec2 axis = cue_points_at({.side = 0.2, .height = -0.3}, table);
  EXPECT_NEAR(axis.x, 0.2 * 1.378, 1e-3);
  EXPECT_NEAR(axis.y, -0.3 * 1.378, 1e-3);
}

TEST(AStrike, ShowsMoreScatterForAWilderPlayer) {
  coach::Player wild = steady_player();
  wild.tip_height_m.sigma *= 2;
  const double per_mm = face_radius / 23.8;
  engine::Table table;
  table.cue_ball.radius_m = 0.0238;
  const std::string body = strike_figure({}, wild, table).body;
  EXPECT_THAT(body, HasSubstr("ry=\"" + number(3.0 * per_mm) + "\""));  // one sigma
  EXPECT_THAT(body, HasSubstr("ry=\"" + number(6.0 * per_mm) + "\""));  // two
}

TEST(AStrike, NamesBothPlaces) {
  const std::string body = strike_figure({.height = 0.3}, steady_player(), english()).body;
  EXPECT_THAT(body, HasSubstr(">tip touches here<"));
  EXPECT_THAT(body, HasSubstr(">cue points here<"));
  EXPECT_THAT(body, HasSubstr(">miscue limit<"));
}

TEST(AStrike, HatchesWhatCannotBeReachedAndSaysWhy) {
  const coach::Access blocked{.blocked = coach::Reason{.why = coach::Blocked::too_far}};
  const coach::Face face{.spacing = 0.25,
                         .places = {{.height = 0.25}, {.height = -0.25, .access = blocked}}};
  const std::string plain = strike_figure({}, steady_player(), english()).body;
  const std::string body =
      strike_figure({}, steady_player(), english(), {1.5, face, "too far to reach"}).body;

  EXPECT_THAT(plain, Not(HasSubstr("hatch")));
  EXPECT_THAT(body, HasSubstr("class=\"hatch\""));
  EXPECT_THAT(body, HasSubstr("hatched, not playable: too far to reach"));
  // The strokes lie in the lower half: y runs down.
  const std::regex stroke(R"re(class="hatch" x1="[^"]*" y1="([^"]*)" x2="[^"]*" y2="([^"]*)")re");
  for (std::sregex_iterator at(body.begin(), body.end(), stroke), end; at != end; ++at) {
    EXPECT_GT(std::stod((*at)[1]), -1);
    EXPECT_GT(std::stod((*at)[2]), -1);
  }
}

TEST(AStrike, ShowsTheScatterOfTheWayItIsPlayed) {
  const double per_mm = face_radius / 1000 / english().cue_ball.radius_m;
  const coach::Player player = steady_player();
  const std::string body = strike_figure({}, player, english(), {1.5, {}, ""}).body;

  EXPECT_THAT(body, HasSubstr("ry=\"" + number(1500 * player.tip_height_m.sigma * per_mm) + "\""));
}

/// A ball that slides, then rolls until it stops.
std::vector<engine::Stretch> slide_and_roll(double speed_mps, const engine::Table& table) {
  const double R = table.cue_ball.radius_m;
  engine::BallState state{.position = {0.4, 0.3, R}, .velocity = {0, speed_mps, 0}};
  std::vector<engine::Stretch> path;
  double t_s = 0;
  for (const engine::Phase phase : {engine::Phase::sliding, engine::Phase::rolling}) {
    const double lasts_s = engine::phase_duration_s(phase, state, table.cue_ball, table.cloth);
    path.push_back({.ball = 0, .phase = phase, .t0_s = t_s, .t1_s = t_s + lasts_s, .start = state});
    state = engine::at_phase_end(phase, state, table.cue_ball, table.cloth, lasts_s);
    t_s += lasts_s;
  }
  return path;
}

TEST(ARibbon, HasATickForEveryQuarterOfASecond) {
  const engine::Table table = english();
  const std::vector<engine::Stretch> path = slide_and_roll(0.8, table);
  const formats::RibbonLook look{
      .least_mm = 3, .per_mps_mm = 8, .most_mm = 30, .tick_every_s = 0.25};
  const std::string mark = ribbon_mark(drawn_stretches(path, table, view_of(table)), look, "cue");
  const double ends_s = path.back().t1_s;
  EXPECT_EQ(count(mark, "class=\"tick\""), static_cast<int>(std::floor(ends_s / 0.25)));
}

TEST(ARibbon, ChangesTextureWhereTheBallBeginsToRoll) {
  const engine::Table table = english();
  const std::vector<DrawnStretch> drawn =
      drawn_stretches(slide_and_roll(1.5, table), table, view_of(table));
  const std::string mark = ribbon_mark(drawn, house_look().ribbon, "cue");
  EXPECT_EQ(count(mark, "class=\"sliding\""), 1);
  EXPECT_EQ(count(mark, "class=\"rolling\""), 1);
  // It is at 5/7 of the speed there: rigid-body theory after Coriolis (1835).
  EXPECT_NEAR(drawn[1].points.front().speed_mps, 1.5 * 5 / 7, 1e-9);
}

TEST(ARibbon, IsWiderForAFasterBallUpToALimit) {
  const formats::RibbonLook look{
      .least_mm = 3, .per_mps_mm = 8, .most_mm = 30, .tick_every_s = 0.25};
  EXPECT_DOUBLE_EQ(ribbon_width(0, look), 3);
  EXPECT_DOUBLE_EQ(ribbon_width(2, look), 19);
  EXPECT_DOUBLE_EQ(ribbon_width(9, look), 30);
}

TEST(ANumberBesideABall, TurnsAwayFromWhatLiesThere) {
  const Drawing bed{.width = 900, .height = 1800};
  const Point ball{400, 400};
  const Point usual = free_place(ball, 48, 20, {}, bed);
  EXPECT_GT(usual.x, ball.x);
  EXPECT_LT(usual.y, ball.y);
  const std::vector<Obstacle> taken{{usual, 26}};
  EXPECT_GT(engine::norm(free_place(ball, 48, 20, taken, bed) - usual), 46);
}

TEST(TheStyle, NeedsNothingThatAPlainReaderLacks) {
  const std::string style = figure_style(house_look());
  EXPECT_EQ(count(style, "var("), 0);
  EXPECT_EQ(count(style, "url("), 0);
  EXPECT_EQ(count(style, "{"), count(style, "}"));
}

TEST(APaceBar, MarksTheSpeedInItsSection) {
  EXPECT_THAT(pace_figure(1.4, 0.08, 0.087).body,
              HasSubstr("class=\"strong-words middle\" x=\"145\" y=\"-7\">medium<"));
  EXPECT_THAT(pace_figure(1.4, 0.08, 0.087).body, HasSubstr("butt raised 5°"));
}

}  // namespace
}  // namespace ahead::lesson
