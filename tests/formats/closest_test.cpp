#include "formats/closest.h"

#include <array>
#include <string>

#include <gtest/gtest.h>

namespace ahead::formats {
namespace {

constexpr std::array<std::string_view, 3> words{"simulate", "table", "player"};

TEST(TheClosestWord, IsFoundForASlipOrTwo) {
  EXPECT_EQ(closest("tabel", words), "table");     // swapped
  EXPECT_EQ(closest("tble", words), "table");      // left out
  EXPECT_EQ(closest("plaayer", words), "player");  // doubled
  EXPECT_EQ(closest("simyladte", words), "simulate");
}

TEST(TheClosestWord, IsNotFoundForSomethingElse) {
  EXPECT_EQ(closest("plan", words), std::nullopt);
  EXPECT_EQ(closest("", words), std::nullopt);
  EXPECT_EQ(closest(std::string(1'000'000, 't'), words), std::nullopt);
}

}  // namespace
}  // namespace ahead::formats
