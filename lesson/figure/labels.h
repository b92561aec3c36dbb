#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "lesson/figure/free_place.h"
#include "lesson/figure/svg.h"

/// Names in a drawing, none over a ball or over another name.
namespace ahead::lesson {

/// A rectangle in drawing units, y down.
struct Box {
  double left = 0;
  double top = 0;
  double right = 0;
  double bottom = 0;
};

/// Sizes of letters that figure/style.h gives to names, drawing units.
inline constexpr double hairline_name_size = 28;
inline constexpr double landing_name_size = 26;
inline constexpr double pocket_name_size = 30;

[[nodiscard]] bool overlap(const Box& a, const Box& b);

/// The room that a text takes, by the widest that its letters may be.
[[nodiscard]] Box text_box(Point at, std::string_view words, double size, std::string_view anchor);

/// Keeps count of what is taken.
class Labels {
 public:
  /// Names stay inside `keep_in`. `soft` are marks that a name had better not cross.
  Labels(const Drawing& keep_in, std::vector<Obstacle> soft);

  void take(const Box& box) { taken_.push_back(box); }
  void take(Point centre, double radius);
  [[nodiscard]] bool free(const Box& box) const;

  /// A hairline from `from` along the unit vector, as long as its name needs, and the name at its
  /// end. The name is left out when there is no room for it anywhere.
  [[nodiscard]] std::string named_line(Point from, Point along, std::string_view name,
                                       std::string_view css_class);

  /// The words beside the first of the places that has room; nothing when none has.
  [[nodiscard]] std::string name_at(const std::vector<Point>& places, std::string_view words,
                                    double size, std::string_view css_class);

 private:
  [[nodiscard]] double crossed(const Box& box) const;

  Box bounds_;
  std::vector<Obstacle> soft_;
  std::vector<Box> taken_;
};

}  // namespace ahead::lesson
