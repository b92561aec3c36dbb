#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <unistd.h>

#include "cli/interrupt.h"
#include "cli/progress.h"
#include "cli/verbs.h"
#include "coach/read/reading.h"
#include "formats/after.h"
#include "formats/lesson_settings.h"
#include "formats/plan.h"
#include "formats/teacher_words.h"
#include "formats/text_file.h"
#include "lesson/pack/pack.h"
#include "lesson/render/house_fonts.h"

namespace ahead::cli {
namespace {

namespace fs = std::filesystem;
using formats::InputError;

struct Options {
  Common common;
  std::string plan;
  std::string out;
  std::vector<std::string> played;
  formats::LessonSettings settings;
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

/// The plan as it was played, shot by shot.
std::expected<coach::AsPlayed, InputError> given_played(const coach::Plan& plan,
                                                        const std::vector<std::string>& files) {
  std::vector<coach::PlayedShot> shots;
  for (const std::string& file : files) {
    const auto text = formats::read_file(file);
    if (!text) return std::unexpected(text.error());
    auto shot = formats::read_played(*text, file);
    if (!shot) return std::unexpected(shot.error());
    shots.push_back(*std::move(shot));
  }
  auto played = coach::as_played(plan, shots);
  if (played) return *std::move(played);
  const std::size_t at = played.error();
  return std::unexpected(
      formats::other_comparison({.file = files[at], .place = "/shot"}, shots[at].ball));
}

Outcome run(const Options& options) {
  const Interrupt interrupt;
  const auto text = formats::read_file(options.plan);
  if (!text) return std::unexpected(text.error());
  const auto plan = formats::read_plan(*text, options.plan);
  if (!plan) return std::unexpected(plan.error());
  const auto played = given_played(*plan, options.played);
  if (!played) return std::unexpected(played.error());
  const coach::Plan& told_plan = played->plan;
  const formats::LessonSettings& settings = options.settings;
  if (settings.clip > told_plan.shots.size()) {
    return std::unexpected(formats::no_such_shot(settings.clip, told_plan.shots.size()));
  }
  if (auto error = formats::make_folder(options.out)) return std::unexpected(*error);
  const auto before = words_before(fs::path(options.out) / "words.json");
  if (!before) return std::unexpected(before.error());

  const lesson::Edited told = lesson::with_edits(
      lesson::lesson_words(*played, coach::read_balls(plan->layout), lesson::voice_of(settings)),
      *before);
  const lesson::Origin origin{.program = "ahead " AHEAD_VERSION,
                              .plan = fs::path(options.plan).filename().string(),
                              .plan_text = *text};
  const bool shown = isatty(STDERR_FILENO) != 0;
  const auto pack = lesson::make_pack(told_plan, origin, told, settings, options.out,
                                      [&](const std::string& file, double done) {
                                        if (shown) show_progress({file, done});
                                        return !interrupt.token().stop_requested();
                                      });
  if (!pack) return std::unexpected(pack.error());

  Answer answer{.note = notes(told)};
  if (pack->stopped) {
    answer.exit = Exit::no;
    answer.note += "stopped: the files that were not finished were left out";
  }
  if (options.common.json) {
    answer.out = pack->manifest;
    return answer;
  }
  for (const formats::OutputFile& file : pack->files) {
    answer.out += fmt::format("{:>9} bytes  {}\n", file.bytes, file.name);
  }
  return answer;
}

}  // namespace

Run lesson_verb(CLI::App& app) {
  auto options = std::make_shared<Options>();
  app.add_option("PLAN", options->plan, "Plan file, as \"ahead plan --out\" writes it")->required();
  app.add_option("--out", options->out, "Folder for the lesson")->required()->type_name("DIR");
  formats::LessonSettings& settings = options->settings;
  const auto among = [](std::span<const std::string_view> names) {
    return CLI::IsMember(std::vector<std::string>(names.begin(), names.end()));
  };
  const auto list = [&](const std::string& name, std::vector<std::string>& into,
                        const std::string& words, std::span<const std::string_view> names) {
    app.add_option(name, into, words)
        ->delimiter(',')
        ->check(among(names))
        ->type_name("LIST")
        ->capture_default_str();
  };
  const auto choice = [&](const std::string& name, std::string& into, const std::string& words,
                          std::span<const std::string_view> names) {
    app.add_option(name, into, words)->check(among(names))->capture_default_str();
  };
  list("--what", settings.what, "What to make", formats::lesson_outputs);
  choice("--for", settings.reader, "Who reads it: short, how to, or with the numbers",
         formats::lesson_readers);
  choice("--units", settings.units, "Of lengths and speeds", formats::lesson_units);
  choice("--words", settings.vocabulary, "Whose words of the trade", formats::lesson_vocabularies);
  list("--layers", settings.layers, "What the pictures show beside balls and paths",
       formats::lesson_layers);
  app.add_flag("--transparent", settings.transparent, "Pictures without paper under them");
  app.add_option("--png-width", settings.png_width, "Width of the PNG pictures, pixels")
      ->check(CLI::Range(formats::least_png_width, formats::most_png_width))
      ->capture_default_str()
      ->type_name("N");
  list("--film", settings.films, "Films of the animation", formats::lesson_films);
  app.add_option("--clip", settings.clip, "Shot of which the animation adds a short GIF")
      ->check(CLI::Range(1, 99))
      ->capture_default_str()
      ->type_name("K");
  app.add_option("--played", options->played,
                 "Tell what came of it: after.json of each shot that was played, in its order")
      ->check(CLI::ExistingFile)
      ->type_name("FILE...");
  add_common(app, options->common);
  app.footer(R"(Example:
  ahead lesson out/evening/plan.json --out out/lesson --for pupil --units mm
    writes words, pictures, sheet, page and captions; manifest.json lists them.
  ahead lesson out/evening/plan.json --played out/after/after.json --out out/played
    tells the clearance as it was played: each shot as it was meant and what came of it, then the
    shots to come. Each after.json is compared with the new plan of the one before it.

The animation takes minutes and the program ffmpeg, so it is made only when --what names it. Ctrl-C
stops it; films that are done stay.
To say a sentence in your own words, add "mine": "..." beside it in words.json and run this again.
Your words are kept while the facts that the sentence rests on stay the same; when those change, the
computed sentence is used and yours is flagged.)");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
