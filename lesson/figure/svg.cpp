#include "lesson/figure/svg.h"

#include <cmath>

#include <fmt/format.h>

namespace ahead::lesson {

std::string number(double value) {
  const double tenths = std::round(value * 10);
  if (tenths == 0) return "0";
  if (std::fmod(tenths, 10) == 0) return fmt::format("{:.0f}", tenths / 10);
  return fmt::format("{:.1f}", tenths / 10);
}

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string circle(Point centre, double radius, std::string_view css_class) {
  return fmt::format("<circle class=\"{}\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n", css_class,
                     number(centre.x), number(centre.y), number(radius));
}

std::string line(Point from, Point to, std::string_view css_class) {
  return fmt::format("<line class=\"{}\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/>\n", css_class,
                     number(from.x), number(from.y), number(to.x), number(to.y));
}

std::string path(std::string_view data, std::string_view css_class) {
  if (data.empty()) return {};
  return fmt::format("<path class=\"{}\" d=\"{}\"/>\n", css_class, data);
}

std::string rectangle(Point corner, double width, double height, std::string_view css_class) {
  return fmt::format("<rect class=\"{}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n",
                     css_class, number(corner.x), number(corner.y), number(width), number(height));
}

std::string text(Point at, std::string_view words, std::string_view css_class) {
  return fmt::format("<text class=\"{}\" x=\"{}\" y=\"{}\">{}</text>\n", css_class, number(at.x),
                     number(at.y), escaped(words));
}

std::string group(std::string_view css_class, std::string_view body) {
  return fmt::format("<g class=\"{}\">\n{}</g>\n", css_class, body);
}

std::string open_outline(std::span<const Point> points) {
  std::string data;
  for (const Point& p : points) {
    data += fmt::format("{}{},{}", data.empty() ? "M" : " L", number(p.x), number(p.y));
  }
  return data;
}

std::string closed_outline(std::span<const Point> points) {
  return points.empty() ? std::string{} : open_outline(points) + "Z";
}

std::string placed(Point by, double factor, std::string_view body) {
  return fmt::format("<g transform=\"translate({} {}) scale({:.4g})\">\n{}</g>\n", number(by.x),
                     number(by.y), factor, body);
}

namespace {

std::string view_box(const Drawing& drawing) {
  return fmt::format("{} {} {} {}", number(drawing.left), number(drawing.top),
                     number(drawing.width), number(drawing.height));
}

}  // namespace

std::string inline_svg(const Drawing& drawing, std::string_view css_class, std::string_view id) {
  return fmt::format(
      "<svg class=\"{}\" viewBox=\"{}\" role=\"img\" aria-labelledby=\"{}-t {}-d\">\n"
      "<title id=\"{}-t\">{}</title>\n<desc id=\"{}-d\">{}</desc>\n{}</svg>\n",
      css_class, view_box(drawing), id, id, id, escaped(drawing.title), id,
      escaped(drawing.description), drawing.body);
}

std::string svg_document(const Drawing& drawing, std::string_view style, Ground ground) {
  const std::string paper =
      ground == Ground::clear
          ? std::string{}
          : rectangle({drawing.left, drawing.top}, drawing.width, drawing.height, "paper");
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"{}\" width=\"{}\" height=\"{}\" "
      "role=\"img\" aria-labelledby=\"t d\">\n"
      "<title id=\"t\">{}</title>\n<desc id=\"d\">{}</desc>\n<style>\n{}</style>\n{}{}</svg>\n",
      view_box(drawing), number(drawing.width), number(drawing.height), escaped(drawing.title),
      escaped(drawing.description), style, paper, drawing.body);
}

}  // namespace ahead::lesson
