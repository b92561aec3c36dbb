#include "formats/shot.h"

#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "engine/simulate/stretch.h"
#include "tests/formats/played.h"

namespace ahead::formats {
namespace {

using nlohmann::json;

class AWrittenShot : public ::testing::Test {
 protected:
  const coach::Layout layout = test::evening();
  const engine::Shot shot = test::played(layout, test::first_strike());
  const json file = json::parse(write_shot(shot, layout));
};

TEST_F(AWrittenShot, HasEveryBallInTheLayoutsOrder) {
  ASSERT_EQ(file["balls"].size(), layout.balls.size());
  for (std::size_t i = 0; i < layout.balls.size(); ++i) {
    EXPECT_EQ(file["balls"][i]["id"], layout.balls[i].id);
  }
}

TEST_F(AWrittenShot, SaysWhereEachBallEndedInMillimetres) {
  for (std::size_t i = 0; i < layout.balls.size(); ++i) {
    const engine::Ending& ending = shot.endings[i];
    const json& ball = file["balls"][i];
    EXPECT_EQ(ball["end"].is_null(), !ending.on_table());
    EXPECT_EQ(ball["pocket"].is_null(), ending.on_table());
    if (!ending.on_table()) continue;
    EXPECT_NEAR(ball["end"][0].get<double>(), 1000 * ending.position.x, 1e-4);
    EXPECT_NEAR(ball["end"][1].get<double>(), 1000 * ending.position.y, 1e-4);
  }
}

TEST_F(AWrittenShot, HasRowsAtLeastEveryTwentyMilliseconds) {
  for (const json& ball : file["balls"]) {
    const json& path = ball["path"];
    ASSERT_FALSE(path.empty());
    EXPECT_EQ(path[0][0], 0.0);
    for (std::size_t row = 1; row < path.size(); ++row) {
      const double gap_s = path[row][0].get<double>() - path[row - 1][0].get<double>();
      EXPECT_GE(gap_s, 0.0);
      EXPECT_LE(gap_s, 0.020);
    }
  }
}

// At an event a path jumps from one velocity to another: both must stand in the file.
TEST_F(AWrittenShot, HasARowBeforeAndAfterEachEvent) {
  int events = 0;
  for (std::size_t i = 0; i < layout.balls.size(); ++i) {
    const auto stretches = path_of(shot, static_cast<int>(i));
    for (std::size_t k = 1; k < stretches.size(); ++k) {
      const double t_s = stretches[k].t0_s;
      const engine::Vec3 after = stretches[k].start.velocity;
      const engine::Vec3 before =
          state_at(stretches[k - 1], layout.table, stretches[k - 1].t1_s).velocity;
      bool has_before = false;
      bool has_after = false;
      for (const json& row : file["balls"][i]["path"]) {
        if (std::abs(row[0].get<double>() - t_s) > 1e-7) continue;
        const auto is = [&](engine::Vec3 v) {
          return std::abs(row[4].get<double>() - 1000 * v.x) < 1e-3 &&
                 std::abs(row[5].get<double>() - 1000 * v.y) < 1e-3;
        };
        has_before = has_before || is(before);
        has_after = has_after || is(after);
      }
      EXPECT_TRUE(has_before && has_after) << "ball " << i << " at " << t_s;
      ++events;
    }
  }
  EXPECT_GT(events, 5) << "the shot is too quiet to tell";
}

TEST_F(AWrittenShot, EndsEachPathWhereTheBallEnded) {
  for (const json& ball : file["balls"]) {
    if (ball["end"].is_null()) continue;
    const json& last = ball["path"].back();
    EXPECT_NEAR(last[1].get<double>(), ball["end"][0].get<double>(), 2e-4);
    EXPECT_NEAR(last[2].get<double>(), ball["end"][1].get<double>(), 2e-4);
    for (const int speed : {4, 5, 6}) EXPECT_NEAR(last[speed].get<double>(), 0, 1e-3);
  }
}

TEST_F(AWrittenShot, ListsTheEventsInOrderOfTime) {
  ASSERT_EQ(file["events"].size(), shot.events.size());
  EXPECT_EQ(file["events"][0]["kind"], "strike");
  for (std::size_t i = 1; i < shot.events.size(); ++i) {
    EXPECT_GE(file["events"][i]["t"], file["events"][i - 1]["t"]);
  }
  EXPECT_GE(file["settled_s"], file["still_s"]);
}

// A red in the mouth of a pocket and a cue ball straight behind it.
TEST(AWrittenPot, NamesThePocket) {
  coach::Layout layout = test::evening();
  layout.balls[0].at = {0.30, 0.9144};
  layout.balls[1].at = {0.10, 0.9144};

  const auto shot =
      test::played(layout, {.aim_rad = std::numbers::pi, .height = -0.2, .cue_speed_mps = 1.0});
  const json file = json::parse(write_shot(shot, layout));

  EXPECT_EQ(file["balls"][1]["pocket"], "middle-left");
  EXPECT_TRUE(file["balls"][1]["end"].is_null());
  bool has_pot = false;
  for (const json& event : file["events"]) {
    if (event["kind"] != "pot") continue;
    has_pot = true;
    EXPECT_EQ(event["pocket"], "middle-left");
    EXPECT_EQ(event["balls"], json::array({"red-1"}));
  }
  EXPECT_TRUE(has_pot);
}

TEST(AWrittenShotOffTheTable, SaysSo) {
  const coach::Layout layout = test::evening();
  engine::Shot shot = test::played(layout, test::first_strike());
  shot.endings[1] = {.position = {-0.3, 0.5, 0.1}, .pocket = -1, .off_table = true};
  const json file = json::parse(write_shot(shot, layout));
  EXPECT_EQ(file["balls"][1]["pocket"], "off-table");
  EXPECT_TRUE(file["balls"][1]["end"].is_null());
}

}  // namespace
}  // namespace ahead::formats
