#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "formats/layout.h"
#include "formats/strike.h"
#include "formats/text_file.h"
#include "tests/support/run_program.h"
#include "tests/support/slot.h"
#include "tests/support/temporary_folder.h"
#include "tests/support/text_of.h"

// `ahead simulate --trace` and `--replay`.
namespace ahead::test {
namespace {

using nlohmann::json;

class ATrace : public ::testing::Test {
 protected:
  const std::string root = std::string(AHEAD_SOURCE_DIR) + "/examples/";
  const TemporaryFolder folder;
  const std::string trace = folder / "trace.json";

  [[nodiscard]] Ran simulated() const {
    return run_program({"simulate", root + "evening-class.json", "--strike", root + "stun.json",
                        "--trace", trace});
  }
};

TEST_F(ATrace, ReplaysTheShot) {
  const Ran first = simulated();
  EXPECT_EQ(first.status, 0) << first.err;
  const Ran again = run_program({"simulate", "--replay", trace});
  EXPECT_EQ(again.status, 0) << again.err;
  EXPECT_EQ(again.out, first.out);
  EXPECT_NE(again.err.find("to the last digit"), std::string::npos) << again.err;
}

TEST_F(ATrace, IsWrittenTheSameByItsReplay) {
  EXPECT_EQ(simulated().status, 0);
  const std::string second = folder / "second.json";
  EXPECT_EQ(run_program({"simulate", "--replay", trace, "--trace", second}).status, 0);
  EXPECT_EQ(text_of(second), text_of(trace));
}

TEST_F(ATrace, WhoseRecordIsAnotherIsToldSoAndEndsInNo) {
  EXPECT_EQ(simulated().status, 0);
  json changed = json::parse(text_of(trace));
  changed["events"][4]["t"] = 0.25;
  EXPECT_FALSE(formats::write_file(trace, changed.dump()));
  const Ran again = run_program({"simulate", "--replay", trace});
  EXPECT_EQ(again.status, 1);
  EXPECT_NE(again.err.find("from event 5 on"), std::string::npos) << again.err;
}

TEST_F(ATrace, CannotBeReplayedWithAnotherStrike) {
  EXPECT_EQ(simulated().status, 0);
  EXPECT_EQ(run_program({"simulate", "--replay", trace, "--strike", root + "stun.json"}).status, 2);
}

class AShotThatDoesNotGetOn : public ATrace {
 protected:
  AShotThatDoesNotGetOn() {
    coach::Layout slot{.table = table_with_slot(), .to_play = coach::ToPlay::red};
    slot.balls.push_back({.id = "cue", .colour = coach::Colour::cue, .at = in_the_slot});
    slot.balls.push_back({.id = "red-1", .colour = coach::Colour::red, .at = {0.2, 0.4}});
    EXPECT_FALSE(formats::write_file(layout, formats::write_layout(slot)));
    EXPECT_FALSE(formats::write_file(strike, formats::write_strike(across_the_slot())));
  }

  const std::string layout = folder / "slot.json";
  const std::string strike = folder / "across.json";
};

TEST_F(AShotThatDoesNotGetOn, IsGivenUpInOneLineThatNamesTheBall) {
  const Ran ran = run_program({"simulate", layout, "--strike", strike, "--json"});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err.find('\n'), ran.err.size() - 1) << ran.err;
  EXPECT_NE(ran.err.find("something happens to cue again and again"), std::string::npos) << ran.err;
}

TEST_F(AShotThatDoesNotGetOn, LeavesATraceThatDoesItAgain) {
  const Ran ran = run_program({"simulate", layout, "--strike", strike, "--trace", trace});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(json::parse(text_of(trace))["stuck"], json{"cue"});

  const std::string second = folder / "second.json";
  const Ran again = run_program({"simulate", "--replay", trace, "--trace", second});
  EXPECT_EQ(again.status, 2);
  EXPECT_NE(again.err.find("does not get on"), std::string::npos) << again.err;
  EXPECT_EQ(text_of(second), text_of(trace));
}

}  // namespace
}  // namespace ahead::test
