#include "formats/utf8.h"

#include <string>

#include <gtest/gtest.h>

namespace ahead::formats {
namespace {

TEST(Utf8, AcceptsTheEndsOfEveryRange) {
  EXPECT_EQ(first_byte_not_utf8("\x7F\xC2\x80\xDF\xBF\xE0\xA0\x80\xED\x9F\xBF\xEE\x80\x80\xEF\xBF"
                                "\xBF\xF0\x90\x80\x80\xF4\x8F\xBF\xBF"),
            std::nullopt);
}

struct Bad {
  std::string id, text;
};

class Utf8NotWellFormed : public ::testing::TestWithParam<Bad> {};

TEST_P(Utf8NotWellFormed, IsFoundWhereItStarts) {
  EXPECT_EQ(first_byte_not_utf8("ab" + GetParam().text), 2U);
}

INSTANTIATE_TEST_SUITE_P(
    Text, Utf8NotWellFormed,
    ::testing::Values(Bad{"continuation", "\x80"}, Bad{"overlong_two", "\xC1\xBF"},
                      Bad{"overlong_three", "\xE0\x9F\xBF"}, Bad{"surrogate", "\xED\xA0\x80"},
                      Bad{"overlong_four", "\xF0\x8F\xBF\xBF"},
                      Bad{"above_the_last", "\xF4\x90\x80\x80"}, Bad{"no_such_lead", "\xFF"},
                      Bad{"cut_off", "\xE2\x82"}, Bad{"broken_off", "\xE2\x82z"}),
    [](const auto& row) { return row.param.id; });

}  // namespace
}  // namespace ahead::formats
