#pragma once

#include <memory>
#include <string_view>

struct _cairo;  // NOLINT(bugprone-reserved-identifier): cairo's own name

/// One drawing for screen, print and film: our SVG, drawn by librsvg on a cairo surface.
namespace ahead::lesson {

/// A rectangle on a surface, in its units.
struct Frame {
  double left = 0;
  double top = 0;
  double width = 0;
  double height = 0;
};

class SvgPicture {
 public:
  /// Requires text that svg_document() or svg_layer() made.
  explicit SvgPicture(std::string_view svg);
  ~SvgPicture();
  SvgPicture(const SvgPicture&) = delete;
  SvgPicture& operator=(const SvgPicture&) = delete;

  /// Width over height.
  [[nodiscard]] double aspect() const { return aspect_; }

  /// Draws it as large as fits into the frame, in its middle.
  void draw(_cairo* cairo, const Frame& frame) const;

 private:
  struct Handle;
  std::unique_ptr<Handle> handle_;
  double aspect_ = 1;
};

}  // namespace ahead::lesson
