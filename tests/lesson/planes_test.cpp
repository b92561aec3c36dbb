#include "lesson/film/planes.h"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "formats/plan.h"
#include "lesson/film/painter.h"
#include "tests/support/text_of.h"

namespace ahead::lesson {
namespace {

struct Bar {
  std::string name;
  std::array<unsigned char, 4> bgr;
  std::array<int, 3> levels;
};

// 100% colour bars in 8 bits, from the equations and the quantisation of ITU-R BT.709-6 (the levels
// are those that test charts of the trade show; from memory).
class AColourBar : public ::testing::TestWithParam<Bar> {};

TEST_P(AColourBar, HasTheLevelsOfTheRecommendation) {
  std::vector<unsigned char> frame;
  for (int i = 0; i < 4; ++i) {
    frame.insert(frame.end(), GetParam().bgr.begin(), GetParam().bgr.end());
  }
  Planes planes(2, 2);
  planes.take(frame, {0, 0, 2, 2});

  const auto bytes = planes.bytes();
  ASSERT_EQ(bytes.size(), 6U);
  const auto [y, cb, cr] = GetParam().levels;
  for (int i = 0; i < 4; ++i) EXPECT_EQ(bytes[static_cast<std::size_t>(i)], y);
  EXPECT_EQ(bytes[4], cb);
  EXPECT_EQ(bytes[5], cr);
}

INSTANTIATE_TEST_SUITE_P(Bars, AColourBar,
                         ::testing::Values(Bar{"white", {255, 255, 255, 0}, {235, 128, 128}},
                                           Bar{"yellow", {0, 255, 255, 0}, {219, 16, 138}},
                                           Bar{"cyan", {255, 255, 0, 0}, {188, 154, 16}},
                                           Bar{"green", {0, 255, 0, 0}, {173, 42, 26}},
                                           Bar{"magenta", {255, 0, 255, 0}, {78, 214, 230}},
                                           Bar{"red", {0, 0, 255, 0}, {63, 102, 240}},
                                           Bar{"blue", {255, 0, 0, 0}, {32, 240, 118}},
                                           Bar{"black", {0, 0, 0, 0}, {16, 128, 128}}),
                         [](const auto& row) { return row.param.name; });

TEST(TheRegionsOfAFrame, AreAllThatHasChanged) {
  const std::string file = AHEAD_SOURCE_DIR "/examples/after/plan.json";
  const coach::Plan plan = *formats::read_plan(test::text_of(file), file);
  const LessonWords words = lesson_words(plan, coach::read_balls(plan.layout), {});
  const Look look = house_look();
  constexpr FilmShape small{192, 108, 6};
  // A shot in motion, then one whose lines are drawn: what is still, and what moves.
  Timeline line = clip_timeline(plan, 1);
  const double from_s = line.length_s();
  for (Part part : timeline(plan, words).parts) {
    if (part.shot != 0 || part.beat == Beat::whole) continue;
    const double length_s = part.to_s - part.from_s;
    part.from_s = line.length_s();
    part.to_s = part.from_s + length_s;
    line.parts.push_back(part);
  }
  ASSERT_GT(line.length_s(), from_s);
  Painter painter(plan, words, look, line, small);
  Planes kept(small.width, small.height);
  int partly = 0;
  for (long i = 0; i < line.frames(small.rate); ++i) {
    const Painted frame = painter.frame(i);
    Planes anew(small.width, small.height);
    anew.take(frame.pixels, {0, 0, small.width, small.height});
    for (const Region& region : frame.changed) kept.take(frame.pixels, region);
    ASSERT_TRUE(std::ranges::equal(kept.bytes(), anew.bytes())) << "frame " << i;
    partly += frame.changed.empty() || frame.changed[0].width < small.width ? 1 : 0;
  }
  EXPECT_GT(partly, 40) << "most of a film stands still";
}

}  // namespace
}  // namespace ahead::lesson
