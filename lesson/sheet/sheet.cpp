#include "lesson/sheet/sheet.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <cairo-pdf.h>
#include <fmt/format.h>

#include "lesson/figure/style.h"
#include "lesson/overview_figure.h"
#include "lesson/pictures.h"
#include "lesson/render/svg_picture.h"
#include "lesson/render/typeset.h"
#include "lesson/shot_figure.h"
#include "lesson/told/glossary.h"
#include "lesson/words/names.h"

namespace ahead::lesson {
namespace {

constexpr double margin = 36;  // points; half an inch
constexpr double gap = 18;     // between columns
constexpr double soft = 0.38;  // grey of what is said aside; still 5 to 1 on white

constexpr Setting title{.face = Face::heading_strong, .size = 21, .leading = 1.15};
constexpr Setting heading{.face = Face::heading_strong, .size = 14.5, .leading = 1.15};
constexpr Setting prose{.face = Face::heading, .size = 10.3, .leading = 1.32};
constexpr Setting note{.face = Face::body, .size = 7.6, .leading = 1.3, .grey = soft};
constexpr Setting label{.face = Face::body_strong, .size = 8.2, .leading = 1.25};
constexpr Setting cell{.face = Face::body, .size = 8.2, .leading = 1.25};

/// Something of the document's structure, open as long as it lives.
class Tagged {
 public:
  Tagged(cairo_t* cairo, const char* tag) : cairo_(cairo), tag_(tag) {
    cairo_tag_begin(cairo_, tag_, nullptr);
  }
  ~Tagged() { cairo_tag_end(cairo_, tag_); }
  Tagged(const Tagged&) = delete;
  Tagged& operator=(const Tagged&) = delete;

 private:
  cairo_t* cairo_;
  const char* tag_;
};

class Sheet {
 public:
  Sheet(const coach::Plan& plan, const LessonWords& words, const Look& look, Paper paper)
      : plan_(plan),
        words_(words),
        look_(look),
        style_(figure_style(look)),
        width_(paper == Paper::a4 ? 595.276 : 612),
        height_(paper == Paper::a4 ? 841.890 : 792) {
    surface_.reset(cairo_pdf_surface_create_for_stream(append, &pdf_, width_, height_));
    describe(CAIRO_PDF_METADATA_TITLE, LessonWords::text_of(words.clearance, "title"));
    describe(CAIRO_PDF_METADATA_CREATOR, "Three Ahead");
    // A date would make two sheets of one plan differ.
    describe(CAIRO_PDF_METADATA_CREATE_DATE, "");
    pen_ = pen_on(surface_);
  }

  std::string made() {
    {
      const Tagged document(pen(), "Document");
      overview();
      for (std::size_t i = 0; i < plan_.shots.size(); ++i) shot(i);
    }
    pen_.reset();
    cairo_surface_finish(surface_.get());
    return std::move(pdf_);
  }

 private:
  static cairo_status_t append(void* pdf, const unsigned char* bytes, unsigned int count) {
    static_cast<std::string*>(pdf)->append(reinterpret_cast<const char*>(bytes), count);
    return CAIRO_STATUS_SUCCESS;
  }
  [[nodiscard]] cairo_t* pen() const { return pen_.get(); }
  void describe(cairo_pdf_metadata_t what, std::string_view words) {
    cairo_pdf_surface_set_metadata(surface_.get(), what, std::string(words).c_str());
  }

  double say(const char* tag, std::string_view words, double left, double top, double width,
             const Setting& setting) {
    const Tagged part(pen(), tag);
    return set_words(pen(), words, left, top, width, setting);
  }

  void figure(const Drawing& drawing, const Frame& frame) {
    const Tagged part(pen(), "Figure");
    SvgPicture(svg_document(drawing, style_, Ground::clear)).draw(pen(), frame);
  }

  void rule(double left, double y, double right) {
    cairo_set_source_rgb(pen(), 0.75, 0.75, 0.75);
    cairo_set_line_width(pen(), 0.6);
    cairo_move_to(pen(), left, y);
    cairo_line_to(pen(), right, y);
    cairo_stroke(pen());
  }

  void foot() {
    ++page_;
    const double y = height_ - margin + 10;
    say("P",
        fmt::format("{}, player \"{}\", table \"{}\"",
                    LessonWords::text_of(words_.clearance, "title"), plan_.player.id,
                    plan_.layout.table.id),
        margin, y, width_ - 2 * margin - 60, note);
    say("P", fmt::format("page {}", page_), width_ - margin - 40, y, 60, note);
  }

  void overview() {
    const double inner = width_ - 2 * margin;
    double y = margin;
    y += say("H1", LessonWords::text_of(words_.clearance, "title"), margin, y, inner, title) + 12;

    const Drawing table = overview_drawing(plan_, look_);
    const double table_height = height_ - y - margin - 12;
    const double table_width = std::min(table_height * table.width / table.height, 0.60 * inner);
    const double drawn_height = table_width * table.height / table.width;
    const double table_top = y;
    figure(table, {margin, table_top, table_width, drawn_height});

    const double left = margin + table_width + gap;
    const double column = width_ - margin - left;
    for (const Sentence& each : words_.clearance) {
      const std::string_view topic = std::string_view(each.key).substr(each.key.find('.') + 1);
      if (topic == "title") continue;
      const Setting& setting = topic == "honesty" ? note : prose;
      y += say("P", each.text, left, y, column, setting) + 6;
    }
    y += 6;
    balls_table(left, y, column);
    say("P",
        "Numbers give the order of play; dashed lines run from each ball, where it then lies, to "
        "its pocket.",
        margin, table_top + drawn_height + 8, table_width, note);
    foot();
    cairo_show_page(pen());
  }

  /// Where to put the balls, measured from the noses of two cushions to the ball's centre.
  void balls_table(double left, double y, double column) {
    const Tagged part(pen(), "Table");
    const bool inches = words_.voice.units == Units::in;
    const auto place = [inches](double m) {
      return inches ? fmt::format("{:.1f}", m / 0.0254) : fmt::format("{:.0f}", 1000 * m);
    };
    y += say("P", "To set it up", left, y, column, heading) + 4;
    const std::array columns{left, left + 0.42 * column, left + 0.72 * column};
    const auto row = [&](std::array<std::string, 3> words, const Setting& setting) {
      const Tagged line(pen(), "TR");
      double high = 0;
      for (std::size_t i = 0; i < words.size(); ++i) {
        high = std::max(high, say("TD", words[i], columns[i], y, 0.3 * column, setting));
      }
      y += high + 2.2;
    };
    const std::string unit = inches ? "in" : "mm";
    row({"ball", fmt::format("from left, {}", unit),
         in_vocabulary(fmt::format("from baulk, {}", unit), words_.voice.vocabulary)},
        label);
    rule(left, y, left + column);
    y += 3;
    for (const coach::LayoutBall& ball : plan_.layout.balls) {
      row({in_vocabulary(ball_name(ball.id), words_.voice.vocabulary), place(ball.at.x),
           place(ball.at.y)},
          cell);
    }
    y += 4;
    say("P",
        in_vocabulary("To the ball's centre, from the noses of the left and the baulk cushion.",
                      words_.voice.vocabulary),
        left, y, column, note);
  }

  void shot(std::size_t index) {
    const bool upper = index % 2 == 0;
    const double half = (height_ - 2 * margin - gap) / 2;
    const double top = upper ? margin : margin + half + gap;
    if (!upper) rule(margin, top - gap / 2, width_ - margin);

    const Drawing table = shot_drawing(plan_, index, look_, {}, words_.came[index]);
    const double table_width = half * table.width / table.height;
    figure(table, {margin, top, table_width, half});

    const double left = margin + table_width + gap;
    const double column = width_ - margin - left;
    const auto& told = words_.shots[index];
    double y = top;
    y += say("H2", fmt::format("{}  {}", index + 1, words_.heading_of(plan_, index)), left, y,
             column, heading);
    y += say("P", fmt::format("Shot {} of {}", index + 1, plan_.shots.size()), left, y, column,
             note) +
         4;

    const Drawing strike = strike_drawing(plan_, index);
    const double strike_width = 0.52 * column;
    const double strike_height = strike_width * strike.height / strike.width;
    figure(strike, {left, y, strike_width, strike_height});
    const double beside = left + strike_width + 10;
    const double beside_width = column - strike_width - 10;
    double side_y = y + 2;
    // What a hand does stands beside the picture that it copies.
    for (const std::string_view topic : {"caution", "strike", "access"}) {
      const std::string_view each = LessonWords::text_of(told, topic);
      if (!each.empty()) side_y += say("P", each, beside, side_y, beside_width, fitting) + 3;
    }
    y = std::max(y + strike_height, side_y) + 5;

    const double box_height = 54;
    const double bottom = top + half - box_height - 6;
    const double room = bottom - y;
    std::vector<std::string_view> paragraphs;
    for (const Sentence& each : told) {
      const std::string_view topic = std::string_view(each.key).substr(each.key.find('.') + 1);
      if (topic != "strike" && topic != "caution" && topic != "access") {
        paragraphs.push_back(each.text);
      }
    }
    const Setting setting = that_fits(paragraphs, column, room);
    for (const std::string_view each : paragraphs) {
      const double high = height_of(pen(), each, column, setting);
      if (y + high > bottom) break;
      y += say("P", each, left, y, column, setting) + 0.3 * setting.size;
    }
    scoring_box(left, top + half - box_height, column, box_height);
    const bool last = index + 1 == plan_.shots.size();
    if (upper && !last) return;
    foot();
    cairo_show_page(pen());
  }

  /// The largest letters in which everything has room, down to what can still be read.
  [[nodiscard]] Setting that_fits(const std::vector<std::string_view>& paragraphs, double column,
                                  double room) const {
    Setting setting = prose;
    constexpr double least = 7.8;
    for (; setting.size > least; setting.size -= 0.25) {
      double high = 0;
      for (const std::string_view each : paragraphs) {
        high += height_of(pen(), each, column, setting) + 0.3 * setting.size;
      }
      if (high <= room) break;
    }
    return setting;
  }

  void scoring_box(double left, double top, double width, double height) {
    constexpr int tries = 10;
    constexpr double names = 62;
    const double square = std::min((width - names) / tries, height / 2 - 9);
    say("P",
        in_vocabulary("Ten tries: 1 for the pot, 1 more inside the dotted ring, 1 more inside the "
                      "full ring",
                      words_.voice.vocabulary),
        left, top, width, note);
    double y = top + 13;
    for (const std::string_view row : {"potted", "cue ball"}) {
      say("P", in_vocabulary(row, words_.voice.vocabulary), left, y + square / 2 - 6, names, cell);
      cairo_set_source_rgb(pen(), 0.3, 0.3, 0.3);
      cairo_set_line_width(pen(), 0.7);
      for (int i = 0; i < tries; ++i) {
        cairo_rectangle(pen(), left + names + i * square, y, square, square);
      }
      cairo_stroke(pen());
      y += square;
    }
    say("P", "date, score", left + names + tries * square + 8, top + 13, 80, note);
  }

  static constexpr Setting fitting{.face = Face::heading, .size = 9.6, .leading = 1.28};

  const coach::Plan& plan_;
  const LessonWords& words_;
  const Look& look_;
  std::string style_;
  double width_;
  double height_;
  std::string pdf_;
  Surface surface_;
  Cairo pen_;
  int page_ = 0;
};

}  // namespace

std::string sheet(const coach::Plan& plan, const LessonWords& words, const Look& look,
                  Paper paper) {
  return Sheet(plan, words, look, paper).made();
}

}  // namespace ahead::lesson
