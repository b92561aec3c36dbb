#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "formats/text_file.h"
#include "tests/support/run_program.h"
#include "tests/support/temporary_folder.h"

// The verbs that think, as a person runs them.
namespace ahead::test {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

const std::string two_to_go = AHEAD_SOURCE_DIR "/examples/two-to-go.json";

void expect_refused(const Ran& ran, const std::string& because) {
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err.find('\n'), ran.err.size() - 1) << ran.err;
  EXPECT_THAT(ran.err, HasSubstr(because));
}

TEST(ThePlanVerb, WritesThePackAndTheWords) {
  const TemporaryFolder folder;
  const std::string out = folder / "pack";

  const Ran ran = run_program({"plan", two_to_go, "--player", "county", "--out", out});

  EXPECT_EQ(ran.status, 0);
  EXPECT_EQ(ran.err, "");
  EXPECT_THAT(ran.out, StartsWith("Clearing the reds and the black: 2 shots"));
  for (const char* name : {"plan.json", "index.html", "shot-01.svg", "shot-02.svg"}) {
    EXPECT_TRUE(std::filesystem::exists(std::filesystem::path(out) / name)) << name;
  }
  const auto plan = nlohmann::json::parse(*formats::read_file(out + "/plan.json"));
  EXPECT_EQ(plan["format"], "three-ahead.plan/1");
  EXPECT_EQ(plan["shots"].size(), 2U);
  const std::string page = *formats::read_file(out + "/index.html");
  EXPECT_EQ(page.find("http://"), page.find("http://www.w3.org"));  // names of standards only
  EXPECT_EQ(page.find("https://"), std::string::npos);
}

TEST(ThePlanVerb, RefusesAFolderThatCannotBeWritten) {
  const TemporaryFolder folder;
  const std::string file = folder / "a-file";
  ASSERT_FALSE(formats::write_file(file, "no folder"));

  expect_refused(run_program({"plan", two_to_go, "--out", file + "/pack"}), "a-file/pack");
}

TEST(ThePlanVerb, SaysNoWithoutALegalPot) {
  const TemporaryFolder folder;
  const std::string layout = folder / "ringed.json";
  ASSERT_FALSE(formats::write_file(layout, R"({"format": "three-ahead.layout/1",
    "table": "english-7ft", "rules": "international", "to_play": "red", "balls": [
    {"id": "cue", "at": [457, 300]}, {"id": "red-1", "at": [457, 1300]},
    {"id": "yellow-1", "at": [457, 1351]}, {"id": "yellow-2", "at": [508, 1300]},
    {"id": "yellow-3", "at": [457, 1249]}, {"id": "yellow-4", "at": [406, 1300]},
    {"id": "black", "at": [700, 1700]}]})"));

  const Ran ran = run_program({"plan", layout});

  EXPECT_EQ(ran.status, 1);
  EXPECT_EQ(ran.out, "");
  EXPECT_THAT(ran.err, HasSubstr("no ball that is on can be potted"));
}

TEST(ThePlanVerb, RefusesAnUnknownPlayer) {
  expect_refused(run_program({"plan", two_to_go, "--player", "clubb"}), "did you mean \"club\"");
}

TEST(TheShotVerb, RanksStrikesForALeave) {
  const Ran ran = run_program({"shot", two_to_go, "--ball", "red-1", "--pocket", "top-right",
                               "--leave", "450,900,250", "--json"});

  EXPECT_EQ(ran.status, 0) << ran.err;
  const auto analysis = nlohmann::json::parse(ran.out);
  double last = 1;
  for (const auto& strike : analysis["strikes"]) {
    // The plainest of the strikes that are nearly as good comes first.
    constexpr double nearly = 0.1;
    EXPECT_LE(strike["leave"]["lands"]["value"].get<double>(), last + nearly);
    last = std::min(last, strike["leave"]["lands"]["value"].get<double>());
  }
}

TEST(TheShotVerb, RefusesBallsPocketsAndLeavesThatAreNone) {
  expect_refused(run_program({"shot", two_to_go, "--ball", "red-9", "--pocket", "top-right"}),
                 "red-9");
  expect_refused(run_program({"shot", two_to_go, "--ball", "red-1", "--pocket", "side"}), "side");
  expect_refused(run_program({"shot", two_to_go, "--ball", "red-1", "--pocket", "top-right",
                              "--leave", "1,2"}),
                 "ahead");
}

TEST(TheShotVerb, SaysWhenABallIsNotOn) {
  const Ran ran = run_program({"shot", two_to_go, "--ball", "black", "--pocket", "top-right"});

  EXPECT_EQ(ran.status, 1);
  EXPECT_THAT(ran.err, HasSubstr("the black is not on"));
}

}  // namespace
}  // namespace ahead::test
