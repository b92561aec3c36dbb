#include "formats/look.h"

#include <array>
#include <cmath>
#include <numeric>
#include <set>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "lesson/house_look.h"

namespace ahead::lesson {
namespace {

using coach::Colour;
using formats::Theme;
using Rgb = std::array<double, 3>;

/// Linear light, 0 to 1. Source: IEC 61966-2-1.
Rgb linear(const std::string& hex) {
  Rgb rgb{};
  for (std::size_t i = 0; i < 3; ++i) {
    const double c = std::stoi(hex.substr(1 + 2 * i, 2), nullptr, 16) / 255.0;
    rgb[i] = c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  }
  return rgb;
}

double luminance(const Rgb& c) { return 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2]; }

/// Contrast ratio. Source: WCAG 2.2, definition of contrast ratio.
double contrast(const Rgb& a, const Rgb& b) {
  const double la = luminance(a);
  const double lb = luminance(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

double contrast(const std::string& a, const std::string& b) {
  return contrast(linear(a), linear(b));
}

/// What a person without one kind of cone sees. Source: Machado, Oliveira and Fernandes, IEEE TVCG
/// 15 (2009), severity 1.0.
using Matrix = std::array<Rgb, 3>;
constexpr Matrix protanopia{Rgb{0.152286, 1.052583, -0.204868}, Rgb{0.114503, 0.786281, 0.099216},
                            Rgb{-0.003882, -0.048116, 1.051998}};
constexpr Matrix deuteranopia{Rgb{0.367322, 0.860646, -0.227968}, Rgb{0.280085, 0.672501, 0.047413},
                              Rgb{-0.011820, 0.042940, 0.968881}};
constexpr Matrix tritanopia{Rgb{1.255528, -0.076749, -0.178779}, Rgb{-0.078411, 0.930809, 0.147602},
                            Rgb{0.004733, 0.691367, 0.303900}};

Rgb seen(const Matrix& eye, const Rgb& colour) {
  Rgb out{};
  for (std::size_t i = 0; i < 3; ++i) {
    out[i] =
        std::clamp(std::inner_product(colour.begin(), colour.end(), eye[i].begin(), 0.0), 0.0, 1.0);
  }
  return out;
}

constexpr double words_at_least = 4.5;  // WCAG AA, 1.4.3
constexpr double marks_at_least = 3.0;  // WCAG AA, 1.4.11

class AThemeOfTheLook : public ::testing::TestWithParam<const char*> {
 protected:
  const Look look = house_look();
  const Theme& theme = std::string(GetParam()) == "light" ? look.light : look.dark;
};

TEST_P(AThemeOfTheLook, KeepsWordsReadable) {
  for (const std::string& ground : {theme.paper, theme.card, theme.bed}) {
    EXPECT_GE(contrast(theme.ink, ground), words_at_least) << ground;
    EXPECT_GE(contrast(theme.soft, ground), words_at_least) << ground;
  }
  EXPECT_GE(contrast(theme.paper, theme.accent), words_at_least) << "the order number in its disc";
}

TEST_P(AThemeOfTheLook, KeepsTheCueBallsPathApartFromTheBed) {
  EXPECT_GE(contrast(theme.accent, theme.bed), marks_at_least);
  EXPECT_GE(contrast(theme.accent, theme.card), marks_at_least);
}

INSTANTIATE_TEST_SUITE_P(Themes, AThemeOfTheLook, ::testing::Values("light", "dark"),
                         [](const auto& row) { return std::string(row.param); });

TEST(TheLook, MakesEveryLetterReadableOnItsBall) {
  const Look look = house_look();
  for (const formats::BallLook& ball : look.balls) {
    EXPECT_GE(contrast(ball.text, ball.fill), words_at_least) << ball.letter;
  }
}

// In grey and to every eye, a ratio of 2.5 is a clear step between two discs of one size.
TEST(TheLook, TellsRedsYellowsAndBlackApartInGreyAndToEveryEye) {
  const Look look = house_look();
  const Rgb red = linear(look.ball(Colour::red).fill);
  const Rgb yellow = linear(look.ball(Colour::yellow).fill);
  EXPECT_GE(contrast(red, yellow), 2.5);
  for (const Matrix& eye : {protanopia, deuteranopia, tritanopia}) {
    EXPECT_GE(contrast(seen(eye, red), seen(eye, yellow)), 2.5);
  }
}

TEST(TheLook, GivesEveryBallItsOwnLetter) {
  const Look look = house_look();
  std::set<std::string> letters;
  for (const formats::BallLook& ball : look.balls) letters.insert(ball.letter);
  EXPECT_EQ(letters.size(), look.balls.size());
}

TEST(TheLook, GivesTheTwoGroupsOfAGameDifferentPatterns) {
  const Look look = house_look();
  EXPECT_NE(look.ball(Colour::red).pattern, look.ball(Colour::yellow).pattern);
  EXPECT_NE(look.ball(Colour::solid).pattern, look.ball(Colour::stripe).pattern);
}

TEST(TheLook, IsRefusedWhenAPartIsMissing) {
  EXPECT_FALSE(formats::read_look("{}"));
  EXPECT_FALSE(formats::read_look("no look"));
}

}  // namespace
}  // namespace ahead::lesson
