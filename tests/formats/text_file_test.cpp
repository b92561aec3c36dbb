#include "formats/text_file.h"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <string>

#include <gtest/gtest.h>

#include "tests/support/temporary_folder.h"
#include "tests/support/text_of.h"

namespace ahead::formats {
namespace {

using test::TemporaryFolder;
using test::text_of;

auto files_in(const std::filesystem::path& folder) {
  return std::distance(std::filesystem::directory_iterator(folder), {});
}

TEST(AFile, IsReadBackAsItWasWritten) {
  const TemporaryFolder folder;
  const std::string text("line\nzero\0byte\xFF", 15);

  EXPECT_EQ(write_file(folder / "a", text), std::nullopt);

  EXPECT_EQ(read_file(folder / "a").value(), text);
  EXPECT_EQ(files_in(folder.path()), 1) << "the temporary file is gone";
}

TEST(AFile, ReplacesTheOldOneWhole) {
  const TemporaryFolder folder;
  ASSERT_EQ(write_file(folder / "a", "a long old text"), std::nullopt);

  ASSERT_EQ(write_file(folder / "a", "new"), std::nullopt);

  EXPECT_EQ(text_of(folder / "a"), "new");
}

TEST(AFile, ThatCannotReplaceAnotherLeavesItAndNothingElse) {
  const TemporaryFolder folder;
  std::filesystem::create_directories(folder / "a/inside");

  EXPECT_NE(write_file(folder / "a", "text"), std::nullopt);

  EXPECT_TRUE(std::filesystem::is_directory(folder / "a/inside"));
  EXPECT_EQ(files_in(folder.path()), 1);
}

TEST(AFile, CannotBeWrittenIntoAFolderThatIsNotThere) {
  const TemporaryFolder folder;
  const auto error = write_file(folder / "none/a", "text");
  ASSERT_TRUE(error.has_value());
  EXPECT_NE(error->wrong.find("No such file"), std::string::npos) << error->wrong;
}

TEST(AFile, OfFourMegabytesIsReadAndALargerOneIsNot) {
  const TemporaryFolder folder;
  ASSERT_EQ(write_file(folder / "fits", std::string(4'000'000, 'x')), std::nullopt);
  ASSERT_EQ(write_file(folder / "too-large", std::string(4'000'001, 'x')), std::nullopt);

  EXPECT_EQ(read_file(folder / "fits").value().size(), 4'000'000U);
  EXPECT_EQ(read_file(folder / "too-large").error().wrong, "is larger than 4 MB");
}

// An endless file must not be read to its end.
TEST(AFile, ThatNeverEndsIsRefused) {
  EXPECT_EQ(read_file("/dev/zero").error().wrong, "is larger than 4 MB");
}

TEST(AFile, MayNotBeAFolder) {
  EXPECT_EQ(read_file("/").error().wrong, "cannot be read (it is a folder)");
}

}  // namespace
}  // namespace ahead::formats
