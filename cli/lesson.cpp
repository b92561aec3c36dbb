#include <algorithm>
#include <atomic>
#include <csignal>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <unistd.h>

#include "cli/paragraph.h"
#include "cli/progress.h"
#include "cli/verbs.h"
#include "coach/read/reading.h"
#include "formats/manifest.h"
#include "formats/plan.h"
#include "formats/player.h"
#include "formats/table.h"
#include "formats/teacher_words.h"
#include "formats/text_file.h"
#include "lesson/film/captions.h"
#include "lesson/film/film.h"
#include "lesson/pictures.h"
#include "lesson/render/house_fonts.h"
#include "lesson/render/png.h"
#include "lesson/replay/replay_page.h"
#include "lesson/sheet/sheet.h"
#include "lesson/told/edits.h"
#include "lesson/told/lesson_words.h"

namespace ahead::cli {
namespace {

namespace fs = std::filesystem;
using formats::InputError;
using Failure = std::optional<InputError>;

struct Options {
  Common common;
  std::string plan;
  std::string out;
  std::vector<std::string> what{"words", "pictures", "sheet", "page", "captions"};
  std::string reader = "pupil";
  std::string units = "mm";
  std::string vocabulary = "uk";
  std::vector<std::string> layers{"aim", "contours", "numbers"};
  bool transparent = false;
  int width = 1600;
  std::vector<std::string> films{"wide-mp4", "tall-mp4"};
  std::size_t clip = 1;

  [[nodiscard]] bool wants(std::string_view each) const {
    return std::ranges::find(what, each) != what.end();
  }
  [[nodiscard]] bool shows(std::string_view layer) const {
    return std::ranges::find(layers, layer) != layers.end();
  }
};

lesson::Voice voice_of(const Options& options) {
  return {
      .depth = options.reader == "viewer" ? lesson::Depth::viewer
               : options.reader == "self" ? lesson::Depth::self
                                          : lesson::Depth::pupil,
      .units = options.units == "in" ? lesson::Units::in : lesson::Units::mm,
      .vocabulary = options.vocabulary == "us" ? lesson::Vocabulary::us : lesson::Vocabulary::uk};
}

/// Set by Ctrl-C while a film is made.
std::atomic<bool> stopped{false};

/// Ctrl-C asks to stop for as long as this lives.
class StopOnInterrupt {
 public:
  StopOnInterrupt() {
    stopped = false;
    struct sigaction action{};
    action.sa_handler = [](int) { stopped = true; };
    sigaction(SIGINT, &action, &before_);
  }
  ~StopOnInterrupt() { sigaction(SIGINT, &before_, nullptr); }
  StopOnInterrupt(const StopOnInterrupt&) = delete;
  StopOnInterrupt& operator=(const StopOnInterrupt&) = delete;

 private:
  struct sigaction before_{};
};

/// Makes one lesson: each part writes its files into the folder and notes them for the manifest.
class Making {
 public:
  Making(const Options& options, const coach::Plan& plan, lesson::Edited told)
      : options_(options), plan_(plan), told_(std::move(told)), look_(lesson::house_look()) {}

  Failure words() {
    std::string text;
    for (const lesson::Sentence& each : told_.words.clearance) text += paragraph(each.text, 0);
    for (std::size_t i = 0; i < told_.words.shots.size(); ++i) {
      text += fmt::format("\n{}. {}\n", i + 1, told_.words.heading_of(plan_, i));
      for (const lesson::Sentence& each : told_.words.shots[i]) text += paragraph(each.text, 3);
    }
    if (auto error = keep("words.json", formats::write_teacher_words(told_.file))) return error;
    return keep("words.txt", text);
  }

  Failure pictures() {
    if (auto error = formats::make_folder(folder() / "pictures")) return error;
    const lesson::ShotLayers layers{.aim = options_.shows("aim"),
                                    .construction = options_.shows("construction"),
                                    .contours = options_.shows("contours"),
                                    .rivals = options_.shows("rivals"),
                                    .zone = options_.shows("zone"),
                                    .numbers = options_.shows("numbers")};
    const auto ground = options_.transparent ? lesson::Ground::clear : lesson::Ground::paper;
    for (const lesson::Picture& each :
         lesson::lesson_pictures(plan_, told_.words, look_, layers, ground)) {
      if (auto error = keep("pictures/" + each.name + ".svg", each.svg)) return error;
      const std::string png = lesson::png_of(each.svg, options_.width);
      if (auto error = keep("pictures/" + each.name + ".png", png)) return error;
    }
    return std::nullopt;
  }

  Failure sheet() {
    if (auto error =
            keep("sheet-a4.pdf", lesson::sheet(plan_, told_.words, look_, lesson::Paper::a4))) {
      return error;
    }
    return keep("sheet-letter.pdf",
                lesson::sheet(plan_, told_.words, look_, lesson::Paper::letter));
  }

  Failure page() { return keep("clearance.html", lesson::replay_page(plan_, told_.words, look_)); }

  Failure captions() {
    const lesson::Timeline line = lesson::timeline(plan_, told_.words);
    if (auto error = keep("captions.vtt", lesson::captions(line))) return error;
    if (auto error = keep("transcript.txt", lesson::transcript(plan_, line, told_.words))) {
      return error;
    }
    return keep("audio-description.txt", lesson::audio_description(plan_, line, told_.words));
  }

  Failure animation() {
    const StopOnInterrupt listening;
    const lesson::Timeline line = lesson::timeline(plan_, told_.words);
    for (const std::string& each : options_.films) {
      const bool wide = each.starts_with("wide");
      const bool mp4 = each.ends_with("mp4");
      const std::string name =
          fmt::format("clearance-{}.{}", wide ? "1080p" : "vertical", mp4 ? "mp4" : "webm");
      if (auto error = film(name, mp4 ? lesson::FilmKind::mp4 : lesson::FilmKind::webm,
                            wide ? lesson::wide_film : lesson::tall_film, line)) {
        return error;
      }
    }
    return film(fmt::format("shot-{:02}.gif", options_.clip), lesson::FilmKind::gif,
                lesson::clip_film, lesson::clip_timeline(plan_, options_.clip - 1));
  }

  Failure manifest(std::string_view plan_text) {
    formats::Manifest manifest{
        .program = "ahead " AHEAD_VERSION,
        .plan = {fs::path(options_.plan).filename().string(), lesson::sha256_of(plan_text)},
        .table = {plan_.layout.table.id,
                  lesson::sha256_of(formats::write_table(plan_.layout.table))},
        .player = {plan_.player.id, lesson::sha256_of(formats::write_player(plan_.player))},
        .seed = plan_.seed,
        .settings = {{"what", fmt::format("{}", fmt::join(options_.what, ","))},
                     {"for", options_.reader},
                     {"units", options_.units},
                     {"words", options_.vocabulary},
                     {"layers", fmt::format("{}", fmt::join(options_.layers, ","))},
                     {"transparent", options_.transparent ? "yes" : "no"},
                     {"png-width", std::to_string(options_.width)},
                     {"film", fmt::format("{}", fmt::join(options_.films, ","))},
                     {"clip", std::to_string(options_.clip)}},
        .files = files_};
    for (const lesson::LibraryVersion& each : lesson::drawing_libraries()) {
      manifest.libraries.push_back({each.name, each.version});
    }
    if (options_.wants("animation")) {
      manifest.libraries.push_back({"ffmpeg", lesson::ffmpeg_version()});
    }
    for (const lesson::HouseFont& font : lesson::house_fonts()) {
      manifest.fonts.push_back({font.found, lesson::sha256_of_file(font.file)});
    }
    return formats::write_file(folder() / "manifest.json", formats::write_manifest(manifest));
  }

  [[nodiscard]] const std::vector<formats::OutputFile>& files() const { return files_; }
  [[nodiscard]] const lesson::Edited& told() const { return told_; }

 private:
  [[nodiscard]] fs::path folder() const { return options_.out; }

  Failure keep(const std::string& name, const std::string& bytes) {
    if (auto error = formats::write_file(folder() / name, bytes)) return error;
    files_.push_back({name, bytes.size(), lesson::sha256_of(bytes)});
    return std::nullopt;
  }

  Failure film(const std::string& name, lesson::FilmKind kind, const lesson::FilmShape& shape,
               const lesson::Timeline& line) {
    if (stopped) return std::nullopt;
    const bool shown = isatty(STDERR_FILENO) != 0;
    const fs::path file = folder() / name;
    const auto made =
        lesson::make_film(file, kind, shape, plan_, told_.words, look_, line, [&](double done) {
          if (shown) show_progress({name, done});
          return !stopped;
        });
    if (shown) show_progress({name, 1});
    if (!made) {
      return made.error().no_program
                 ? formats::missing_program("ffmpeg", "the animation")
                 : formats::failed_program("ffmpeg", file.string(), made.error().reason);
    }
    if (*made) {
      files_.push_back({name, static_cast<std::size_t>(fs::file_size(file)),
                        lesson::sha256_of_file(file.string())});
    }
    return std::nullopt;
  }

  const Options& options_;
  const coach::Plan& plan_;
  lesson::Edited told_;
  lesson::Look look_;
  std::vector<formats::OutputFile> files_;
};

/// The words as the teacher left them; none the first time.
std::expected<formats::TeacherWords, InputError> words_before(const fs::path& file) {
  if (!fs::exists(file)) return formats::TeacherWords{};
  const auto text = formats::read_file(file);
  if (!text) return std::unexpected(text.error());
  return formats::read_teacher_words(*text, file.string());
}

/// What the teacher should look at.
std::string notes(const lesson::Edited& told) {
  std::string out;
  const auto add = [&out](const std::string& words) {
    if (!out.empty()) out += '\n';
    out += words;
  };
  if (!told.flagged.empty()) {
    add(
        fmt::format("Your words no longer fit the facts, so the computed ones were used: {} (see "
                    "mine_for in words.json)",
                    fmt::join(told.flagged, ", ")));
  }
  if (!told.unused.empty()) {
    add(fmt::format("Your words for sentences that are no longer said are kept in words.json: {}",
                    fmt::join(told.unused, ", ")));
  }
  for (const lesson::HouseFont& font : lesson::house_fonts()) {
    if (font.found == font.wanted) continue;
    add(fmt::format("The font {} is not installed: {} was used, and the lesson looks different",
                    font.wanted, font.found.empty() ? "another" : font.found));
  }
  return out;
}

Outcome run(const Options& options) {
  const auto text = formats::read_file(options.plan);
  if (!text) return std::unexpected(text.error());
  const auto plan = formats::read_plan(*text, options.plan);
  if (!plan) return std::unexpected(plan.error());
  if (options.clip > plan->shots.size()) {
    return std::unexpected(formats::no_such_shot(options.clip, plan->shots.size()));
  }
  if (auto error = formats::make_folder(options.out)) return std::unexpected(*error);
  const auto before = words_before(fs::path(options.out) / "words.json");
  if (!before) return std::unexpected(before.error());

  const coach::Reading reading = coach::read_table(plan->layout, plan->player, plan->seed);
  Making making(
      options, *plan,
      lesson::with_edits(lesson::lesson_words(*plan, reading, voice_of(options)), *before));
  struct Step {
    std::string_view what;
    Failure (Making::*make)();
  };
  for (const Step& step :
       {Step{"words", &Making::words}, Step{"pictures", &Making::pictures},
        Step{"sheet", &Making::sheet}, Step{"page", &Making::page},
        Step{"captions", &Making::captions}, Step{"animation", &Making::animation}}) {
    if (!options.wants(step.what)) continue;
    if (auto error = (making.*step.make)()) return std::unexpected(*error);
  }
  if (auto error = making.manifest(*text)) return std::unexpected(*error);

  Answer answer{.note = notes(making.told())};
  if (stopped) {
    answer.exit = Exit::no;
    answer.note += "stopped: the films that were not finished were left out";
  }
  if (options.common.json) {
    const auto manifest = formats::read_file(fs::path(options.out) / "manifest.json");
    if (!manifest) return std::unexpected(manifest.error());
    answer.out = *manifest;
    return answer;
  }
  for (const formats::OutputFile& file : making.files()) {
    answer.out += fmt::format("{:>9} bytes  {}\n", file.bytes, file.name);
  }
  return answer;
}

}  // namespace

Run lesson_verb(CLI::App& app) {
  auto options = std::make_shared<Options>();
  app.add_option("PLAN", options->plan, "Plan file, as \"ahead plan --out\" writes it")->required();
  app.add_option("--out", options->out, "Folder for the lesson")->required()->type_name("DIR");
  const auto list = [&app](const std::string& name, std::vector<std::string>& into,
                           const std::string& words, const std::vector<std::string>& among) {
    app.add_option(name, into, words)
        ->delimiter(',')
        ->check(CLI::IsMember(among))
        ->type_name("LIST")
        ->capture_default_str();
  };
  const auto choice = [&app](const std::string& name, std::string& into, const std::string& words,
                             const std::vector<std::string>& among) {
    app.add_option(name, into, words)->check(CLI::IsMember(among))->capture_default_str();
  };
  list("--what", options->what, "What to make",
       {"words", "pictures", "sheet", "page", "captions", "animation"});
  choice("--for", options->reader, "Who reads it: short, how to, or with the numbers",
         {"viewer", "pupil", "self"});
  choice("--units", options->units, "Of lengths and speeds", {"mm", "in"});
  choice("--words", options->vocabulary, "Whose words of the trade", {"uk", "us"});
  list("--layers", options->layers, "What the pictures show beside balls and paths",
       {"aim", "construction", "contours", "rivals", "zone", "numbers"});
  app.add_flag("--transparent", options->transparent, "Pictures without paper under them");
  app.add_option("--png-width", options->width, "Width of the PNG pictures, pixels")
      ->check(CLI::Range(100, lesson::most_pixels))
      ->capture_default_str()
      ->type_name("N");
  list("--film", options->films, "Films of the animation",
       {"wide-mp4", "wide-webm", "tall-mp4", "tall-webm"});
  app.add_option("--clip", options->clip, "Shot of which the animation adds a short GIF")
      ->check(CLI::Range(1, 99))
      ->capture_default_str()
      ->type_name("K");
  add_common(app, options->common);
  app.footer(R"(Example:
  ahead lesson out/evening/plan.json --out out/lesson --for pupil --units mm
    writes words, pictures, sheet, page and captions; manifest.json lists them.

The animation takes minutes and the program ffmpeg, so it is made only when --what names it. Ctrl-C
stops it; films that are done stay.
To say a sentence in your own words, add "mine": "..." beside it in words.json and run this again.
Your words are kept while the facts that the sentence rests on stay the same; when those change, the
computed sentence is used and yours is flagged.)");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
