#include "formats/trial.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/formats/played.h"

namespace ahead::formats {
namespace {

TEST(ATrialFile, HasTheFirstPolicyAtTheTopAndTheOthersAsRivals) {
  const auto json = nlohmann::json::parse(write_trial(test::small_trial()));

  EXPECT_EQ(json["policy"], "plan");
  EXPECT_EQ(json["runs"], 3);
  EXPECT_EQ(json["cleared"], 1);
  EXPECT_EQ(json["rate"], 0.3333);
  EXPECT_EQ(json["failures"]["missed_pot"], 1);
  EXPECT_EQ(json["failures"]["in_off"], 1);
  EXPECT_FALSE(json["failures"].contains("cleared"));
  ASSERT_EQ(json["rivals"].size(), 1U);
  EXPECT_EQ(json["rivals"][0]["policy"], "greedy");
  EXPECT_EQ(json["rivals"][0]["failures"]["no_pot"], 3);
  EXPECT_EQ(json["rivals"][0]["ratio"]["value"], 3.0);  // 1.5 of 3.5 over 0.5 of 3.5
}

TEST(ATrialFile, LeavesOutTenthsWithoutACase) {
  const auto json = nlohmann::json::parse(write_trial(test::small_trial()));

  const auto& pots = json["calibration"]["pots"];
  ASSERT_EQ(pots.size(), 2U);
  EXPECT_EQ(pots[0]["from"], 0.7);
  EXPECT_EQ(pots[0]["to"], 0.8);
  EXPECT_EQ(pots[0]["cases"], 2);
  EXPECT_EQ(pots[0]["stated"], 0.71);
  EXPECT_EQ(pots[0]["actual"], 0.5);
  EXPECT_EQ(pots[1]["cases"], 2);
  EXPECT_TRUE(json["rivals"][0]["calibration"]["clearances"].empty());
}

}  // namespace
}  // namespace ahead::formats
