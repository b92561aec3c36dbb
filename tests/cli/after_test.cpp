#include <filesystem>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "formats/text_file.h"
#include "tests/support/run_program.h"
#include "tests/support/temporary_folder.h"

// The evening class's first shot, played harder than meant, as a person compares it.
namespace ahead::test {
namespace {

using ::testing::HasSubstr;

const std::string plan = AHEAD_SOURCE_DIR "/examples/after/plan.json";
const std::string actual = AHEAD_SOURCE_DIR "/examples/after/actual.json";

TEST(TheAfterVerb, TellsTheLeaveTheStrikeAndTheNewPlan) {
  const TemporaryFolder folder;

  const Ran ran = run_program({"after", plan, "--actual", actual, "--out", folder / "out"});

  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_EQ(ran.err, "");
  EXPECT_THAT(ran.out, HasSubstr("Shot 1, red 2 to the bottom-right: the ball has gone"));
  EXPECT_THAT(ran.out, HasSubstr("146 mm too far"));
  EXPECT_THAT(ran.out, HasSubstr("% too hard (90% interval: "));
  EXPECT_THAT(ran.out, HasSubstr("The new plan begins with"));
  for (const char* name : {"after.json", "after.svg", "plan.json"}) {
    EXPECT_TRUE(std::filesystem::exists(std::filesystem::path(folder / "out") / name)) << name;
  }
  // The new plan can be compared with in its turn.
  const Ran again =
      run_program({"after", folder / "out/plan.json", "--actual", actual, "--shot", "30"});
  EXPECT_EQ(again.status, 2);
  EXPECT_THAT(again.err, HasSubstr("the plan has no shot 30"));
}

TEST(TheAfterVerb, NamesTheBallThatDoesNotFit) {
  const TemporaryFolder folder;
  std::string text = *formats::read_file(actual);
  const std::string red_4 = "[130, 1660]";
  text.replace(text.find(red_4), red_4.size(), "[330, 1360]");
  ASSERT_FALSE(formats::write_file(folder / "moved.json", text));

  const Ran ran = run_program({"after", plan, "--actual", folder / "moved.json"});

  EXPECT_EQ(ran.status, 1);
  EXPECT_THAT(ran.out, HasSubstr("No strike of this player"));
  EXPECT_THAT(ran.out, HasSubstr("What does not fit: red 4."));
}

}  // namespace
}  // namespace ahead::test
