#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <gtest/gtest.h>

// The arrows between the rooms are facts, not intentions: every #include line is read and held
// against the three tables below. A room includes itself and the rooms to its left.
namespace {

using Names = std::vector<std::string_view>;

const Names rooms{"engine", "coach", "formats", "capture", "lesson", "store", "server", "cli"};
const Names engine_floors{"geometry", "equipment", "motion", "contact", "simulate"};

/// Includes beginning with `prefix` belong to these rooms and to no other.
struct Guest {
  std::string_view prefix;
  Names rooms;
};
const std::vector<Guest> guests{
    {"nlohmann/", {"formats"}},
    {"fmt/", {"formats", "lesson", "server", "cli"}},
    {"tbb/", {"coach"}},
    {"oneapi/", {"coach"}},
    {"CLI/", {"cli"}},
    {"boost/", {"coach", "tests"}},
    {"sqlite3.h", {"store"}},
    {"httplib.h", {"server"}},
    {"sys/", {"formats", "lesson", "server", "cli"}},
    {"arpa/", {"server"}},
    {"netinet/", {"server"}},
    {"opencv2/", {"capture"}},
    {"webp/", {"capture"}},
    {"turbojpeg.h", {"capture"}},
    {"png.h", {"capture"}},
    {"librsvg/", {"lesson"}},
    {"pango/", {"lesson"}},
    {"fontconfig/", {"lesson"}},
};

/// The engine reads no file, no clock and no thread.
const Names not_in_the_engine{
    "chrono", "condition_variable", "cstdio", "ctime", "filesystem", "fstream",
    "future", "iostream",           "mutex",  "thread"};

struct Include {
  std::string target;
  bool quoted = false;
};

bool has(const Names& names, std::string_view name) {
  return std::ranges::find(names, name) != names.end();
}

std::optional<std::ptrdiff_t> place(const Names& order, std::string_view name) {
  const auto found = std::ranges::find(order, name);
  if (found == order.end()) return std::nullopt;
  return found - order.begin();
}

/// The n-th folder of a path such as "engine/geometry/vec.h", counted from 0; empty if there is
/// none.
std::string_view folder(std::string_view path, int n) {
  for (; n > 0; --n) {
    const auto slash = path.find('/');
    if (slash == std::string_view::npos) return {};
    path.remove_prefix(slash + 1);
  }
  const auto slash = path.find('/');
  return slash == std::string_view::npos ? std::string_view{} : path.substr(0, slash);
}

std::optional<Include> include_in(std::string_view line) {
  const auto skip_blanks = [&line] {
    line.remove_prefix(std::min(line.find_first_not_of(" \t"), line.size()));
  };
  for (const std::string_view word : {"#", "include"}) {
    skip_blanks();
    if (!line.starts_with(word)) return std::nullopt;
    line.remove_prefix(word.size());
  }
  skip_blanks();
  if (!line.starts_with('"') && !line.starts_with('<')) return std::nullopt;
  const bool quoted = line.front() == '"';
  line.remove_prefix(1);
  return Include{.target = std::string(line.substr(0, line.find(quoted ? '"' : '>'))),
                 .quoted = quoted};
}

/// What is wrong with `include` in `file` (a path from the root), if anything is.
std::optional<std::string> offence(std::string_view file, const Include& include) {
  const std::string_view room = folder(file, 0);
  const std::string_view target = include.target;

  if (include.quoted) {
    const auto theirs = place(rooms, folder(target, 0));
    if (!theirs) return "name the file by its full path from the root";
    if (*theirs > *place(rooms, room)) {
      return std::string(room) + " may not use " + std::string(folder(target, 0));
    }
    const auto our_floor = place(engine_floors, folder(file, 1));
    const auto their_floor = place(engine_floors, folder(target, 1));
    if (room == "engine" && our_floor && their_floor && *their_floor > *our_floor) {
      return "engine/" + std::string(folder(file, 1)) + " may not use engine/" +
             std::string(folder(target, 1));
    }
    return std::nullopt;
  }

  if (room == "engine" && has(not_in_the_engine, target)) {
    return "the engine reads no file, no clock and no thread";
  }
  const auto guest = std::ranges::find_if(
      guests, [target](const Guest& candidate) { return target.starts_with(candidate.prefix); });
  if (guest == guests.end()) {
    if (!target.contains('/')) return std::nullopt;  // the C++ library
    return "no room may use it";
  }
  if (!has(guest->rooms, room)) return std::string(room) + " may not use it";
  return std::nullopt;
}

std::vector<std::string> offences_in_the_tree(const std::filesystem::path& root) {
  std::vector<std::string> found;
  for (const std::string_view room : rooms) {
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root / room)) {
      if (entry.path().extension() != ".h" && entry.path().extension() != ".cpp") continue;
      const std::string file = entry.path().lexically_relative(root).generic_string();
      std::ifstream text(entry.path());
      int number = 0;
      for (std::string line; std::getline(text, line);) {
        ++number;
        const auto include = include_in(line);
        if (!include) continue;
        if (const auto wrong = offence(file, *include)) {
          std::string offender = file;
          offender.append(":").append(std::to_string(number)).append(": ").append(line);
          found.push_back(offender.append("\n    ").append(*wrong));
        }
      }
    }
  }
  std::ranges::sort(found);
  return found;
}

TEST(TheRooms, IncludeOnlyTheRoomsAboveThem) {
  for (const std::string& offender : offences_in_the_tree(AHEAD_SOURCE_DIR)) {
    ADD_FAILURE() << offender;
  }
}

struct Case {
  std::string id, file, line;
};

std::string id_of(const ::testing::TestParamInfo<Case>& row) { return row.param.id; }

class AnIncludeAgainstTheArrows : public ::testing::TestWithParam<Case> {};

TEST_P(AnIncludeAgainstTheArrows, IsFound) {
  const auto include = include_in(GetParam().line);
  ASSERT_TRUE(include.has_value());
  EXPECT_TRUE(offence(GetParam().file, *include).has_value());
}

INSTANTIATE_TEST_SUITE_P(
    Planted, AnIncludeAgainstTheArrows,
    ::testing::Values(
        Case{"room", "engine/simulate/shot.cpp", R"(#include "coach/aim/aim.h")"},
        Case{"far_room", "coach/aim/aim.h", R"(#include "cli/main.h")"},
        Case{"floor", "engine/geometry/vec.h", R"(#include "engine/motion/ball_state.h")"},
        Case{"short_path", "engine/geometry/vec.cpp", R"(#include "vec.h")"},
        Case{"json", "lesson/words/words.cpp", "#include <nlohmann/json.hpp>"},
        Case{"threads", "formats/plan.cpp", "#include <tbb/parallel_for.h>"},
        Case{"options", "lesson/pack.cpp", "#include <CLI/CLI.hpp>"},
        Case{"database", "server/serve.cpp", "#include <sqlite3.h>"},
        Case{"http", "cli/serve.cpp", "#include <httplib.h>"},
        Case{"upwards", "store/library.cpp", R"(#include "server/serve.h")"},
        Case{"clock", "engine/simulate/simulate.cpp", "#include <chrono>"},
        Case{"tests_only", "engine/motion/motion.cpp", "#include <boost/numeric/odeint.hpp>"},
        Case{"stranger", "coach/plan/plan.h", "#include <gsl/span>"},
        Case{"blanks", "engine/geometry/vec.h", R"(  #  include  "cli/main.h"  // why)"}),
    id_of);

class AnIncludeAlongTheArrows : public ::testing::TestWithParam<Case> {};

TEST_P(AnIncludeAlongTheArrows, IsLeftAlone) {
  const auto include = include_in(GetParam().line);
  ASSERT_TRUE(include.has_value());
  EXPECT_EQ(offence(GetParam().file, *include), std::nullopt);
}

INSTANTIATE_TEST_SUITE_P(
    Usual, AnIncludeAlongTheArrows,
    ::testing::Values(Case{"room", "coach/aim/aim.cpp", R"(#include "engine/simulate/shot.h")"},
                      Case{"same_room", "coach/plan/plan.cpp", R"(#include "coach/aim/aim.h")"},
                      Case{"floor", "engine/motion/rolling.h",
                           R"(#include "engine/geometry/vec.h")"},
                      Case{"json", "formats/layout.cpp", "#include <nlohmann/json.hpp>"},
                      Case{"library", "engine/geometry/vec.h", "#include <vector>"}),
    id_of);

}  // namespace
