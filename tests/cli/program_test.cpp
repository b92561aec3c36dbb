#include <filesystem>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "formats/text_file.h"
#include "tests/formats/evening.h"
#include "tests/support/run_program.h"
#include "tests/support/temporary_folder.h"

namespace ahead::test {
namespace {

using nlohmann::json;

constexpr std::string_view stun_text =
    R"({"format": "three-ahead.strike/1", "aim_deg": 118.2, "elevation_deg": 3, "side": 0,
        "height": -0.3, "cue_speed": 1.8})";

/// A folder with a layout and a strike, and the program run in it.
class TheProgram : public ::testing::Test {
 protected:
  TheProgram() {
    EXPECT_FALSE(formats::write_file(layout, evening_text()));
    EXPECT_FALSE(formats::write_file(strike, stun_text));
  }

  void write(const std::string& path, const std::string& text) const {
    EXPECT_FALSE(formats::write_file(path, text));
  }

  const TemporaryFolder folder;
  const std::string layout = folder / "evening.json";
  const std::string strike = folder / "stun.json";
};

/// Status 2, nothing on standard output, one line on standard error.
void expect_refused(const Ran& ran) {
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err.find('\n'), ran.err.size() - 1) << ran.err;
  EXPECT_GT(ran.err.size(), 20U);
}

TEST_F(TheProgram, TellsWhatAShotDid) {
  const Ran ran = run_program({"simulate", layout, "--strike", strike});

  EXPECT_EQ(ran.status, 0);
  EXPECT_EQ(ran.err, "");
  EXPECT_NE(ran.out.find("cue ball meets red-1"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("black     (457.0, 1371.5), not moved"), std::string::npos) << ran.out;
}

TEST_F(TheProgram, PrintsOneJsonDocumentWhenAsked) {
  const Ran ran = run_program({"simulate", layout, "--strike", strike, "--json"});

  EXPECT_EQ(ran.status, 0);
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(json::parse(ran.out)["format"], "three-ahead.shot/1");
}

TEST_F(TheProgram, GivesTheSameAnswerAgain) {
  const std::vector<std::string> arguments{"simulate", layout, "--strike", strike, "--json"};
  EXPECT_EQ(run_program(arguments).out, run_program(arguments).out);
}

TEST_F(TheProgram, PlaysOnAnotherTableWhenAsked) {
  const std::string slow = folder / "slow.json";
  std::string table = run_program({"table", "english-7ft"}).out;
  write(slow, replaced(table, "\"rolling\": 0.014", "\"rolling\": 0.03"));

  const Ran fast = run_program({"simulate", layout, "--strike", strike});
  const Ran other = run_program({"simulate", layout, "--strike", strike, "--table", slow});

  EXPECT_EQ(other.status, 0) << other.err;
  EXPECT_NE(other.out, fast.out);
}

TEST_F(TheProgram, CautionsAboutARaisedCue) {
  const auto with_elevation = [&](const std::string& degrees) {
    write(strike, replaced(std::string(stun_text), "\"elevation_deg\": 3",
                           "\"elevation_deg\": " + degrees));
    return run_program({"simulate", layout, "--strike", strike}).out;
  };
  EXPECT_EQ(with_elevation("14.9").find("Raised cue"), std::string::npos);
  EXPECT_NE(with_elevation("15").find("Raised cue"), std::string::npos);
  EXPECT_EQ(with_elevation("30").find("cloth at risk"), std::string::npos);
  EXPECT_NE(with_elevation("31").find("cloth at risk"), std::string::npos);

  const Ran as_json = run_program({"simulate", layout, "--strike", strike, "--json"});
  EXPECT_TRUE(json::accept(as_json.out));
  EXPECT_NE(as_json.err.find("Raised cue"), std::string::npos);
}

TEST_F(TheProgram, PrintsPresetsThatItReads) {
  for (const std::string verb : {"table", "player"}) {
    const std::string file = folder / (verb + ".json");
    const json list = json::parse(run_program({verb, "--json"}).out);
    const Ran printed = run_program({verb, list[verb + "s"].back().get<std::string>()});
    write(file, printed.out);
    EXPECT_EQ(run_program({verb, file}).out, printed.out);
  }
}

TEST_F(TheProgram, PrintsSchemas) {
  const Ran ran = run_program({"schema", "layout"});
  EXPECT_EQ(ran.status, 0);
  EXPECT_EQ(json::parse(ran.out)["title"], "Layout");
}

TEST_F(TheProgram, TeachesEachVerb) {
  const Ran top = run_program({"--help"});
  EXPECT_EQ(top.status, 0);
  for (const std::string verb : {"read", "simulate", "table", "player", "schema"}) {
    EXPECT_NE(top.out.find("\n  " + verb), std::string::npos);
    const Ran ran = run_program({verb, "--help"});
    EXPECT_EQ(ran.status, 0);
    EXPECT_EQ(ran.err, "");
    for (const auto* part : {"Example:\n  ahead ", "--json", "--seed", "--threads", "output"}) {
      EXPECT_NE(ran.out.find(part), std::string::npos) << verb << " lacks " << part;
    }
  }
}

// What a help text shows must be there to be tried.
TEST_F(TheProgram, ShowsExamplesThatWork) {
  const std::string root = std::string(AHEAD_SOURCE_DIR) + "/";
  const std::string help = run_program({"simulate", "--help"}).out;
  ASSERT_NE(help.find("simulate examples/evening-class.json --strike examples/stun.json"),
            std::string::npos);
  const Ran ran = run_program(
      {"simulate", root + "examples/evening-class.json", "--strike", root + "examples/stun.json"});
  EXPECT_EQ(ran.status, 0) << ran.err;
}

TEST_F(TheProgram, TakesTheCommonOptionsWithEveryVerb) {
  const std::vector<std::string> common{"--seed", "7", "--threads", "2", "--json"};
  for (std::vector<std::string> arguments : std::vector<std::vector<std::string>>{
           {"simulate", layout, "--strike", strike}, {"table"}, {"player", "club"}, {"schema"}}) {
    arguments.insert(arguments.end(), common.begin(), common.end());
    const Ran ran = run_program(arguments);
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_TRUE(json::accept(ran.out));
  }
}

TEST_F(TheProgram, RefusesBadUsage) {
  expect_refused(run_program({}));
  expect_refused(run_program({"simulat"}));
  expect_refused(run_program({"simulate"}));
  expect_refused(run_program({"simulate", layout}));
  expect_refused(run_program({"simulate", layout, "--strike"}));
  expect_refused(run_program({"simulate", layout, "--strike", strike, "--strik", strike}));
  expect_refused(run_program({"simulate", layout, layout, "--strike", strike}));
  expect_refused(run_program({"table", "--seed", "-1"}));
  expect_refused(run_program({"table", "--seed", "1e3"}));
  expect_refused(run_program({"table", "--seed", "99999999999999999999"}));
  expect_refused(run_program({"table", "--threads", "-1"}));
  expect_refused(run_program({"table", "table", "player"}));
  expect_refused(run_program({"two\nlines"}));
}

TEST_F(TheProgram, RefusesFilesThatItCannotUse) {
  const auto simulate = [&](const std::string& file) {
    return run_program({"simulate", file, "--strike", strike});
  };
  expect_refused(simulate(folder / "none.json"));
  expect_refused(simulate(folder.path()));
  expect_refused(simulate("/dev/null"));
  expect_refused(simulate(strike));
  expect_refused(run_program({"simulate", layout, "--strike", layout}));
  expect_refused(run_program({"simulate", layout, "--strike", strike, "--table", "english-9ft"}));
  expect_refused(run_program({"simulate", layout, "--strike", strike, "--table", layout}));
  expect_refused(run_program({"table", "english"}));
  expect_refused(run_program({"player", folder / "none.json"}));
  expect_refused(run_program({"schema", "lay-out"}));
}

TEST_F(TheProgram, RefusesTenMegabytesOfGarbage) {
  std::string garbage(10'000'000, ' ');
  unsigned state = 1;
  for (char& c : garbage) {
    state = state * 1664525U + 1013904223U;
    c = static_cast<char>(state >> 24U);
  }
  const std::string file = folder / "garbage.json";
  write(file, garbage);
  expect_refused(run_program({"simulate", file, "--strike", strike}));
  write(file, garbage.substr(0, 3'000'000));
  expect_refused(run_program({"simulate", file, "--strike", strike}));
  write(file, std::string(3'000'000, '['));
  expect_refused(run_program({"simulate", file, "--strike", strike}));
}

TEST_F(TheProgram, NoticesWhenItsOutputCannotBeWritten) {
  if (!std::filesystem::exists("/dev/full")) GTEST_SKIP();
  const Ran ran = run_program({"table", "english-7ft"}, "/dev/full");
  EXPECT_EQ(ran.status, 2);
  EXPECT_NE(ran.err.find("standard output: cannot be written"), std::string::npos) << ran.err;
}

}  // namespace
}  // namespace ahead::test
