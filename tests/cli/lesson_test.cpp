#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "formats/text_file.h"
#include "tests/support/run_program.h"
#include "tests/support/temporary_folder.h"
#include "tests/support/text_of.h"

// The verb that makes a lesson, as a person runs it.
namespace ahead::test {
namespace {

using ::testing::HasSubstr;
namespace fs = std::filesystem;

const std::string plan = AHEAD_SOURCE_DIR "/examples/after/plan.json";

std::map<std::string, std::string> files_in(const std::string& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file()) {
      files[entry.path().lexically_relative(folder).string()] = text_of(entry.path());
    }
  }
  return files;
}

TEST(TheLessonVerb, MakesTheSameBytesAgainAndSealsThem) {
  const TemporaryFolder folder;
  const auto make = [&](const std::string& out) {
    return run_program({"lesson", plan, "--out", folder / out, "--png-width", "200", "--json"});
  };
  const Ran first = make("one");
  ASSERT_EQ(first.status, 0) << first.err;
  ASSERT_EQ(make("two").status, 0);

  const auto one = files_in(folder / "one");
  EXPECT_EQ(one, files_in(folder / "two"));
  const auto manifest = nlohmann::json::parse(first.out);
  EXPECT_EQ(manifest["format"], "three-ahead.lesson/1");
  EXPECT_EQ(manifest["files"].size() + 1, one.size()) << "every file but the manifest itself";
  for (const auto& file : manifest["files"]) {
    EXPECT_EQ(one.at(file["name"]).size(), file["bytes"].get<std::size_t>());
    EXPECT_EQ(file["sha256"].get<std::string>().size(), 64U);
  }
  for (const char* name :
       {"words.txt", "words.json", "pictures/overview.svg", "pictures/shot-01.png", "sheet-a4.pdf",
        "sheet-letter.pdf", "clearance.html", "captions.vtt", "transcript.txt",
        "audio-description.txt"}) {
    EXPECT_TRUE(one.contains(name)) << name;
  }
}

TEST(TheLessonVerb, KeepsTheTeachersWords) {
  const TemporaryFolder folder;
  const std::string out = folder / "lesson";
  const std::vector<std::string> again{"lesson", plan, "--out", out, "--what", "words,page"};
  ASSERT_EQ(run_program(again).status, 0);
  auto words = nlohmann::json::parse(text_of(out + "/words.json"));
  words["sentences"].back()["mine"] = "As I always say.";
  ASSERT_FALSE(formats::write_file(out + "/words.json", words.dump()));

  ASSERT_EQ(run_program(again).status, 0);

  EXPECT_THAT(text_of(out + "/words.txt"), HasSubstr("As I always say."));
  EXPECT_THAT(text_of(out + "/clearance.html"), HasSubstr("As I always say."));
  // Told for somebody else the facts are others: the words are kept, flagged and not used.
  auto other = again;
  other.insert(other.end(), {"--for", "self", "--units", "in"});
  const Ran flagged = run_program(other);
  EXPECT_EQ(flagged.status, 0);
  EXPECT_THAT(text_of(out + "/words.json"), HasSubstr("As I always say."));
}

TEST(TheLessonVerb, RefusesWhatItDoesNotKnow) {
  const TemporaryFolder folder;
  const auto refused = [&](std::vector<std::string> more) {
    more.insert(more.begin(), {"lesson", plan, "--out", folder / "x"});
    const Ran ran = run_program(more);
    EXPECT_EQ(ran.status, 2);
    EXPECT_EQ(ran.err.find('\n'), ran.err.size() - 1) << ran.err;
  };
  refused({"--what", "words,film"});
  refused({"--for", "nobody"});
  refused({"--png-width", "9000"});
  refused({"--clip", "50"});
  ASSERT_FALSE(formats::make_folder(folder / "x"));
  ASSERT_FALSE(formats::write_file(folder / "x/words.json", "{"));
  refused({});
  EXPECT_EQ(text_of(folder / "x/words.json"), "{") << "nothing lost";
}

}  // namespace
}  // namespace ahead::test
