#include "lesson/render/house_fonts.h"

#include <array>
#include <fstream>
#include <iterator>
#include <memory>

#include <cairo.h>
#include <fontconfig/fontconfig.h>
#include <glib.h>
#include <librsvg/rsvg.h>
#include <pango/pango.h>

#include "lesson/house_look.h"

namespace ahead::lesson {
namespace {

struct PatternEnd {
  void operator()(FcPattern* pattern) const { FcPatternDestroy(pattern); }
};
using Pattern = std::unique_ptr<FcPattern, PatternEnd>;

std::string text_of(FcPattern* pattern, const char* what) {
  FcChar8* value = nullptr;
  if (FcPatternGetString(pattern, what, 0, &value) != FcResultMatch) return {};
  return reinterpret_cast<const char*>(value);
}

HouseFont found(const std::string& family) {
  const Pattern wanted(FcPatternCreate());
  FcPatternAddString(wanted.get(), FC_FAMILY, reinterpret_cast<const FcChar8*>(family.c_str()));
  FcConfigSubstitute(nullptr, wanted.get(), FcMatchPattern);
  FcDefaultSubstitute(wanted.get());
  FcResult result{};
  const Pattern match(FcFontMatch(nullptr, wanted.get(), &result));
  if (!match) return {.wanted = family};
  return {.wanted = family,
          .found = text_of(match.get(), FC_FAMILY),
          .file = text_of(match.get(), FC_FILE)};
}

}  // namespace

std::vector<HouseFont> house_fonts() {
  const Look look = house_look();
  std::vector<HouseFont> fonts;
  for (const std::string& families : {look.body_font, look.heading_font}) {
    fonts.push_back(found(families.substr(0, families.find(','))));
  }
  return fonts;
}

std::string sha256_of(std::string_view bytes) {
  gchar* sum = g_compute_checksum_for_data(
      G_CHECKSUM_SHA256, reinterpret_cast<const guchar*>(bytes.data()), bytes.size());
  std::string words = sum;
  g_free(sum);
  return words;
}

std::string sha256_of_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) return {};
  GChecksum* checksum = g_checksum_new(G_CHECKSUM_SHA256);
  std::array<char, 65536> block{};
  while (file.read(block.data(), block.size()) || file.gcount() > 0) {
    g_checksum_update(checksum, reinterpret_cast<const guchar*>(block.data()), file.gcount());
  }
  std::string words = g_checksum_get_string(checksum);
  g_checksum_free(checksum);
  return words;
}

std::vector<LibraryVersion> drawing_libraries() {
  const auto dotted = [](guint major, guint minor, guint micro) {
    return std::to_string(major) + "." + std::to_string(minor) + "." + std::to_string(micro);
  };
  return {{"cairo", cairo_version_string()},
          {"pango", pango_version_string()},
          {"librsvg", dotted(rsvg_major_version, rsvg_minor_version, rsvg_micro_version)}};
}

}  // namespace ahead::lesson
