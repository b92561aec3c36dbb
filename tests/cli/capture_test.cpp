#include <filesystem>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "formats/layout.h"
#include "formats/text_file.h"
#include "tests/photographs/judge.h"
#include "tests/support/run_program.h"
#include "tests/support/temporary_folder.h"
#include "tests/support/text_of.h"

namespace ahead::test {
namespace {

using nlohmann::json;

const std::filesystem::path scenes =
    std::filesystem::path(AHEAD_SOURCE_DIR) / "tests/photographs/scenes";

std::vector<std::string> marked(const photographs::Truth& truth) {
  std::vector<std::string> words{"capture", scenes / truth.file, "--table", truth.table,
                                 "--corners"};
  for (const engine::Vec2 corner : truth.given) {
    words.push_back(fmt::format("{},{}", corner.x, corner.y));
  }
  return words;
}

TEST(TheCaptureVerb, PrintsALayoutThatCanBePlayed) {
  const photographs::Truth truth = photographs::read_truth(scenes).front();
  std::vector<std::string> words = marked(truth);
  words.emplace_back("--json");
  const Ran ran = run_program(words);

  ASSERT_EQ(ran.status, 0) << ran.err;
  const json answer = json::parse(ran.out);
  EXPECT_EQ(answer["layout"]["balls"].size(), answer["balls"].size());
  EXPECT_EQ(answer["corners"].size(), 4U);
  EXPECT_LT(answer["residual_px"], 1.5);
  const auto layout = formats::read_layout(answer["layout"].dump(), "layout");
  EXPECT_TRUE(layout.has_value()) << formats::one_line(layout.error());
}

TEST(TheCaptureVerb, WritesItsFolder) {
  const TemporaryFolder folder;
  std::vector<std::string> words = marked(photographs::read_truth(scenes).front());
  words.insert(words.end(),
               {"--out", folder / "out", "--draw", AHEAD_SOURCE_DIR "/examples/after/plan.json"});
  const Ran ran = run_program(words);

  ASSERT_EQ(ran.status, 0) << ran.err;
  EXPECT_NE(ran.out.find("From this camera the cut looks"), std::string::npos) << ran.out;
  for (const char* name :
       {"capture.json", "layout.json", "plan-view.png", "drawing.png", "drawn.png"}) {
    EXPECT_FALSE(text_of(folder / (std::string("out/") + name)).empty()) << name;
  }
}

TEST(TheCaptureVerb, RefusesInOneLine) {
  const TemporaryFolder folder;
  const photographs::Truth truth = photographs::read_truth(scenes).front();
  const auto line = [](const std::vector<std::string>& words) {
    const Ran ran = run_program(words);
    EXPECT_EQ(ran.status, 2);
    EXPECT_EQ(ran.out, "");
    return ran.err;
  };
  std::vector<std::string> words = marked(truth);
  std::swap(words[5], words[6]);
  std::swap(words[7], words[8]);
  EXPECT_NE(line(words).find("the points are in mirrored order; name the corners"),
            std::string::npos);
  std::vector<std::string> other = marked(truth);
  other[3] = "american-9ft";
  EXPECT_NE(line(other).find("as large as they are on american-9ft; say which table it is"),
            std::string::npos);
  other[3] = "snooker-12ft";
  EXPECT_NE(line(other).find("snooker's colours are not told"), std::string::npos);
  words[5] = "12;7";
  EXPECT_NE(line(words).find("\"12;7\" is no place in a picture"), std::string::npos);

  const std::string broken = folder / "broken.jpg";
  ASSERT_FALSE(formats::write_file(broken, text_of(scenes / truth.file).substr(0, 5000)));
  EXPECT_NE(line({"capture", broken}).find("is a damaged JPEG"), std::string::npos);
  EXPECT_NE(line({"capture", folder / "none.jpg"}).find("cannot be read"), std::string::npos);
  const std::string text = folder / "text.jpg";
  ASSERT_FALSE(formats::write_file(text, "a table, four corners and sixteen balls"));
  EXPECT_NE(line({"capture", text}).find("is no picture that is read; give a JPEG, PNG or WebP"),
            std::string::npos);
  EXPECT_NE(line({"capture", AHEAD_SOURCE_DIR "/tests/photographs/shot.mp4", "--out",
                  folder / "out", "--draw", AHEAD_SOURCE_DIR "/examples/after/plan.json"})
                .find("shows no still moment with the balls where the shot begins"),
            std::string::npos);
  const std::string clip = folder / "broken.mp4";
  ASSERT_FALSE(formats::write_file(clip, std::string("\0\0\0\x18", 4) + "ftypmp42 and no more"));
  EXPECT_NE(line({"capture", clip}).find("is no footage that ffmpeg reads"), std::string::npos);
}

}  // namespace
}  // namespace ahead::test
