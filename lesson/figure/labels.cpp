#include "lesson/figure/labels.h"

#include <algorithm>
#include <array>
#include <limits>
#include <optional>

#include <fmt/format.h>

namespace ahead::lesson {

bool overlap(const Box& a, const Box& b) {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

Box text_box(Point at, std::string_view words, double size, std::string_view anchor) {
  constexpr double letter = 0.62;   // of the size, wide
  constexpr double ascent = 0.80;   // over the baseline
  constexpr double descent = 0.25;  // under it
  const double width = letter * size * static_cast<double>(words.size());
  const double left = anchor == "start" ? at.x : anchor == "end" ? at.x - width : at.x - width / 2;
  return {left, at.y - ascent * size, left + width, at.y + descent * size};
}

Labels::Labels(const Drawing& keep_in, std::vector<Obstacle> soft)
    : bounds_{keep_in.left, keep_in.top, keep_in.left + keep_in.width,
              keep_in.top + keep_in.height},
      soft_(std::move(soft)) {}

void Labels::take(Point centre, double radius) {
  take({centre.x - radius, centre.y - radius, centre.x + radius, centre.y + radius});
}

bool Labels::free(const Box& box) const {
  const bool inside = box.left >= bounds_.left && box.right <= bounds_.right &&
                      box.top >= bounds_.top && box.bottom <= bounds_.bottom;
  return inside && std::ranges::none_of(taken_, [&](const Box& b) { return overlap(b, box); });
}

double Labels::crossed(const Box& box) const {
  double count = 0;
  for (const Obstacle& each : soft_) {
    const Box around{each.at.x - each.radius, each.at.y - each.radius, each.at.x + each.radius,
                     each.at.y + each.radius};
    if (overlap(box, around)) ++count;
  }
  return count;
}

std::string Labels::named_line(Point from, Point along, std::string_view name,
                               std::string_view css_class) {
  constexpr double shortest = 90;
  constexpr double step = 20;
  constexpr int lengths = 26;
  struct Choice {
    Point end;
    Point at;
    std::string_view anchor;
    Box box;
  };
  std::optional<Choice> best;
  double least = std::numeric_limits<double>::infinity();
  for (int i = 0; i < lengths && least > 0; ++i) {
    const Point end = from + (shortest + step * i) * along;
    // Beyond the end; else below, above or beside it.
    const Point beyond = end + 10.0 * along;
    const std::array<std::pair<Point, std::string_view>, 7> places{{
        {{beyond.x, beyond.y + 9}, along.x > 0 ? "start" : "end"},
        {{end.x, end.y + (along.y > 0 ? 32 : -10)}, "middle"},
        {{end.x, end.y + (along.y > 0 ? -10 : 32)}, "middle"},
        {{end.x, end.y - 10}, "end"},
        {{end.x, end.y + 32}, "end"},
        {{end.x + 12, end.y + 9}, "start"},
        {{end.x - 12, end.y + 9}, "end"},
    }};
    for (const auto& [at, anchor] : places) {
      const Box box = text_box(at, name, hairline_name_size, anchor);
      if (!free(box)) continue;
      const double cost = crossed(box);
      if (cost >= least) continue;
      least = cost;
      best = Choice{end, at, anchor, box};
    }
  }
  const std::string line_class = fmt::format("hairline {}", css_class);
  if (!best) return line(from, from + shortest * along, line_class);
  take(best->box);
  return line(from, best->end, line_class) +
         text(best->at, name, fmt::format("hairline-name {}", best->anchor));
}

std::string Labels::name_at(const std::vector<Point>& places, std::string_view words, double size,
                            std::string_view css_class) {
  const Point* best = nullptr;
  double least = std::numeric_limits<double>::infinity();
  for (const Point& at : places) {
    const Box box = text_box(at, words, size, "middle");
    const double cost = free(box) ? crossed(box) : least;
    if (cost >= least) continue;
    least = cost;
    best = &at;
  }
  if (best == nullptr) return {};
  take(text_box(*best, words, size, "middle"));
  return text(*best, words, fmt::format("{} middle", css_class));
}

}  // namespace ahead::lesson
