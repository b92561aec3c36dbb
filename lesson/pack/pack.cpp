#include "lesson/pack/pack.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "formats/player.h"
#include "formats/table.h"
#include "formats/teacher_words.h"
#include "formats/text_file.h"
#include "lesson/film/captions.h"
#include "lesson/film/film.h"
#include "lesson/pack/words_text.h"
#include "lesson/pictures.h"
#include "lesson/render/house_fonts.h"
#include "lesson/render/png.h"
#include "lesson/replay/replay_page.h"
#include "lesson/sheet/sheet.h"

namespace ahead::lesson {
namespace {

namespace fs = std::filesystem;
using formats::InputError;
using formats::LessonSettings;
using Failure = std::optional<InputError>;

bool has(const std::vector<std::string>& list, std::string_view each) {
  return std::ranges::find(list, each) != list.end();
}

/// Each part writes its files into the folder and notes them for the manifest.
class Making {
 public:
  Making(const coach::Plan& plan, const Edited& told, const LessonSettings& settings,
         const fs::path& folder, const OnStep& on_step)
      : plan_(plan),
        told_(told),
        settings_(settings),
        folder_(folder),
        on_step_(on_step),
        look_(house_look()) {}

  Failure words() {
    if (auto error = keep("words.json", formats::write_teacher_words(told_.file))) return error;
    return keep("words.txt", words_text(plan_, told_.words));
  }

  Failure pictures() {
    if (auto error = formats::make_folder(folder_ / "pictures")) return error;
    const auto ground = settings_.transparent ? Ground::clear : Ground::paper;
    for (const Picture& each :
         lesson_pictures(plan_, told_.words, look_, layers_of(settings_), ground)) {
      if (auto error = keep("pictures/" + each.name + ".svg", each.svg)) return error;
      const std::string png = png_of(each.svg, settings_.png_width);
      if (auto error = keep("pictures/" + each.name + ".png", png)) return error;
      if (stopped_) break;
    }
    return std::nullopt;
  }

  Failure sheet() {
    if (auto error = keep("sheet-a4.pdf", lesson::sheet(plan_, told_.words, look_, Paper::a4))) {
      return error;
    }
    return keep("sheet-letter.pdf", lesson::sheet(plan_, told_.words, look_, Paper::letter));
  }

  Failure page() { return keep("clearance.html", replay_page(plan_, told_.words, look_)); }

  Failure captions() {
    const Timeline line = timeline(plan_, told_.words);
    if (auto error = keep("captions.vtt", lesson::captions(line))) return error;
    if (auto error = keep("transcript.txt", transcript(plan_, line, told_.words))) return error;
    return keep("audio-description.txt", audio_description(plan_, line, told_.words));
  }

  Failure animation() {
    const Timeline line = timeline(plan_, told_.words);
    for (const std::string& each : settings_.films) {
      const bool wide = each.starts_with("wide");
      const bool mp4 = each.ends_with("mp4");
      const std::string name =
          fmt::format("clearance-{}.{}", wide ? "1080p" : "vertical", mp4 ? "mp4" : "webm");
      if (auto error = film(name, mp4 ? FilmKind::mp4 : FilmKind::webm,
                            wide ? wide_film : tall_film, line)) {
        return error;
      }
    }
    return film(fmt::format("shot-{:02}.gif", settings_.clip), FilmKind::gif, clip_film,
                clip_timeline(plan_, settings_.clip - 1));
  }

  [[nodiscard]] std::string manifest(const Origin& origin) const {
    formats::Manifest manifest{
        .program = origin.program,
        .plan = {origin.plan, sha256_of(origin.plan_text)},
        .table = {plan_.layout.table.id, sha256_of(formats::write_table(plan_.layout.table))},
        .player = {plan_.player.id, sha256_of(formats::write_player(plan_.player))},
        .seed = plan_.seed,
        .settings = {{"what", fmt::format("{}", fmt::join(settings_.what, ","))},
                     {"for", settings_.reader},
                     {"units", settings_.units},
                     {"words", settings_.vocabulary},
                     {"layers", fmt::format("{}", fmt::join(settings_.layers, ","))},
                     {"transparent", settings_.transparent ? "yes" : "no"},
                     {"png-width", std::to_string(settings_.png_width)},
                     {"film", fmt::format("{}", fmt::join(settings_.films, ","))},
                     {"clip", std::to_string(settings_.clip)}},
        .files = files_};
    for (const LibraryVersion& each : drawing_libraries()) {
      manifest.libraries.push_back({each.name, each.version});
    }
    if (has(settings_.what, "animation")) {
      manifest.libraries.push_back({"ffmpeg", ffmpeg_version()});
    }
    for (const HouseFont& font : house_fonts()) {
      manifest.fonts.push_back({font.found, sha256_of_file(font.file)});
    }
    return formats::write_manifest(manifest);
  }

  [[nodiscard]] const std::vector<formats::OutputFile>& files() const { return files_; }
  [[nodiscard]] bool stopped() const { return stopped_; }

 private:
  void step(const std::string& name, double done) { stopped_ = stopped_ || !on_step_(name, done); }

  Failure keep(const std::string& name, const std::string& bytes) {
    if (auto error = formats::write_file(folder_ / name, bytes)) return error;
    files_.push_back({name, bytes.size(), sha256_of(bytes)});
    step(name, 1);
    return std::nullopt;
  }

  Failure film(const std::string& name, FilmKind kind, const FilmShape& shape,
               const Timeline& line) {
    if (stopped_) return std::nullopt;
    const fs::path file = folder_ / name;
    const auto made =
        make_film(file, kind, shape, plan_, told_.words, look_, line, [&](double done) {
          step(name, done);
          return !stopped_;
        });
    if (!made) {
      return made.error().no_program
                 ? formats::missing_program("ffmpeg", "the animation")
                 : formats::failed_program("ffmpeg", file.string(), made.error().reason);
    }
    if (*made) {
      files_.push_back(
          {name, static_cast<std::size_t>(fs::file_size(file)), sha256_of_file(file.string())});
      step(name, 1);
    }
    return std::nullopt;
  }

  const coach::Plan& plan_;
  const Edited& told_;
  const LessonSettings& settings_;
  const fs::path& folder_;
  const OnStep& on_step_;
  Look look_;
  std::vector<formats::OutputFile> files_;
  bool stopped_ = false;
};

}  // namespace

Voice voice_of(const LessonSettings& settings) {
  return {.depth = settings.reader == "viewer" ? Depth::viewer
                   : settings.reader == "self" ? Depth::self
                                               : Depth::pupil,
          .units = settings.units == "in" ? Units::in : Units::mm,
          .vocabulary = settings.vocabulary == "us" ? Vocabulary::us : Vocabulary::uk};
}

ShotLayers layers_of(const LessonSettings& settings) {
  return {.aim = has(settings.layers, "aim"),
          .construction = has(settings.layers, "construction"),
          .contours = has(settings.layers, "contours"),
          .rivals = has(settings.layers, "rivals"),
          .zone = has(settings.layers, "zone"),
          .numbers = has(settings.layers, "numbers")};
}

std::expected<Pack, InputError> make_pack(const coach::Plan& plan, const Origin& origin,
                                          const Edited& told, const LessonSettings& settings,
                                          const fs::path& folder, const OnStep& on_step) {
  Making making(plan, told, settings, folder, on_step);
  struct Piece {
    std::string_view what;
    Failure (Making::*make)();
  };
  for (const Piece& piece :
       {Piece{"words", &Making::words}, Piece{"pictures", &Making::pictures},
        Piece{"sheet", &Making::sheet}, Piece{"page", &Making::page},
        Piece{"captions", &Making::captions}, Piece{"animation", &Making::animation}}) {
    if (!has(settings.what, piece.what) || making.stopped()) continue;
    if (auto error = (making.*piece.make)()) return std::unexpected(*error);
  }
  Pack pack{
      .files = making.files(), .manifest = making.manifest(origin), .stopped = making.stopped()};
  if (auto error = formats::write_file(folder / "manifest.json", pack.manifest)) {
    return std::unexpected(*error);
  }
  return pack;
}

}  // namespace ahead::lesson
