#include "lesson/render/typeset.h"

#include <memory>

#include <pango/pangocairo.h>

#include "lesson/house_look.h"

namespace ahead::lesson {
namespace {

struct LayoutEnd {
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};
using Layout = std::unique_ptr<PangoLayout, LayoutEnd>;

struct FontEnd {
  void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
};
using Font = std::unique_ptr<PangoFontDescription, FontEnd>;

struct AttributesEnd {
  void operator()(PangoAttrList* attributes) const { pango_attr_list_unref(attributes); }
};
using Attributes = std::unique_ptr<PangoAttrList, AttributesEnd>;

Font font_of(const Setting& setting) {
  static const Look look = house_look();
  const bool heading = setting.face == Face::heading || setting.face == Face::heading_strong;
  const bool strong = setting.face == Face::heading_strong || setting.face == Face::body_strong;
  Font font(pango_font_description_new());
  // The look's list of families is CSS: pango takes such a list, but without the quotes.
  std::string families = heading ? look.heading_font : look.body_font;
  std::erase(families, '\'');
  pango_font_description_set_family(font.get(), families.c_str());
  pango_font_description_set_weight(font.get(),
                                    strong ? PANGO_WEIGHT_SEMIBOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(font.get(), setting.size * PANGO_SCALE);
  return font;
}

Layout laid_out(cairo_t* cairo, std::string_view words, double width, const Setting& setting) {
  Layout layout(pango_cairo_create_layout(cairo));
  PangoContext* context = pango_layout_get_context(layout.get());
  // Letters stand where the design wants them, whatever the surface's pixels.
  pango_context_set_round_glyph_positions(context, FALSE);
  pango_layout_set_font_description(layout.get(), font_of(setting).get());
  pango_layout_set_width(layout.get(), static_cast<int>(width * PANGO_SCALE));
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  pango_layout_set_line_spacing(layout.get(), static_cast<float>(setting.leading / 1.21));
  // Figures as high as capitals: a low 1 of this heading face would be read as an I.
  const Attributes features(pango_attr_list_new());
  pango_attr_list_insert(features.get(), pango_attr_font_features_new("lnum=1"));
  pango_layout_set_attributes(layout.get(), features.get());
  pango_layout_set_text(layout.get(), words.data(), static_cast<int>(words.size()));
  return layout;
}

double height(const Layout& layout) {
  int width = 0;
  int height = 0;
  pango_layout_get_size(layout.get(), &width, &height);
  return static_cast<double>(height) / PANGO_SCALE;
}

}  // namespace

double set_words(cairo_t* cairo, std::string_view words, double left, double top, double width,
                 const Setting& setting) {
  if (words.empty()) return 0;
  const Layout layout = laid_out(cairo, words, width, setting);
  cairo_set_source_rgb(cairo, setting.grey, setting.grey, setting.grey);
  cairo_move_to(cairo, left, top);
  pango_cairo_show_layout(cairo, layout.get());
  return height(layout);
}

double height_of(cairo_t* cairo, std::string_view words, double width, const Setting& setting) {
  return words.empty() ? 0 : height(laid_out(cairo, words, width, setting));
}

}  // namespace ahead::lesson
