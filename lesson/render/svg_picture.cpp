#include "lesson/render/svg_picture.h"

#include <cassert>

#include <cairo.h>
#include <librsvg/rsvg.h>

namespace ahead::lesson {

struct SvgPicture::Handle {
  RsvgHandle* rsvg = nullptr;
};

SvgPicture::SvgPicture(std::string_view svg) : handle_(std::make_unique<Handle>()) {
  handle_->rsvg =
      rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(svg.data()), svg.size(), nullptr);
  assert(handle_->rsvg != nullptr);
  gboolean has_box = FALSE;
  RsvgRectangle box{};
  rsvg_handle_get_intrinsic_dimensions(handle_->rsvg, nullptr, nullptr, nullptr, nullptr, &has_box,
                                       &box);
  assert(has_box != FALSE && box.height > 0);
  aspect_ = box.width / box.height;
}

SvgPicture::~SvgPicture() { g_object_unref(handle_->rsvg); }

void SvgPicture::draw(cairo_t* cairo, const Frame& frame) const {
  const RsvgRectangle viewport{frame.left, frame.top, frame.width, frame.height};
  rsvg_handle_render_document(handle_->rsvg, cairo, &viewport, nullptr);
}

}  // namespace ahead::lesson
