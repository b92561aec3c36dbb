#include <filesystem>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "formats/text_file.h"
#include "tests/support/run_program.h"
#include "tests/support/temporary_folder.h"
#include "tests/support/text_of.h"

namespace ahead::test {
namespace {

using nlohmann::json;

std::string example(const std::string& name) {
  return std::string(AHEAD_SOURCE_DIR) + "/examples/" + name + ".json";
}

TEST(TheReadVerb, BeginsWithTheColour) {
  const Ran ran = run_program({"read", example("red-or-yellow")});

  EXPECT_EQ(ran.status, 0) << ran.err;
  const std::string first = ran.out.substr(0, ran.out.find("\n\n"));
  EXPECT_NE(first.find("leans to the reds"), std::string::npos) << first;
  EXPECT_NE(first.find("For the reds speak fewer problem balls"), std::string::npos) << first;
  EXPECT_NE(ran.out.find("Open table."), std::string::npos);
}

TEST(TheReadVerb, SaysWhatBlocksAndByHowMuch) {
  const Ran ran = run_program({"read", example("blocked-red")});

  EXPECT_NE(ran.out.find("Red 1. Problem ball: goes nowhere."), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("blocked by yellow 1 (46 mm)"), std::string::npos) << ran.out;
}

TEST(TheReadVerb, DoesNotDependOnTheThreads) {
  const Ran one = run_program({"read", example("evening-class"), "--json", "--threads", "1"});
  const Ran three = run_program({"read", example("evening-class"), "--json", "--threads", "3"});

  EXPECT_EQ(json::parse(one.out)["format"], "three-ahead.reading/1");
  EXPECT_EQ(one.out, three.out);
}

TEST(TheReadVerb, DrawsTheTableAndAMapABall) {
  const TemporaryFolder folder;
  const Ran ran = run_program({"read", example("two-to-go"), "--out", folder / "out"});

  EXPECT_EQ(ran.status, 0) << ran.err;
  for (const std::string name : {"reading.json", "reading.svg", "red-1.svg", "black.svg"}) {
    EXPECT_TRUE(std::filesystem::exists(folder / ("out/" + name))) << name;
  }
  EXPECT_NE(text_of(folder / "out/red-1.svg").find("class=\"region\""), std::string::npos);
}

TEST(TheReadVerb, RefusesBadInput) {
  for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
           {"read"},
           {"read", "no-such-file.json"},
           {"read", example("stun")},
           {"read", example("two-to-go"), "--player", "nobody"},
           {"read", example("two-to-go"), "--table", "nowhere"}}) {
    const Ran ran = run_program(arguments);
    EXPECT_EQ(ran.status, 2);
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(ran.err.find('\n'), ran.err.size() - 1) << ran.err;
  }
}

}  // namespace
}  // namespace ahead::test
