#include "lesson/figure/style.h"

#include <array>

#include <fmt/format.h>

#include "lesson/figure/ball.h"
#include "lesson/figure/svg.h"

namespace ahead::lesson {
namespace {

using coach::Colour;
using formats::Look;
using formats::Theme;

constexpr std::array colours{Colour::cue,   Colour::red,   Colour::yellow, Colour::green,
                             Colour::brown, Colour::blue,  Colour::pink,   Colour::black,
                             Colour::solid, Colour::stripe};

/// Widths, sizes and textures: the same in both themes.
std::string shapes(const Look& look) {
  const formats::Lines& lines = look.lines;
  std::string css = fmt::format("text{{font-family:{}}}\n", look.body_font);
  const auto width = [&css](std::string_view selector, double mm) {
    css += fmt::format("{}{{fill:none;stroke-width:{}}}\n", selector, number(mm));
  };
  width(".nose,.fall", lines.nose_mm);
  width(".rule,.tape", lines.rule_mm);
  width(".pocket", lines.pocket_mm);
  width(".mark", lines.nose_mm);
  width(".hairline,.ghost", lines.hairline_mm);
  width(".found", lines.contour_mm);
  width(".half,.nine-tenths", lines.contour_mm);
  width(".tick", lines.tick_mm);
  css += fmt::format(".ball .face{{stroke-width:{}}}\n", number(lines.ball_mm));
  css += fmt::format(".ball.cue .face{{stroke-width:{}}}\n", number(lines.cue_ball_mm));
  css +=
      ".fall{stroke-width:1.6;stroke-dasharray:2 5}\n"
      ".nose{stroke-linejoin:round;stroke-linecap:round}\n"
      ".hairline{stroke-dasharray:12 7}\n"
      ".ghost{stroke-dasharray:6 5}\n"
      ".nine-tenths{stroke-dasharray:3 7;stroke-linecap:round}\n"
      ".zone{fill:none;stroke-width:2.2}\n"
      ".rival{fill:none;stroke-width:3;stroke-dasharray:2 8;stroke-linecap:round}\n"
      ".sliding,.rolling{stroke-width:1.8;stroke-linejoin:round}\n"
      ".flying{stroke-width:1.8}\n"
      ".tape-text{font-size:23px}\n"
      ".pocket-name{font-size:30px;font-weight:600}\n"
      ".hairline-name{font-size:28px}\n"
      ".landing-name{font-size:26px}\n"
      ".letter{font-size:31px;font-weight:600;text-anchor:middle}\n"
      ".letter.small{font-size:24px}\n"
      ".letter.dotted{font-size:20px}\n"
      ".target-pocket{fill:none;stroke-width:5}\n"
      ".figure{font-size:27px;font-weight:600;text-anchor:middle}\n"
      ".band{stroke-width:6}\n"
      ".start{text-anchor:start}.middle{text-anchor:middle}.end{text-anchor:end}\n"
      ".title{font-size:52px;font-weight:600;font-family:" +
      look.heading_font +
      "}\n"
      ".subtitle{font-size:32px}\n"
      ".body{font-size:30px}\n"
      ".small-words{font-size:13px}.strike-face .small-words{font-size:15.5px}\n"
      ".strong-words{font-size:13px;font-weight:600}.strike-face .strong-words{font-size:16px}\n"
      ".disc-edge{fill:none;stroke-width:2.2}\n"
      ".grid{stroke-width:.8;fill:none}\n.axis{stroke-width:1.2;fill:none}\n"
      ".miscue{fill:none;stroke-width:1.6;stroke-dasharray:3 4}\n"
      ".hatch{fill:none;stroke-width:1.3}\n"
      ".leader{fill:none;stroke-width:1}\n"
      ".tip-outline{fill:none;stroke-width:1.4;stroke-dasharray:4 3}\n"
      ".scatter-two{stroke-width:1;stroke-dasharray:2 3}\n.scatter-one{stroke-width:1.2}\n"
      ".bar{fill:none;stroke-width:1.2}\n.bar-mark{fill:none;stroke-width:3}\n"
      ".frame-edge{stroke-width:10}.frame-path{fill:none;stroke-width:22;stroke-linejoin:round}\n"
      ".cue-line{fill:none;stroke-width:4;stroke-linecap:round}\n";
  return css;
}

/// The colours of one theme.
std::string paint(const Look& look, const Theme& theme) {
  std::string css;
  const auto stroke = [&css](std::string_view selector, std::string_view colour) {
    css += fmt::format("{}{{stroke:{}}}\n", selector, colour);
  };
  const auto fill = [&css](std::string_view selector, std::string_view colour) {
    css += fmt::format("{}{{fill:{}}}\n", selector, colour);
  };
  fill(".paper,.hole", theme.paper);
  fill(".bed", theme.bed);
  fill(".spot", theme.soft);
  stroke(".mark", theme.mark);
  stroke(".nose,.pocket,.ball .face,.disc-edge", theme.ink);
  stroke(".fall,.rule,.tape,.axis,.miscue,.hatch,.bar,.hairline.soft", theme.soft);
  stroke(".grid", theme.rule);
  stroke(".found,.hairline.aim,.ghost,.half,.nine-tenths,.tip-outline,.leader,.cue-line",
         theme.ink);
  stroke(".rival", theme.soft);
  stroke(".zone", theme.accent);
  fill(".tape-text,.small-words,.landing-name", theme.soft);
  fill(".pocket-name,.hairline-name,.title,.body,.strong-words", theme.ink);
  fill(".subtitle", theme.soft);
  // A name that crosses a line keeps a little of the bed round its letters.
  css += fmt::format(
      ".hairline-name{{stroke:{};stroke-width:6;stroke-linejoin:round;paint-order:stroke}}\n",
      theme.bed);
  fill(".face-edge", theme.card);
  fill(".order .disc", theme.accent);
  fill(".order .figure", theme.paper);
  fill(".touch,.band-sigma", theme.accent);
  css += ".touch{fill-opacity:.6}\n";
  css += ".band-sigma{fill-opacity:.25}\n";
  stroke(".bar-mark,.target-pocket", theme.accent);
  css += fmt::format(".scatter-one,.scatter-two{{fill:{};stroke:{};fill-opacity:.14}}\n",
                     theme.accent, theme.ink);
  css += fmt::format(".half{{fill:{0};fill-opacity:.1}}.nine-tenths{{fill:{0};fill-opacity:.06}}\n",
                     theme.ink);
  css +=
      fmt::format(".later .disc{{fill:{0};stroke:{1};stroke-width:2}}.later .figure{{fill:{1}}}\n",
                  theme.card, theme.accent);
  stroke(".frame-edge", theme.ink);
  for (const Colour colour : colours) {
    const formats::BallLook& ball = look.ball(colour);
    const std::string_view name = colour_class(colour);
    // The cue ball is an open ring: the paper shows through.
    fill(fmt::format(".ball.{} .face", name), colour == Colour::cue ? theme.card : ball.fill);
    fill(fmt::format(".ball.{} .letter", name), ball.text);
    const std::string& hue = colour == Colour::cue ? theme.accent : ball.fill;
    const std::string& edge = colour == Colour::cue ? theme.accent : theme.ink;
    css += fmt::format(".ribbon.{0} .rolling,.ribbon.{0} .flying{{fill:{1};stroke:{2}}}\n", name,
                       hue, edge);
    css += fmt::format(".ribbon.{0} .sliding{{fill:{1};stroke:{2}}}\n", name, theme.card,
                       colour == Colour::cue ? theme.accent : theme.ink);
    stroke(fmt::format(".ribbon.{} .tick", name), edge);
    stroke(fmt::format(".frame-path.{}", name), colour == Colour::cue ? theme.accent : theme.soft);
  }
  fill(".dot", look.ball(Colour::yellow).text);
  stroke(".band", look.ball(Colour::stripe).text);
  return css;
}

}  // namespace

std::string figure_style(const Look& look) {
  return shapes(look) + paint(look, look.light) +
         "@media screen and (prefers-color-scheme:dark){\n" + paint(look, look.dark) + "}\n";
}

}  // namespace ahead::lesson
