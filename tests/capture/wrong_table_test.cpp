#include "capture/table/wrong_table.h"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include <gtest/gtest.h>

#include "capture/capture.h"
#include "engine/equipment/presets.h"
#include "tests/photographs/judge.h"

namespace ahead::capture {
namespace {

engine::Table table(std::string_view id) { return *engine::table_preset(id); }

// 50.8 mm on 914 mm against 57.15 mm on 1270 mm: 1.235 times as large.
TEST(AWrongTable, IsRefusedByItsBallsAndNamesTheTablesThatFit) {
  const auto refusal = wrong_table(1.235, table("american-9ft"));
  ASSERT_TRUE(refusal.has_value());
  EXPECT_EQ(refusal->wrong, "shows balls 124% as large as they are on american-9ft");
  EXPECT_EQ(refusal->mend,
            "say which table it is: english-7ft or english-7ft-match or american-7ft "
            "would fit");
}

TEST(AWrongTable, MayBeOneThatNobodyHasNamed) {
  const auto refusal = wrong_table(0.4, table("snooker-12ft"));
  ASSERT_TRUE(refusal.has_value());
  EXPECT_EQ(refusal->mend, "give a table file with the size of the table and of its balls");
}

TEST(ARightTable, IsNotRefusedForALittle) {
  for (const double size : {0.95, 1.0, 1.05}) {
    EXPECT_FALSE(wrong_table(size, table("english-7ft")).has_value()) << size;
  }
}

TEST(APhotographOfASevenFootTable, IsNoOtherTable) {
  const std::filesystem::path folder =
      std::filesystem::path(AHEAD_SOURCE_DIR) / "tests/photographs/scenes";
  const photographs::Truth truth = photographs::read_truth(folder).front();
  ASSERT_EQ(truth.table, "english-7ft");
  const Picture picture = photographs::read_photograph(folder / truth.file);
  for (const char* id : {"english-6ft", "american-9ft"}) {
    std::vector<SeenPoint> points;
    const auto corners = nose_corners(table(id));
    for (std::size_t i = 0; i < corners.size(); ++i) {
      points.push_back({corners[i], truth.given[i], marked_sigma_px});
    }
    const auto captured = capture_photograph(picture, table(id), points);
    ASSERT_FALSE(captured.has_value()) << id;
    EXPECT_NE(captured.error().mend.find("english-7ft"), std::string::npos) << id;
  }
}

}  // namespace
}  // namespace ahead::capture
