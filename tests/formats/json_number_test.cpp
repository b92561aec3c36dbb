#include "formats/workbench/json_number.h"

#include <cmath>
#include <cstdlib>
#include <string>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace ahead::formats {
namespace {

std::string text_of(double value, int decimals) {
  std::string text;
  append_number(text, value, decimals);
  return text;
}

TEST(ANumberOfAnAnswer, HasNoNeedlessDigits) {
  EXPECT_EQ(text_of(12.5, 1), "12.5");
  EXPECT_EQ(text_of(12.0, 3), "12");
  EXPECT_EQ(text_of(-0.04, 1), "0");
  EXPECT_EQ(text_of(-0.06, 1), "-0.1");
  EXPECT_EQ(text_of(0.00071, 5), "0.00071");
  EXPECT_EQ(text_of(1.05, 4), "1.05");
  EXPECT_EQ(text_of(7, 0), "7");
}

// Against the C library's own reading and printing of decimals.
RC_GTEST_PROP(ANumberOfAnAnswer, IsTheValueToSoManyDecimals, ()) {
  const int decimals = *rc::gen::inRange(0, 7);
  const double value =
      *rc::gen::inRange(-1'000'000'000, 1'000'000'000) / 1000.0 + *rc::gen::inRange(0, 1000) / 1e6;
  const std::string text = text_of(value, decimals);
  const double step = std::pow(10.0, -decimals);
  RC_ASSERT(std::abs(std::strtod(text.c_str(), nullptr) - value) <= 0.5 * step * (1 + 1e-6));
  RC_ASSERT(text.find('.') == std::string::npos || text.back() != '0');
}

}  // namespace
}  // namespace ahead::formats
