#include "store/library.h"

#include <fstream>

#include <gtest/gtest.h>

#include "store/migrations.h"
#include "store/statement.h"
#include "tests/support/temporary_folder.h"
#include "tests/support/text_of.h"

namespace ahead::store {
namespace {

constexpr const char* now = "2026-01-31T19:05:00Z";

Entry entry(const std::string& id, const std::string& document = "{}") {
  return {.id = id, .name = "n", .document = document, .facts = ""};
}

std::unique_ptr<Library> opened(const std::filesystem::path& file) {
  auto library = Library::open(file);
  EXPECT_TRUE(library.has_value());
  return *std::move(library);
}

/// A file as an older version of the program left it, with an entry of each kind that it knew.
void make_older_file(const std::filesystem::path& file, int version) {
  const Database database = open_database(file);
  migrate(database.get(), version);
  execute(database.get(),
          "INSERT INTO layouts VALUES ('l', 7, 'old', '{}', '', '2025', '2025');"
          "INSERT INTO players VALUES ('p', 1, 'old', '{}', '', '2025', '2025')");
  if (version >= 2) {
    execute(database.get(),
            "INSERT INTO plans VALUES ('q', 1, 'old', '{}', '', '2025', '2025', 'l', NULL);"
            "INSERT INTO plan_history VALUES ('q', 1, 'old', '{}', '', '2025')");
  }
}

class AnOlderFile : public ::testing::TestWithParam<int> {};

TEST_P(AnOlderFile, IsBroughtUpToDateWithAllThatIsInIt) {
  const test::TemporaryFolder folder;
  const auto file = folder / "library.sqlite";
  make_older_file(file, GetParam());

  auto library = opened(file);

  EXPECT_FALSE(library->was_made());
  EXPECT_EQ(library->checked(), "ok");
  EXPECT_EQ((*library->get(Kind::layout, "l"))->revision, 7);
  EXPECT_EQ((*library->get(Kind::player, "p"))->name, "old");
  EXPECT_EQ(library->history("q")->size(), GetParam() >= 2 ? 1U : 0U);
  Entry result = entry("r");
  EXPECT_TRUE(std::holds_alternative<Stored>(*library->put(Kind::result, result, {}, now)));
  EXPECT_TRUE(std::holds_alternative<Stored>(*library->put(Kind::words, entry("l"), {}, now)));
}

INSTANTIATE_TEST_SUITE_P(Versions, AnOlderFile, ::testing::Values(1, 2, 3));

TEST(ANewerFile, IsLeftAlone) {
  const test::TemporaryFolder folder;
  const auto file = folder / "library.sqlite";
  opened(file);
  execute(open_database(file).get(), "PRAGMA user_version = 99");
  const auto library = Library::open(file);
  ASSERT_FALSE(library.has_value());
  EXPECT_EQ(library.error().kind, FaultKind::newer);
}

TEST(AFileThatIsNoLibrary, IsRefused) {
  const test::TemporaryFolder folder;
  const auto file = folder / "library.sqlite";
  std::ofstream(file) << std::string(5000, 'x');
  const auto library = Library::open(file);
  ASSERT_FALSE(library.has_value());
  EXPECT_EQ(library.error().kind, FaultKind::damaged);
  EXPECT_EQ(test::text_of(file), std::string(5000, 'x'));
}

TEST(AFullDisk, IsToldAndLosesNothing) {
  const test::TemporaryFolder folder;
  auto library = opened(folder / "library.sqlite");
  ASSERT_TRUE(library->limit_bytes(300'000).has_value());
  const std::string large = '"' + std::string(20'000, 'x') + '"';
  int stored = 0;
  Outcome<std::variant<Stored, Stale, Missing, Taken>> put =
      library->put(Kind::layout, entry("0", large), {}, now);
  while (put) {
    ++stored;
    put = library->put(Kind::layout, entry(std::to_string(stored), large), {}, now);
  }
  EXPECT_EQ(put.error().kind, FaultKind::full);
  EXPECT_GT(stored, 3);
  EXPECT_EQ(library->list(Kind::layout)->size(), static_cast<std::size_t>(stored));
  EXPECT_EQ(library->checked(), "ok");

  // When there is room again, it goes on.
  ASSERT_TRUE(library->limit_bytes(3'000'000).has_value());
  EXPECT_TRUE(library->put(Kind::layout, entry("last", large), {}, now).has_value());
}

TEST(AReferenceThatLeadsNowhere, IsRefusedWhole) {
  const test::TemporaryFolder folder;
  auto library = opened(folder / "library.sqlite");
  Entry plan = entry("p");
  plan.layout = "nowhere";
  const auto put = library->put(Kind::plan, plan, {}, now);
  ASSERT_FALSE(put.has_value());
  EXPECT_EQ(put.error().kind, FaultKind::reference);
  EXPECT_EQ(*library->get(Kind::plan, "p"), std::nullopt);
  EXPECT_TRUE(library->history("p")->empty());
}

TEST(AnEntry, CountsItsRevisionsAndKeepsItsBirthday) {
  const test::TemporaryFolder folder;
  auto library = opened(folder / "library.sqlite");
  static_cast<void>(library->put(Kind::layout, entry("a"), {}, now));
  const auto put = library->put(Kind::layout, entry("a", "[1]"), 1, "2026-02-01T00:00:00Z");
  const Entry stored = std::get<Stored>(*put).entry;
  EXPECT_EQ(stored.revision, 2);
  EXPECT_EQ(stored.created, now);
  EXPECT_EQ(stored.changed, "2026-02-01T00:00:00Z");
  EXPECT_EQ(*library->get(Kind::layout, "a"), stored);
  EXPECT_TRUE(std::holds_alternative<Taken>(*library->put(Kind::layout, entry("a"), {}, now)));
  EXPECT_EQ(std::get<Stale>(*library->put(Kind::layout, entry("a"), 1, now)).revision, 2);
  EXPECT_TRUE(std::holds_alternative<Missing>(*library->put(Kind::layout, entry("b"), 1, now)));
}

}  // namespace
}  // namespace ahead::store
