#include <filesystem>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "formats/text_file.h"
#include "tests/support/run_program.h"
#include "tests/support/temporary_folder.h"

// `ahead trial`, as a person runs it.
namespace ahead::test {
namespace {

using ::testing::HasSubstr;

const std::string two_to_go = AHEAD_SOURCE_DIR "/examples/two-to-go.json";

void expect_refused(const Ran& ran, const std::string& because) {
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err.find('\n'), ran.err.size() - 1) << ran.err;
  EXPECT_THAT(ran.err, HasSubstr(because));
}

TEST(TheTrialVerb, ComparesThePolicies) {
  const Ran ran =
      run_program({"trial", two_to_go, "--player", "county", "--policy", "all", "--runs", "4"});

  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_EQ(ran.err, "");
  EXPECT_THAT(ran.out, HasSubstr("1 layout, 4 clearances of each"));
  EXPECT_THAT(ran.out, HasSubstr("times as often as onestep"));
  EXPECT_THAT(ran.out, HasSubstr("times as often as greedy"));
  EXPECT_THAT(ran.out, HasSubstr("Pots: the chance stated"));
}

TEST(TheTrialVerb, KeepsEveryShotSoThatItCanBePlayedAgain) {
  const TemporaryFolder folder;
  const std::string out = folder / "kept";

  const Ran ran = run_program({"trial", two_to_go, "--player", "novice", "--policy", "greedy",
                               "--runs", "2", "--json", "--out", out});

  ASSERT_EQ(ran.status, 0) << ran.err;
  EXPECT_EQ(ran.out, *formats::read_file(out + "/trial.json"));
  const auto trial = nlohmann::json::parse(ran.out);
  EXPECT_EQ(trial["runs"], 2);
  int kept = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(out)) {
    kept += entry.path().string().ends_with(".layout.json") ? 1 : 0;
  }
  EXPECT_EQ(kept, trial["shots"]);
  const std::string shot = out + "/two-to-go/greedy/run-001/shot-01";
  const Ran again =
      run_program({"simulate", shot + ".layout.json", "--strike", shot + ".strike.json", "--json"});
  const auto first = nlohmann::json::parse(*formats::read_file(shot + ".shot.json"));
  const auto second = nlohmann::json::parse(again.out);
  EXPECT_EQ(first["balls"].size(), second["balls"].size());
  // Files keep micrometres and millionths of a degree: the paths agree to well under a millimetre.
  EXPECT_NEAR(first["settled_s"].get<double>(), second["settled_s"].get<double>(), 1e-2);
}

TEST(TheTrialVerb, RefusesWhatItCannotUse) {
  const TemporaryFolder folder;
  expect_refused(run_program({"trial"}), "LAYOUT");
  expect_refused(run_program({"trial", two_to_go, "--policy", "best"}), "--policy");
  expect_refused(run_program({"trial", two_to_go, "--runs", "0"}), "--runs");
  expect_refused(run_program({"trial", folder / "."}), "holds no .json file");
  expect_refused(run_program({"trial", folder / "none.json"}), "none.json");
  expect_refused(run_program({"trial", two_to_go, "--player", "clubb"}), "did you mean \"club\"");
}

}  // namespace
}  // namespace ahead::test
