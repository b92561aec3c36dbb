#pragma once

#include <span>
#include <string>
#include <string_view>

#include "engine/geometry/vec.h"

/// SVG, written as text so that words in a picture stay words: they can be read aloud and searched.
///
/// Elements carry a class and no colour; figure/style.h says what a class looks like. Points are in
/// drawing units with y down; one unit is a millimetre on the table.
namespace ahead::lesson {

using Point = engine::Vec2;

/// At most one decimal and never "-0": pictures stay small and compare equal across machines.
[[nodiscard]] std::string number(double value);

/// Text in which &, <, > and quotes stand for themselves.
[[nodiscard]] std::string escaped(std::string_view text);

[[nodiscard]] std::string circle(Point centre, double radius, std::string_view css_class);
[[nodiscard]] std::string line(Point from, Point to, std::string_view css_class);
[[nodiscard]] std::string path(std::string_view data, std::string_view css_class);
[[nodiscard]] std::string rectangle(Point corner, double width, double height,
                                    std::string_view css_class);
[[nodiscard]] std::string text(Point at, std::string_view words, std::string_view css_class);
[[nodiscard]] std::string group(std::string_view css_class, std::string_view body);

/// Path data: a polyline through the points; `closed_outline` returns to the first.
[[nodiscard]] std::string open_outline(std::span<const Point> points);
[[nodiscard]] std::string closed_outline(std::span<const Point> points);

/// A picture with its text alternative.
struct Drawing {
  double left = 0;
  double top = 0;
  double width = 0;
  double height = 0;
  std::string title;
  std::string description;
  std::string body;
};

/// `body` moved by `by` and enlarged by `factor`.
[[nodiscard]] std::string placed(Point by, double factor, std::string_view body);

/// For a page that holds the style once. `id` is unique on the page.
[[nodiscard]] std::string inline_svg(const Drawing& drawing, std::string_view css_class,
                                     std::string_view id);

/// What lies under a drawing: the paper, or nothing, for laying it over other material.
enum class Ground { paper, clear };

/// A file of its own, with the style inside.
[[nodiscard]] std::string svg_document(const Drawing& drawing, std::string_view style,
                                       Ground ground = Ground::paper);

}  // namespace ahead::lesson
