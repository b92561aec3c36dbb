#include "formats/plan.h"

#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "formats/layout.h"
#include "formats/strike.h"
#include "tests/formats/played.h"

namespace ahead::formats {
namespace {

using nlohmann::json;

TEST(AWrittenPlan, HoldsItsShotsInFileUnits) {
  const json file = json::parse(write_plan(test::small_plan()));

  EXPECT_EQ(file["format"], "three-ahead.plan/1");
  EXPECT_EQ(file["colour"], "red");
  EXPECT_EQ(file["chance"]["value"], 0.3);
  ASSERT_EQ(file["shots"].size(), 2U);
  const json& shot = file["shots"][0];
  EXPECT_EQ(shot["ball"], "red-1");
  EXPECT_EQ(shot["pocket"], "top-left");
  EXPECT_NEAR(shot["cut_deg"].get<double>(), 22.918, 1e-3);
  EXPECT_EQ(shot["landings"][1], json::array({412.3, 590.0}));
  EXPECT_EQ(shot["cue_path"]["meets"], json::array({"yellow-1"}));
  EXPECT_EQ(shot["why_lost"], "worse-position");
  EXPECT_EQ(shot["balls_before"].size(), 5U);
  EXPECT_EQ(shot["moment"]["goes_from"], 0.125);
  EXPECT_EQ(shot["moment"]["frees"], json::array({"red-1"}));
  EXPECT_TRUE(file["shots"][1]["moment"]["cover"].is_null());
  EXPECT_TRUE(file["shots"][1]["runner_up"].is_null());
  EXPECT_TRUE(file["shots"][1]["why_lost"].is_null());
}

TEST(AWrittenPlan, CarriesWordsWhenItIsGivenThem) {
  const std::vector<std::string> words{"Stun the red in.", "Then \"the\" black."};
  const json file = json::parse(write_plan(test::small_plan(), words));
  EXPECT_EQ(file["shots"][1]["words"], words[1]);
  EXPECT_FALSE(json::parse(write_plan(test::small_plan()))["shots"][0].contains("words"));
}

TEST(AWrittenPlan, HoldsALayoutThatTheReaderTakes) {
  const json file = json::parse(write_plan(test::small_plan()));
  EXPECT_TRUE(read_layout(file["layout"].dump(), "f").has_value());
}

// The strike of a shot is a strike file but for its first key.
TEST(AWrittenPlan, HoldsStrikesThatTheReaderTakes) {
  json strike = json::parse(write_plan(test::small_plan()))["shots"][0]["strike"];
  EXPECT_FALSE(strike.contains("format"));
  strike["format"] = "three-ahead.strike/1";
  EXPECT_TRUE(read_strike(strike.dump(), "f", engine::Cue{}).has_value());
}

json without_access(const std::string& text) {
  json file = json::parse(text);
  for (json& shot : file["shots"]) {
    shot.erase("access");
    if (!shot["runner_up"].is_null()) shot["runner_up"].erase("access");
  }
  file["bet"]["safe"].erase("access");
  return file;
}

TEST(APlanFile, ComesBackAsItWasWritten) {
  const std::string text = write_plan(test::small_plan());

  const auto plan = read_plan(text, "f");

  ASSERT_TRUE(plan.has_value()) << one_line(plan.error());
  // The access is worked out anew, and the plan of this test has none.
  EXPECT_EQ(without_access(write_plan(*plan)), without_access(text));
  EXPECT_EQ(write_plan(*read_plan(write_plan(*plan), "f")), write_plan(*plan));
  EXPECT_EQ(plan->shots[0].best.intended,
            test::played(plan->shots[0].before, plan->shots[0].best.strike));
}

TEST(APlanFile, MayHaveNoBet) {
  json file = json::parse(write_plan(test::small_plan()));
  EXPECT_EQ(file["bet"]["bad"], true);
  file["bet"] = nullptr;
  const auto null = read_plan(file.dump(), "f");
  file.erase("bet");
  const auto none = read_plan(file.dump(), "f");
  ASSERT_TRUE(null && none);
  EXPECT_FALSE(null->bet || none->bet);
}

TEST(APlanFile, MayHaveWordsThatAreLeftAside) {
  const std::vector<std::string> words{"Stun the red in.", "Then the black."};

  const auto plan = read_plan(write_plan(test::small_plan(), words), "f");

  ASSERT_TRUE(plan.has_value()) << one_line(plan.error());
  EXPECT_EQ(without_access(write_plan(*plan)), without_access(write_plan(test::small_plan())));
}

}  // namespace
}  // namespace ahead::formats
