#include "coach/layout.h"

#include <gtest/gtest.h>

namespace ahead::coach {
namespace {

TEST(AnId, SaysTheColour) {
  EXPECT_EQ(colour_of_id("cue"), Colour::cue);
  EXPECT_EQ(colour_of_id("black"), Colour::black);
  EXPECT_EQ(colour_of_id("red-1"), Colour::red);
  EXPECT_EQ(colour_of_id("yellow-7"), Colour::yellow);
  EXPECT_EQ(colour_of_id("yellow"), Colour::yellow);
  EXPECT_EQ(colour_of_id("solid-3"), Colour::solid);
  EXPECT_EQ(colour_of_id("stripe-15"), Colour::stripe);
  EXPECT_EQ(colour_of_id("pink"), Colour::pink);
}

TEST(AnId, ThatIsNoneHasNoColour) {
  for (const auto* id :
       {"", "red", "red-", "red-0", "red-01", "red-16", "red-1x", "red--1", "green-1", "Red-1",
        "cue-1", "black-8", "-1", "red-99999999999999999999"}) {
    EXPECT_EQ(colour_of_id(id), std::nullopt) << id;
  }
}

// Row C14 of docs/equipment.md: a 47.6 mm cue ball and a 50.8 mm ball touch 49.174 mm apart.
TEST(BallsThatTouch, AreTwiceTheRootOfTheRadiiApart) {
  Layout layout{.balls = {{"cue", Colour::cue, {}, 0},
                          {"red-1", Colour::red, {}, 0},
                          {"black", Colour::black, {}, 0}}};
  layout.table.cue_ball.radius_m = 0.0238;
  layout.table.object_ball.radius_m = 0.0254;

  EXPECT_NEAR(touching_distance_m(layout, 0, 1), 0.049174, 1e-6);
  EXPECT_DOUBLE_EQ(touching_distance_m(layout, 1, 2), 0.0508);
}

}  // namespace
}  // namespace ahead::coach
