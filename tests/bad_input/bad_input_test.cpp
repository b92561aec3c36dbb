#include <algorithm>
#include <string>

#include <gtest/gtest.h>

#include "tests/bad_input/cases.h"

namespace ahead::test {
namespace {

class ABadInput : public ::testing::TestWithParam<BadInput> {};

TEST_P(ABadInput, IsRefusedWithItsLine) {
  const auto error = refusal(GetParam().kind, GetParam().text);

  ASSERT_TRUE(error.has_value()) << "was accepted";
  EXPECT_EQ(formats::one_line(*error), GetParam().expected);
}

TEST(BadInputs, AreThere) { EXPECT_GT(bad_inputs().size(), 100U); }

INSTANTIATE_TEST_SUITE_P(Folder, ABadInput, ::testing::ValuesIn(bad_inputs()), [](const auto& row) {
  std::string name = row.param.name;
  std::ranges::replace(name, '-', '_');
  return name;
});

}  // namespace
}  // namespace ahead::test
