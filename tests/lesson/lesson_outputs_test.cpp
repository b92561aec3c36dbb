#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <regex>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <pango/pangocairo.h>

#include "formats/layout.h"
#include "formats/plan.h"
#include "formats/text_file.h"
#include "lesson/figure/labels.h"
#include "lesson/figure/style.h"
#include "lesson/film/captions.h"
#include "lesson/film/film.h"
#include "lesson/pictures.h"
#include "lesson/render/png.h"
#include "lesson/render/surface.h"
#include "lesson/replay/replay_page.h"
#include "lesson/sheet/sheet.h"
#include "lesson/shot_figure.h"
#include "tests/lesson/played_plan.h"
#include "tests/support/temporary_folder.h"
#include "tests/support/text_of.h"

namespace ahead::lesson {
namespace {

namespace fs = std::filesystem;
using ::testing::HasSubstr;

/// What a program prints.
std::string output_of(const std::string& command) {
  std::string out;
  std::FILE* pipe = popen(command.c_str(), "r");
  std::array<char, 4096> block{};
  for (std::size_t n = 0; (n = std::fread(block.data(), 1, block.size(), pipe)) > 0;) {
    out.append(block.data(), n);
  }
  pclose(pipe);
  return out;
}

/// A clearance of the planner's.
const coach::Plan& plan() {
  static const coach::Plan read = [] {
    const std::string file = AHEAD_SOURCE_DIR "/examples/after/plan.json";
    return *formats::read_plan(test::text_of(file), file);
  }();
  return read;
}

const LessonWords& words() {
  static const LessonWords told = lesson_words(plan(), coach::read_balls(plan().layout), {});
  return told;
}

const Look& look() {
  static const Look once = house_look();
  return once;
}

// ---- Pictures: nothing over anything -----------------------------------------------------------

struct Thing {
  std::string what;
  Box box;
};

/// Width of a text as pango sets it, for one unit of size.
double measured(const std::string& text) {
  static const Surface surface = image(1, 1);
  static const Cairo pen = pen_on(surface);
  PangoLayout* layout = pango_cairo_create_layout(pen.get());
  PangoFontDescription* font = pango_font_description_from_string("Inter");
  pango_font_description_set_absolute_size(font, 100 * PANGO_SCALE);
  pango_layout_set_font_description(layout, font);
  pango_layout_set_text(layout, text.c_str(), -1);
  int width = 0;
  pango_layout_get_size(layout, &width, nullptr);
  pango_font_description_free(font);
  g_object_unref(layout);
  return width / (100.0 * PANGO_SCALE);
}

double attribute(const std::string& element, const std::string& name) {
  std::smatch found;
  const std::regex shape(" " + name + "=\"(-?[0-9.]+)\"");
  return std::regex_search(element, found, shape) ? std::stod(found[1]) : 0;
}

/// Names and order numbers with their measured boxes; those of turned pocket names are left out,
/// since they stand outside the bed.
std::vector<Thing> labels_in(const std::string& svg) {
  const std::map<std::string, double> sizes{{"hairline-name", hairline_name_size},
                                            {"landing-name", landing_name_size}};
  std::vector<Thing> things;
  const std::regex text("<text class=\"([a-z-]+)( [a-z]+)?\"([^>]*)>([^<]*)</text>");
  for (std::sregex_iterator at(svg.begin(), svg.end(), text), end; at != end; ++at) {
    const auto size = sizes.find((*at)[1]);
    if (size == sizes.end()) continue;
    const std::string words = (*at)[4];
    const std::string anchor = (*at)[2];
    const double x = attribute((*at)[3], "x");
    const double y = attribute((*at)[3], "y");
    const double width = measured(words) * size->second;
    const double left = anchor == " end" ? x - width : anchor == " middle" ? x - width / 2 : x;
    things.push_back(
        {words, {left, y - 0.73 * size->second, left + width, y + 0.1 * size->second}});
  }
  return things;
}

std::vector<Thing> circles_in(const std::string& svg, const std::string& css_class) {
  std::vector<Thing> things;
  const std::regex circle("<circle class=\"" + css_class + "\"([^>]*)>");
  for (std::sregex_iterator at(svg.begin(), svg.end(), circle), end; at != end; ++at) {
    const std::string all = (*at)[1];
    const double x = attribute(all, "cx");
    const double y = attribute(all, "cy");
    const double r = attribute(all, "r");
    things.push_back({css_class, {x - r, y - r, x + r, y + r}});
  }
  return things;
}

/// Discs overlap when their centres are nearer than their radii: boxes would be too strict.
bool discs_overlap(const Box& a, const Box& b) {
  const double x = (a.left + a.right - b.left - b.right) / 2;
  const double y = (a.top + a.bottom - b.top - b.bottom) / 2;
  return std::hypot(x, y) < (a.right - a.left + b.right - b.left) / 2 - 0.5;
}

std::vector<std::string> example_files() {
  std::vector<std::string> files;
  for (const auto& entry : fs::directory_iterator(AHEAD_SOURCE_DIR "/examples")) {
    if (entry.path().extension() != ".json") continue;
    if (test::text_of(entry.path()).contains("three-ahead.layout/1")) {
      files.push_back(entry.path().string());
    }
  }
  files.emplace_back(AHEAD_SOURCE_DIR "/examples/after/actual.json");
  files.emplace_back(AHEAD_SOURCE_DIR "/examples/trial/open-07.json");
  std::ranges::sort(files);
  return files;
}

TEST(ThePictures, PutNoNameOverABallOrAnotherName) {
  int labels = 0;
  const std::vector<std::string> files = example_files();
  for (const std::string& file : files) {
    const auto layout = formats::read_layout(test::text_of(file), file);
    ASSERT_TRUE(layout) << file;
    const coach::Plan played = played::plan_of(*layout, 2);
    for (std::size_t i = 0; i < played.shots.size(); ++i) {
      const ShotLayers all{.construction = true, .rivals = true, .zone = true};
      for (const ShotLayers& layers : {ShotLayers{}, all}) {
        const Drawing drawing = shot_drawing(played, i, look(), layers);
        std::vector<Thing> names = labels_in(drawing.body);
        const std::vector<Thing> faces = circles_in(drawing.body, "face");
        const std::vector<Thing> discs = circles_in(drawing.body, "disc");
        labels += static_cast<int>(names.size());
        const Box page{drawing.left, drawing.top, drawing.left + drawing.width,
                       drawing.top + drawing.height};
        for (std::size_t a = 0; a < names.size(); ++a) {
          for (const Thing& face : faces) {
            EXPECT_FALSE(overlap(names[a].box, face.box)) << file << ": " << names[a].what;
          }
          for (const Thing& disc : discs) {
            EXPECT_FALSE(overlap(names[a].box, disc.box)) << file << ": " << names[a].what;
          }
          for (std::size_t b = 0; b < a; ++b) {
            EXPECT_FALSE(overlap(names[a].box, names[b].box))
                << file << ": " << names[a].what << ", " << names[b].what;
          }
          EXPECT_GE(names[a].box.left, page.left);
          EXPECT_LE(names[a].box.right, page.right);
          EXPECT_GE(names[a].box.top, page.top);
          EXPECT_LE(names[a].box.bottom, page.bottom);
        }
        for (const Thing& disc : discs) {
          for (const Thing& face : faces) EXPECT_FALSE(discs_overlap(disc.box, face.box)) << file;
        }
      }
    }
  }
  EXPECT_GE(files.size(), 12U);
  EXPECT_GT(labels, 60);
}

TEST(ThePictures, AreWellFormedAndComeInLayers) {
  const auto pictures = lesson_pictures(
      plan(), words(), look(), {.construction = true, .rivals = true, .zone = true}, Ground::paper);
  EXPECT_EQ(pictures.size(), 1 + 2 * plan().shots.size());
  const test::TemporaryFolder folder;
  for (const Picture& each : pictures) {
    ASSERT_FALSE(formats::write_file(folder / (each.name + ".svg"), each.svg));
  }
  // A parser of the standard, not ours.
  const std::string faults =
      output_of("xmllint --noout " + std::string(folder / "*.svg") + " 2>&1");
  EXPECT_EQ(faults, "");
  EXPECT_THAT(pictures[1].svg, HasSubstr("tangent line"));
  EXPECT_THAT(pictures[1].svg, HasSubstr("position-zone"));
  const auto plain = lesson_pictures(plan(), words(), look(), {}, Ground::clear);
  EXPECT_EQ(plain[1].svg.find("tangent line"), std::string::npos);
  EXPECT_EQ(plain[1].svg.find("position-zone"), std::string::npos);
}

/// Bytes of the pixel in the middle of the picture's top edge: blue, green, red, alpha.
std::array<unsigned char, 4> corner_pixel(const std::string& png) {
  struct Rest {
    const std::string& bytes;
    std::size_t at = 0;
  } rest{png};
  const Surface surface(cairo_image_surface_create_from_png_stream(
      [](void* closure, unsigned char* to, unsigned int count) {
        auto& from = *static_cast<Rest*>(closure);
        if (from.at + count > from.bytes.size()) return CAIRO_STATUS_READ_ERROR;
        std::copy_n(from.bytes.begin() + static_cast<std::ptrdiff_t>(from.at), count, to);
        from.at += count;
        return CAIRO_STATUS_SUCCESS;
      },
      &rest));
  const unsigned char* data = cairo_image_surface_get_data(surface.get());
  return {data[0], data[1], data[2], data[3]};
}

TEST(ThePictures, AreAsWideAsAskedAndTransparentOnDemand) {
  const auto paper = lesson_pictures(plan(), words(), look(), {}, Ground::paper);
  const auto clear = lesson_pictures(plan(), words(), look(), {}, Ground::clear);
  const std::string png = png_of(clear[1].svg, 500);
  // Width stands in bytes 16 to 19 of a PNG (ISO/IEC 15948, 11.2.2).
  EXPECT_EQ(static_cast<unsigned char>(png[18]) * 256 + static_cast<unsigned char>(png[19]), 500);
  EXPECT_EQ(corner_pixel(png)[3], 0);
  EXPECT_EQ(corner_pixel(png_of(paper[1].svg, 500))[3], 255);
  EXPECT_EQ(png, png_of(clear[1].svg, 500)) << "the same bytes again";
}

// ---- The sheet ---------------------------------------------------------------------------------

class TheSheet : public ::testing::TestWithParam<Paper> {};

TEST_P(TheSheet, HasEmbeddedFontsTagsAndTextThatCanBeSearched) {
  const test::TemporaryFolder folder;
  const std::string file = folder / "sheet.pdf";
  const std::string pdf = sheet(plan(), words(), look(), GetParam());
  ASSERT_FALSE(formats::write_file(file, pdf));

  const std::string info = output_of("pdfinfo " + file);
  EXPECT_THAT(info, HasSubstr(GetParam() == Paper::a4 ? "(A4)" : "(letter)"));
  EXPECT_TRUE(std::regex_search(info, std::regex("Tagged: +yes")));
  const auto pages = 1 + (plan().shots.size() + 1) / 2;
  EXPECT_TRUE(std::regex_search(info, std::regex("Pages: +" + std::to_string(pages)))) << info;

  // Columns after the name and type: encoding, emb, sub, uni.
  const std::string fonts = output_of("pdffonts " + file);
  EXPECT_THAT(fonts, HasSubstr("Vollkorn"));
  EXPECT_THAT(fonts, HasSubstr("Inter"));
  EXPECT_FALSE(std::regex_search(fonts, std::regex("\\bno +(yes|no) +(yes|no) +[0-9]"))) << fonts;

  // In the order in which it was written; a word that is broken at its hyphen is joined again.
  std::string text = output_of("pdftotext -raw " + file + " -");
  text = std::regex_replace(std::regex_replace(text, std::regex("-\\s+"), "-"), std::regex("\\s+"),
                            " ");
  for (const auto& shot : words().shots) {
    EXPECT_THAT(text, HasSubstr(std::string(LessonWords::text_of(shot, "strike"))));
    EXPECT_THAT(text, HasSubstr(std::string(LessonWords::text_of(shot, "task"))));
  }
  EXPECT_EQ(pdf, sheet(plan(), words(), look(), GetParam())) << "the same bytes again";
}

INSTANTIATE_TEST_SUITE_P(Papers, TheSheet, ::testing::Values(Paper::a4, Paper::letter),
                         [](const auto& row) {
                           return row.param == Paper::a4 ? std::string("A4") : "Letter";
                         });

// ---- The page ----------------------------------------------------------------------------------

TEST(TheReplayPage, IsOneSmallFileThatAsksForNothing) {
  const std::string page = replay_page(plan(), words(), look());
  EXPECT_LT(page.size(), 2'000'000U);
  EXPECT_EQ(page.find("http"), std::string::npos);
  for (const char* fetches : {" src=", "@import", "url(", "fetch(", "XMLHttpRequest"}) {
    EXPECT_EQ(page.find(fetches), std::string::npos) << fetches;
  }
  for (std::size_t i = 0; i < plan().shots.size(); ++i) {
    EXPECT_THAT(page, HasSubstr("id=\"shot-" + std::to_string(i + 1) + "\""));
  }
}

// ---- Timeline, captions, film ------------------------------------------------------------------

TEST(TheTimeline, HasNoGapsAndLeavesTimeToRead) {
  const Timeline line = timeline(plan(), words());
  double at = 0;
  for (const Part& part : line.parts) {
    EXPECT_DOUBLE_EQ(part.from_s, at);
    at = part.to_s;
    EXPECT_NEAR(part.to_s * frames_per_second, std::round(part.to_s * frames_per_second), 1e-6);
    EXPECT_GE(part.to_s - part.from_s, reading_s(part.words) * (part.still() ? 1 : 0) - 1e-9);
    if (part.beat != Beat::play) continue;
    const double still_s = plan().shots[part.shot].best.intended.still_s;
    EXPECT_GE(part.to_s - part.from_s, still_s);
    EXPECT_LT(part.to_s - part.from_s, still_s + 0.11) << "at true speed";
  }
}

double seconds(const std::string& clock) {
  return 3600 * std::stod(clock.substr(0, 2)) + 60 * std::stod(clock.substr(3, 2)) +
         std::stod(clock.substr(6));
}

TEST(TheCaptions, ParseAndLastAsLongAsThePauses) {
  const Timeline line = timeline(plan(), words());
  const test::TemporaryFolder folder;
  const std::string file = folder / "captions.vtt";
  ASSERT_FALSE(formats::write_file(file, captions(line)));

  // Read by ffmpeg's parser of WebVTT, and counted by it.
  const std::string packets =
      output_of("ffprobe -v error -show_entries packet=pts_time,duration_time -of csv=p=0 " + file);
  std::vector<std::pair<double, double>> cues;
  const std::regex row("([0-9.]+),([0-9.]+)");
  for (std::sregex_iterator at(packets.begin(), packets.end(), row), end; at != end; ++at) {
    cues.emplace_back(std::stod((*at)[1]), std::stod((*at)[2]));
  }
  std::vector<std::pair<double, double>> pauses;
  for (const Part& part : line.parts) {
    if (!part.words.empty()) pauses.emplace_back(part.from_s, part.to_s - part.from_s);
  }
  ASSERT_EQ(cues.size(), pauses.size());
  for (std::size_t i = 0; i < cues.size(); ++i) {
    EXPECT_NEAR(cues[i].first, pauses[i].first, 0.002);
    EXPECT_NEAR(cues[i].second, pauses[i].second, 0.002);
  }
  EXPECT_DOUBLE_EQ(seconds(clock_words(3723.5)), 3723.5);
}

TEST(TheCaptions, HaveATranscriptAndADescriptionOfWhatIsSeen) {
  const Timeline line = timeline(plan(), words());
  const std::string said = transcript(plan(), line, words());
  for (const Part& part : line.parts) {
    EXPECT_THAT(said, HasSubstr(part.words));
  }
  const std::string seen = audio_description(plan(), line, words());
  EXPECT_THAT(seen, HasSubstr("The cue ball lies 430 mm from the left cushion"));
  EXPECT_THAT(seen, HasSubstr("drops in"));
}

struct FilmCase {
  std::string id;
  FilmKind kind;
  std::string file;
  std::string codec;
};

class AFilm : public ::testing::TestWithParam<FilmCase> {};

/// A tiny film: one short clip.
constexpr FilmShape tiny{160, 120, 10};

TEST_P(AFilm, DecodesWithTheStatedSizeLengthAndFrames) {
  const test::TemporaryFolder folder;
  const std::string file = folder / GetParam().file;
  Timeline line = clip_timeline(plan(), 0);
  double furthest = 0;
  const auto made =
      make_film(file, GetParam().kind, tiny, plan(), words(), look(), line, [&](double done) {
        furthest = done;
        return true;
      });
  ASSERT_TRUE(made) << made.error().reason;
  EXPECT_TRUE(*made);
  EXPECT_GT(furthest, 0.9);
  const std::string probe = output_of(
      "ffprobe -v error -count_frames -select_streams v -show_entries "
      "stream=codec_name,width,height,nb_read_frames -of csv=p=0 " +
      file);
  EXPECT_EQ(probe.substr(0, probe.find('\n')),
            GetParam().codec + ",160,120," + std::to_string(line.frames(tiny.rate)));
  const std::string length =
      output_of("ffprobe -v error -show_entries format=duration -of csv=p=0 " + file);
  EXPECT_NEAR(std::stod(length), line.length_s(), 0.15);

  const std::string before = test::text_of(file);
  ASSERT_TRUE(make_film(file, GetParam().kind, tiny, plan(), words(), look(), line,
                        [](double) { return true; }));
  EXPECT_EQ(test::text_of(file), before) << "the same bytes again";
}

INSTANTIATE_TEST_SUITE_P(Kinds, AFilm,
                         ::testing::Values(FilmCase{"mp4", FilmKind::mp4, "a.mp4", "h264"},
                                           FilmCase{"webm", FilmKind::webm, "a.webm", "vp9"},
                                           FilmCase{"gif", FilmKind::gif, "a.gif", "gif"}),
                         [](const auto& row) { return row.param.id; });

TEST(AFilm, ThatIsStoppedLeavesNothing) {
  const test::TemporaryFolder folder;
  const Timeline line = timeline(plan(), words());
  int frames = 0;
  const auto made = make_film(folder / "a.mp4", FilmKind::mp4, tiny, plan(), words(), look(), line,
                              [&](double) { return ++frames < 4; });
  ASSERT_TRUE(made);
  EXPECT_FALSE(*made);
  EXPECT_TRUE(fs::is_empty(folder / "."));
}

TEST(AFilm, WithoutTheProgramSaysSo) {
  const test::TemporaryFolder folder;
  const std::string path = std::getenv("PATH");
  setenv("PATH", std::string(folder / ".").c_str(), 1);
  const auto made = make_film(folder / "a.mp4", FilmKind::mp4, tiny, plan(), words(), look(),
                              clip_timeline(plan(), 0), [](double) { return true; });
  setenv("PATH", path.c_str(), 1);
  ASSERT_FALSE(made);
  EXPECT_TRUE(made.error().no_program);
}

TEST(AFilm, ThatCannotBeWrittenSaysWhy) {
  const auto made = make_film("/no/such/folder/a.mp4", FilmKind::mp4, tiny, plan(), words(), look(),
                              clip_timeline(plan(), 0), [](double) { return true; });
  ASSERT_FALSE(made);
  EXPECT_FALSE(made.error().no_program);
  EXPECT_THAT(made.error().reason, HasSubstr("No such file"));
}

}  // namespace
}  // namespace ahead::lesson
